import { treeSheet } from "./tree/tree-sheet.ts";

/** What the editor's room adds to the notebook's look. */
export const editorSheet = `
.lt-page.lt-page :is(.lt-top, .lt-main) { max-inline-size: 76rem; }
.ed-columns { display: grid; gap: calc(var(--lt-unit) * 6); grid-template-columns: repeat(auto-fit, minmax(min(100%, 22em), 1fr)); align-items: start; }
.ed-columns > * { min-inline-size: 0; }
.lt .ed-list { list-style: none; padding: 0; }
.lt .ed-list > li { margin: 0; padding-block: calc(var(--lt-unit) * 2); border-block-end: 1px solid var(--lt-rule); }
.ed-row { display: flex; flex-wrap: wrap; gap: 0 calc(var(--lt-unit) * 4); align-items: center; justify-content: space-between; }
.ed-row > *, .ed-list a, .ed-table a, .ed-faint, .lt-h1 { min-inline-size: 0; overflow-wrap: anywhere; }
.lt-actions > .lt-input, .lt-input[type="file"] { inline-size: 100%; min-inline-size: 0; }
.ed-faint { color: var(--lt-faint); font-size: var(--lt-small); }
.ed-mark { display: inline-block; padding: 0 calc(var(--lt-unit) * 2); border: 1px solid var(--lt-edge); font: 600 var(--lt-small)/1.5 var(--lt-sans); }
.ed-area { display: block; inline-size: 100%; min-block-size: 30em; margin-block-start: var(--lt-unit); padding: calc(var(--lt-unit) * 3); border: 1px solid var(--lt-edge); border-radius: 2px; background: var(--lt-leaf); color: var(--lt-ink); font: 400 var(--lt-small)/1.5 ui-monospace, "DejaVu Sans Mono", Consolas, monospace; tab-size: 2; resize: vertical; }
.ed-area-short { min-block-size: 8em; font: 400 var(--lt-text)/1.5 var(--lt-serif); }
.ed-wide { max-inline-size: none; }
.ed-pre { overflow: auto; max-block-size: 30em; margin: 0; padding: calc(var(--lt-unit) * 3); background: var(--lt-leaf); border: 1px solid var(--lt-rule); font: 400 var(--lt-small)/1.5 ui-monospace, "DejaVu Sans Mono", Consolas, monospace; white-space: pre-wrap; overflow-wrap: anywhere; }
.ed-tabs { display: flex; flex-wrap: wrap; gap: 0 calc(var(--lt-unit) * 5); border-block-end: 1px solid var(--lt-rule); }
.ed-tabs a[aria-current] { font-weight: 600; text-decoration-thickness: 0.2em; }
.ed-scroll { position: relative; overflow-x: auto; max-inline-size: 100%; }
.ed-table { border-collapse: collapse; inline-size: 100%; }
.ed-table :is(th, td) { padding: calc(var(--lt-unit) * 1) calc(var(--lt-unit) * 2); border-block-end: 1px solid var(--lt-rule); text-align: start; vertical-align: middle; }
.ed-table thead th { font: 600 var(--lt-small)/1.4 var(--lt-sans); vertical-align: bottom; }
.ed-table tbody th { font-weight: 400; }
.ed-columns-form { grid-template-columns: minmax(0, 1fr); }
@media (min-width: 1000px) { .ed-columns-form:has(> aside) { grid-template-columns: minmax(0, 2fr) minmax(0, 1fr); } }
.ed-beside > * + * { margin-block-start: calc(var(--lt-unit) * 6); }
.ed-prose { display: grid; gap: calc(var(--lt-unit) * 4); grid-template-columns: repeat(auto-fit, minmax(min(100%, 18em), 1fr)); }
.ed-prose > * { min-inline-size: 0; }
.ed-preview { padding: calc(var(--lt-unit) * 3); border: 1px dashed var(--lt-edge); overflow-wrap: anywhere; }
.ed-preview p + p { margin-block-start: calc(var(--lt-unit) * 2); }
.ed-sources li { overflow-wrap: anywhere; }
.ed-save { position: sticky; inset-block-end: 0; z-index: 1; padding-block: calc(var(--lt-unit) * 2); background: var(--lt-paper); border-block-start: 1px solid var(--lt-rule); }
form[data-entry] :is(input, textarea, a) { scroll-margin-block-end: 6rem; }
.ed-clash { margin-block-start: calc(var(--lt-unit) * 4); }
.ed-evidence { min-inline-size: 34em; }
.ed-radio-word { position: absolute; inline-size: 1px; block-size: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
@media (max-width: 600px) {
  .ed-evidence { min-inline-size: 0; }
  .ed-evidence, .ed-evidence tbody, .ed-evidence tr { display: block; }
  .ed-evidence thead { position: absolute; inline-size: 1px; block-size: 1px; overflow: hidden; clip-path: inset(50%); }
  .ed-table.ed-evidence :is(th, td) { display: inline-block; inline-size: auto; border: 0; padding-block: 0; text-align: start; }
  .ed-table.ed-evidence tbody th { display: block; padding-block-start: calc(var(--lt-unit) * 2); font-weight: 600; }
  .ed-evidence tr { border-block-end: 1px solid var(--lt-rule); }
  .ed-radio { gap: calc(var(--lt-unit) * 2); }
  .ed-radio-word { position: static; inline-size: auto; block-size: auto; overflow: visible; clip-path: none; }
}
.ed-evidence :is(td, thead th + th) { text-align: center; inline-size: 5em; }
.ed-evidence thead th:first-child { min-inline-size: 11em; }
.ed-radio { position: relative; display: flex; align-items: center; justify-content: center; min-block-size: 44px; min-inline-size: 44px; cursor: pointer; }
.ed-radio input { inline-size: 1.3em; block-size: 1.3em; margin: 0; accent-color: var(--lt-accent); }
.ed-choice { display: flex; flex-wrap: wrap; gap: 0 calc(var(--lt-unit) * 5); }
.ed-choice label { display: inline-flex; gap: calc(var(--lt-unit) * 2); align-items: center; min-block-size: 44px; cursor: pointer; }
.ed-choice input { flex: none; inline-size: 1.3em; block-size: 1.3em; margin: 0; accent-color: var(--lt-accent); }
.ed-both { display: grid; gap: calc(var(--lt-unit) * 4); grid-template-columns: repeat(auto-fit, minmax(min(100%, 18em), 1fr)); }
.ed-both > * { min-inline-size: 0; }
.ed-status { min-block-size: 1.5em; font-size: var(--lt-small); }
.ed-problem { margin-block: calc(var(--lt-unit) * 2); padding-inline-start: calc(var(--lt-unit) * 3); border-inline-start: 4px solid var(--lt-accent); }
.ed-sum { font: 400 var(--lt-large)/1.3 var(--lt-serif); }
.ed-field { margin-block-start: calc(var(--lt-unit) * 4); }
.lt-field + .lt-actions { margin-block-start: calc(var(--lt-unit) * 4); }
.ed-field-set { margin-block-start: calc(var(--lt-unit) * 6) !important; padding-block-start: calc(var(--lt-unit) * 3) !important; border-block-start: 1px solid var(--lt-edge) !important; }
.ed-hidden-label { position: absolute; inline-size: 1px; block-size: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }

.ed-group { margin-block-start: calc(var(--lt-unit) * 6); }
.ed-group .lt-link { font-size: inherit; }
.ed-change { font: 400 var(--lt-small)/1.5 var(--lt-sans); }
.ed-change :is(del, ins) { text-decoration-thickness: 0.12em; background: var(--lt-wash); }
.ed-change del { text-decoration-line: line-through; }
.ed-change ins { text-decoration-line: underline; text-decoration-style: double; font-weight: 600; }
@media print { .ed-pre { max-block-size: none; overflow: visible; } .ed-group, .ed-list > li { break-inside: avoid; } .ed-save, .ed-preview { display: none; } }
.ed-progress { display: block; inline-size: 100%; max-inline-size: 36em; block-size: calc(var(--lt-unit) * 5); margin-block-start: calc(var(--lt-unit) * 2); accent-color: var(--lt-accent); }
.ed-study h4 { font: 600 var(--lt-text)/1.35 var(--lt-serif); }
.lt .ed-study :is(p, li, h4) { max-inline-size: 44em; }
.lt .ed-talk { margin: 0; }
.ed-talk > li { padding-block: var(--lt-unit); }
.ed-end { margin-block: calc(var(--lt-unit) * 2) !important; padding-block: calc(var(--lt-unit) * 2) !important; border-block: 1px solid var(--lt-edge) !important; font-weight: 600; }

@media print { .ed-unfold::details-content { content-visibility: visible; block-size: auto; } .ed-study .lt-link, .ed-running { display: none; } .ed-study li { break-inside: avoid; } .ed-study .ed-both { grid-template-columns: 1fr 1fr; } }
@media print { .ed-tabs, .lt-actions, .st-out { display: none; } }
${treeSheet}`;
