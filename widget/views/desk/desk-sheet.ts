/**
 * The phone desk: the same notebook, opened flat. With a mouse targets are 28 pixels, above the 24 of WCAG 2.2 AA (2.5.8):
 * a call is done from the keyboard, and all open questions have to be in view. Where a finger may press as well, they are
 * the 44 pixels of the other pages.
 */
export const deskSheet = `
.desk { --lt-desk: max(0.875rem, 14px); --desk-target: 28px; font-size: var(--lt-desk); line-height: 1.35; }
.desk body { padding: 0 calc(var(--lt-unit) * 4) calc(var(--lt-unit) * 6); }
.desk .desk-top { display: flex; flex-wrap: wrap; align-items: center; gap: 0 calc(var(--lt-unit) * 6); border-block-end: 2px solid var(--lt-accent); margin-block-end: calc(var(--lt-unit) * 3); }
.desk .desk-h1 { font: 600 var(--lt-large)/1.3 var(--lt-serif); }
.desk-nav { display: flex; flex-wrap: wrap; gap: 0 calc(var(--lt-unit) * 4); }
.desk-nav a { display: inline-flex; align-items: center; min-block-size: 44px; }
.desk-cols { display: grid; gap: calc(var(--lt-unit) * 4) calc(var(--lt-unit) * 6); grid-template-columns: minmax(0, 1fr); align-items: start; }
.desk-cols > *, .desk-first { min-inline-size: 0; }
@media (min-width: 760px) { .desk-cols { grid-template-columns: minmax(0, 11fr) minmax(0, 9fr); } .desk-could { grid-column: 2; } }
@media (min-width: 1080px) { .desk-cols { grid-template-columns: minmax(0, 11fr) minmax(0, 11fr) minmax(0, 9fr); } .desk-could { grid-column: auto; } .desk-form { grid-column: span 2; display: grid; grid-template-columns: subgrid; align-items: start; } }
.desk-below { margin-block-start: calc(var(--lt-unit) * 6); border-block-start: 1px solid var(--lt-edge); padding-block-start: calc(var(--lt-unit) * 3); }
.desk .desk-h2 { font: 600 var(--lt-text)/1.3 var(--lt-serif); border-block-end: 1px solid var(--lt-edge); margin-block-end: calc(var(--lt-unit) * 1.5); }
.desk .desk-h3 { font: 600 var(--lt-desk)/1.3 var(--lt-sans); }
.desk-eyebrow, .desk-label { color: var(--lt-accent); font-weight: 600; font-size: var(--lt-desk); }
.desk-label { display: block; color: var(--lt-ink); }
.desk-quiet { color: var(--lt-faint); }
.desk-key { display: inline-block; flex: none; white-space: nowrap; min-inline-size: 1.7em; padding: 0 0.35em; border: 1px solid var(--lt-edge); border-radius: 3px; background: var(--lt-leaf); color: var(--lt-ink); font: 600 0.92em/1.45 ui-monospace, "DejaVu Sans Mono", Consolas, monospace; text-align: center; }
.desk :is(.desk-small, .desk-button) { appearance: none; display: inline-flex; align-items: center; gap: 0.4em; min-block-size: var(--desk-target); padding: 2px 6px; border: 1px solid var(--lt-edge); border-radius: 2px; background: var(--lt-leaf); color: var(--lt-ink); font: inherit; text-decoration: none; cursor: pointer; }
.desk :is(.desk-small, .desk-button, .desk-option):hover { background: var(--lt-wash); }
.desk .desk-button { min-block-size: 36px; padding-inline: 14px; font-weight: 600; }
.desk .desk-button-main { background: var(--lt-ink); color: var(--lt-leaf); min-block-size: 44px; }
.desk .desk-button-main:hover { background: var(--lt-accent); }
.desk-take { margin-block: calc(var(--lt-unit) * 3) !important; }
.desk .desk-input { min-block-size: 36px; margin: 0; padding: 4px 8px; font-size: var(--lt-desk); max-inline-size: none; }
.desk-listen { display: grid; gap: 2px; grid-template-columns: minmax(0, 1fr); }
.desk-listen-row { display: flex; flex-wrap: wrap; gap: 6px; align-items: center; }
.desk .desk-keys { flex: 1 1 75%; inline-size: auto; min-inline-size: 3.5em; border: 2px solid var(--lt-accent); font: 600 var(--lt-text)/1.3 ui-monospace, "DejaVu Sans Mono", Consolas, monospace; }
.desk-said { min-block-size: 2.7em; border-inline-start: 4px solid var(--lt-rule); padding-inline-start: 8px !important; }
.desk-found:not(:empty) { border: 1px solid var(--lt-edge); background: var(--lt-leaf); }
.desk-at { background: var(--lt-wash); box-shadow: inset 3px 0 0 var(--lt-accent); }
.desk-best { background: var(--lt-leaf); border: 2px solid var(--lt-accent); padding: calc(var(--lt-unit) * 3); margin-block: calc(var(--lt-unit) * 2); }
.desk .desk-say { font: 600 var(--lt-large)/1.25 var(--lt-serif); margin-block: 2px calc(var(--lt-unit)); }
.desk-why { font-style: italic; margin-block-end: calc(var(--lt-unit) * 1.5) !important; }
.desk-question { display: block; }
.desk-legend { padding: 0; font-weight: 600; }
.desk-chosen { outline: 3px solid var(--lt-accent); outline-offset: 3px; }
.desk .desk-options { list-style: none; padding: 0; display: grid; grid-template-columns: repeat(auto-fill, minmax(min(100%, 13.5em), 1fr)); gap: 2px 8px; }
.desk .desk-options > li { margin: 0; }
.desk .desk-option { appearance: none; display: flex; gap: 0.5em; align-items: baseline; inline-size: 100%; min-block-size: var(--desk-target); padding: 3px 4px; border: 0; border-block-end: 1px solid var(--lt-rule); background: transparent; color: inherit; font: inherit; line-height: 1.25; text-align: start; cursor: pointer; }
.desk .desk-option > span { min-inline-size: 0; overflow-wrap: anywhere; }
.desk .desk-option:is([aria-pressed="true"], :has(:checked)) { background: var(--lt-wash); box-shadow: inset 3px 0 0 var(--lt-accent); font-weight: 600; }
.desk .desk-option input { flex: none; align-self: center; inline-size: 1.2em; block-size: 1.2em; margin: 0; accent-color: var(--lt-accent); }
.desk .desk-list, .desk .desk-rows, .desk .desk-lines { list-style: none; padding: 0; }
.desk .desk-item { margin: 0 0 calc(var(--lt-unit) * 2.5); }
.desk-gone { color: var(--lt-faint); }
.desk-gone .desk-legend, .desk-gone .desk-name { text-decoration: line-through; }
.desk-plant { display: flex; flex-wrap: wrap; gap: 2px 8px; align-items: center; }
.desk-plant .desk-input { flex: 1 1 9em; inline-size: auto; min-inline-size: 0; }
.desk .desk-plant .desk-option { inline-size: auto; border: 0; align-items: center; }
.desk-fold { margin-block-start: calc(var(--lt-unit) * 2); }
.desk-fold > summary { min-block-size: var(--desk-target); padding-block: 4px; cursor: pointer; font-weight: 600; }
.desk-fold .desk-question { margin-block-end: calc(var(--lt-unit) * 2); }
.desk .desk-row { display: grid; grid-template-columns: minmax(0, 1fr) 5.5em 6.5em; gap: 8px; align-items: center; min-block-size: 2.9em; margin: 0; border-block-end: 1px solid var(--lt-rule); line-height: 1.2; }
.desk-leader .desk-name { font-weight: 600; }
.desk-standing { text-align: end; }
.desk-row.desk-gone { grid-template-columns: minmax(0, 1fr) 12em; }
.desk-meter { inline-size: 100%; block-size: 10px; appearance: none; border: 1px solid var(--lt-edge); background: var(--lt-leaf); }
.desk-meter::-webkit-meter-bar { background: var(--lt-leaf); border: 0; border-radius: 0; block-size: 8px; }
.desk-meter::-webkit-meter-optimum-value { background: var(--lt-ink); border-radius: 0; }
.desk-meter::-moz-meter-bar { background: var(--lt-ink); }
.desk-apart { margin-block: calc(var(--lt-unit) * 2); padding-inline-start: 8px; border-inline-start: 4px solid var(--lt-accent); }
.desk-apart-ask { font-weight: 600; }
.desk .desk-reasons { margin-block-start: calc(var(--lt-unit) * 2); }
.desk .lt-reasons { margin-block: 0; gap: 2px 12px; grid-template-columns: repeat(auto-fit, minmax(min(100%, 11em), 1fr)); }
.desk .lt-reasons :is(h4, h5).lt-label { font-size: var(--lt-desk); font-weight: 400; color: var(--lt-faint); }
.desk .lt-reasons li { margin-block: 0; }
.desk .desk-told { margin-block: calc(var(--lt-unit) * 3); }
:is(.desk-first, .desk-form + div) > :is(.desk-best, .desk-told):first-child { margin-block-start: 0 !important; }
.desk .desk-line { display: flex; gap: 8px; align-items: start; justify-content: space-between; margin: 0; padding-block: 2px; border-block-end: 1px solid var(--lt-rule); }
.desk-line > span { min-inline-size: 0; overflow-wrap: anywhere; }
.desk-line .desk-small { flex: none; }
.desk-lines + .desk-small { margin-block-start: calc(var(--lt-unit) * 2); }
.desk-panel { background: var(--lt-leaf); border: 2px solid var(--lt-ink); padding: calc(var(--lt-unit) * 3); margin-block: calc(var(--lt-unit) * 2); }
.desk-panel-head { display: flex; justify-content: space-between; align-items: start; }
.desk .desk-heard { border-color: var(--lt-accent); }
.desk-heard > :is(p, .desk-question) { margin-block-end: calc(var(--lt-unit) * 1.5) !important; }
.desk .desk-heard .desk-options { grid-template-columns: minmax(0, 1fr); }
.desk-heard .desk-option .desk-quiet { color: inherit; font-weight: 400; font-style: italic; }
.desk-rest { padding-inline-start: 8px; border-inline-start: 4px solid var(--lt-edge); }
.desk-words { max-inline-size: 60rem; margin-block: calc(var(--lt-unit) * 2) calc(var(--lt-unit) * 3); }
.desk-words .desk-button { min-block-size: 44px; }
.desk-keylist > div { display: grid; grid-template-columns: 11em minmax(0, 1fr); gap: 8px; padding-block: 2px; border-block-end: 1px solid var(--lt-rule); }
.desk-hand { display: grid; grid-template-columns: minmax(0, 1fr) minmax(8.5rem, 13rem); gap: calc(var(--lt-unit) * 3); align-items: start; }
.desk-hand .slip-qr { display: block; inline-size: 100%; max-inline-size: 13rem; block-size: auto; forced-color-adjust: none; }
.slip-qr-paper { fill: #fff; }
.slip-qr-ink { fill: #000; }
.desk-code { font: 700 max(2rem, 32px)/1.15 ui-monospace, "DejaVu Sans Mono", Consolas, monospace; letter-spacing: 0.04em; overflow-wrap: anywhere; }
.desk .desk-spelled { list-style: none; padding: 0; columns: 2; }
.desk .desk-spelled li { margin: 0; break-inside: avoid; }
.desk-spelled strong { display: inline-block; min-inline-size: 1.2em; font-family: ui-monospace, "DejaVu Sans Mono", Consolas, monospace; }
.desk-actions { display: flex; flex-wrap: wrap; gap: 6px 10px; align-items: center; margin-block: 6px; }
.desk-actions .desk-input { flex: 1 1 9em; inline-size: auto; min-inline-size: 0; }
.desk .desk-code-input { font-family: ui-monospace, "DejaVu Sans Mono", Consolas, monospace; letter-spacing: 0.06em; text-transform: uppercase; }
.desk .desk-due .lt-section { margin-block-start: calc(var(--lt-unit) * 3); padding-block-start: calc(var(--lt-unit) * 2); }
.desk .desk-due :is(.lt-section, .lt-topic) > h3 { font-size: var(--lt-text); }
.desk .desk-due .lt-branches a { min-block-size: var(--desk-target); }
.desk .desk-due .lt-fold > summary { padding-block: 4px; min-block-size: var(--desk-target); }
.desk .lt-unseen { position: absolute; inline-size: 1px; block-size: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
@media (any-pointer: coarse) { .desk { --desk-target: 44px; } .desk :is(.desk-input, .desk-button) { min-block-size: 44px; } .desk .desk-option { align-items: center; } }
@media (forced-colors: active) { .desk-chosen, .desk-at { outline: 3px solid Highlight; } .desk-meter { forced-color-adjust: none; border-color: CanvasText; background: Canvas; } .desk-meter::-webkit-meter-bar { background: Canvas; } .desk-meter::-webkit-meter-optimum-value { background: CanvasText; } .desk-meter::-moz-meter-bar { background: CanvasText; } }
@media print { .desk .desk-top, .desk-listen { display: none; } }
`;
