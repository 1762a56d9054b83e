/** What the pages for the people of the shop add to the notebook's look. */
export const staffSheet = `
.lt-page .st-top { display: flex; flex-wrap: wrap; gap: 0 calc(var(--lt-unit) * 6); align-items: center; padding-block: calc(var(--lt-unit) * 2); border-block-end: 1px solid var(--lt-rule); }
.st-shop { flex: 1 1 12em; font: 600 var(--lt-text)/1.4 var(--lt-serif); }
.lt .st-links { display: flex; flex-wrap: wrap; gap: 0 calc(var(--lt-unit) * 5); list-style: none; padding: 0; }
.lt .st-links li { margin: 0; }
.lt .st-links a[aria-current] { font-weight: 600; text-decoration-thickness: 0.2em; }
.st-out { display: flex; flex-wrap: wrap; gap: calc(var(--lt-unit) * 2) calc(var(--lt-unit) * 4); align-items: center; font-size: var(--lt-small); }
.st-out .lt-button { min-block-size: 44px; padding: calc(var(--lt-unit) * 1.5) calc(var(--lt-unit) * 4); font-size: var(--lt-small); }
.st-done { padding: calc(var(--lt-unit) * 3) calc(var(--lt-unit) * 4); background: var(--lt-wash); border-inline-start: 4px solid var(--lt-accent); font-weight: 600; overflow-wrap: anywhere; }
.st-verdict { font: 600 var(--lt-large)/1.3 var(--lt-serif); }
.st-told > div { display: grid; grid-template-columns: minmax(0, 1fr); padding-block: var(--lt-unit); border-block-end: 1px solid var(--lt-rule); }
.st-told dt { color: var(--lt-faint); font-size: var(--lt-small); }
@media (min-width: 640px) { .st-told > div { grid-template-columns: minmax(0, 3fr) minmax(0, 2fr); gap: calc(var(--lt-unit) * 4); align-items: baseline; } }
.st-results { margin-block-start: calc(var(--lt-unit) * 4); }
.lt-page .lt-section > h2 { font: 600 var(--lt-large)/1.25 var(--lt-serif); margin-block-end: calc(var(--lt-unit) * 2); }
.st-open .lt-guesses { margin-block-end: calc(var(--lt-unit) * 4); }
.lt-page .st-open :is(.lt-problem + p, .lt-actions) { margin-block-start: calc(var(--lt-unit) * 3); }
.lt-page .st-scroll + h3 { margin-block-start: calc(var(--lt-unit) * 6); }
.st-fields { display: grid; gap: calc(var(--lt-unit) * 3) calc(var(--lt-unit) * 4); grid-template-columns: repeat(auto-fit, minmax(min(100%, 11em), 1fr)); align-items: end; }
.st-fields > * { margin: 0 !important; min-inline-size: 0; }
.st-scroll { overflow-x: auto; margin-block-start: calc(var(--lt-unit) * 3); }
.st-table { border-collapse: collapse; font-size: var(--lt-small); min-inline-size: 100%; }
.st-table :is(th, td) { padding: calc(var(--lt-unit) * 1.5) calc(var(--lt-unit) * 3) calc(var(--lt-unit) * 1.5) 0; border-block-end: 1px solid var(--lt-rule); text-align: start; vertical-align: top; }
.st-table thead th { border-block-end: 1px solid var(--lt-edge); font-weight: 600; }
.st-table tbody th { font-weight: 400; min-inline-size: 8em; }
.st-table .st-number { text-align: end; font-variant-numeric: tabular-nums; }
.st-table td.st-number { white-space: nowrap; }
.st-unseen { position: absolute; inline-size: 1px; block-size: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
.st-beside { display: grid; gap: calc(var(--lt-unit) * 4) calc(var(--lt-unit) * 8); grid-template-columns: minmax(0, 1fr); align-items: start; }
.st-plot { display: block; inline-size: 100%; max-inline-size: 24rem; block-size: auto; font: 400 16px var(--lt-sans); }
.st-plot text { fill: var(--lt-ink); }
.st-grid path { fill: none; stroke: var(--lt-rule); stroke-width: 1; }
.st-kept { stroke: var(--lt-edge); stroke-width: 2; stroke-dasharray: 6 5; fill: none; }
.st-point path { fill: none; stroke: var(--lt-ink); stroke-width: 2; }
.st-point circle { fill: var(--lt-accent); stroke: var(--lt-ink); stroke-width: 1.5; }
@media (forced-colors: active) { .st-plot text { fill: CanvasText; } .st-point :is(path, circle) { stroke: CanvasText; fill: CanvasText; } .st-kept { stroke: CanvasText; } }
`;
