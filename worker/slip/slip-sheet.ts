/** The slip: one sheet of A4 or Letter, ink only. On the screen it lies on the page as a sheet of paper. */
export const slipSheet = `
.lt .slip-tools { margin-block-end: calc(var(--lt-unit) * 4); }
.lt .slip-tools .lt-actions { margin-block-start: calc(var(--lt-unit) * 3); }
.slip { background: #fff; color: #000; border: 1px solid var(--lt-edge); padding: calc(var(--lt-unit) * 6) calc(var(--lt-unit) * 5); display: grid; gap: calc(var(--lt-unit) * 4); grid-template-columns: minmax(0, 1fr); }
.slip h3 { font-size: var(--lt-text); border-block-end: 1px solid #000; margin-block-end: calc(var(--lt-unit) * 1.5); padding-block-end: 2px; }
.lt .slip li::marker { color: #000; }
.slip-head { display: grid; gap: calc(var(--lt-unit) * 2) calc(var(--lt-unit) * 4); grid-template-columns: minmax(0, 1fr); align-items: start; }
.slip-head .slip-qr { max-inline-size: 15rem; }
@media (min-width: 560px) { .slip-head { grid-template-columns: minmax(0, 1fr) clamp(9rem, 30%, 12rem); } }
.slip-shop { font-weight: 600; }
.lt .slip-head h2 { font: 600 var(--lt-large)/1.25 var(--lt-serif); }
.slip-label { margin-block-start: calc(var(--lt-unit) * 2) !important; font-size: var(--lt-small); }
.slip-code { font: 700 clamp(1.5rem, 7vw, 2.75rem)/1.15 ui-monospace, "DejaVu Sans Mono", Consolas, monospace; letter-spacing: 0.04em; overflow-wrap: anywhere; }
.lt .slip-branches { list-style: none; padding: 0; font-size: var(--lt-small); }
.slip-phone { white-space: nowrap; }
.slip-qr { display: block; inline-size: 100%; block-size: auto; forced-color-adjust: none; }
.slip-qr-paper { fill: #fff; }
.slip-qr-ink { fill: #000; }
.slip-link { grid-column: 1 / -1; font-size: var(--lt-small); overflow-wrap: anywhere; }
.slip-told > div { display: grid; grid-template-columns: minmax(0, 1fr); padding-block: 2px; }
.slip-told dt { font-size: var(--lt-small); }
.slip-told dd { font-weight: 600; }
@media (min-width: 640px) { .slip-told > div { grid-template-columns: minmax(0, 3fr) minmax(0, 2fr); gap: calc(var(--lt-unit) * 4); align-items: baseline; } }
.slip-verdict { font: 600 var(--lt-large)/1.3 var(--lt-serif); }
.slip-bench { border: 2px solid #000; padding: calc(var(--lt-unit) * 4); }
.lt .slip-boxes { list-style: none; padding: 0; display: grid; grid-template-columns: minmax(0, 1fr); gap: calc(var(--lt-unit) * 3); }
.slip-boxes > li { display: flex; align-items: center; overflow-wrap: anywhere; gap: calc(var(--lt-unit) * 3); }
.slip-boxes > li::before { content: ""; flex: none; inline-size: 1.3em; block-size: 1.3em; border: 2px solid #000; }
.slip-write::after { content: ""; flex: 1; min-inline-size: 3em; border-block-end: 1px solid #000; align-self: end; }
.slip-lines { display: flex; flex-wrap: wrap; gap: calc(var(--lt-unit) * 4) calc(var(--lt-unit) * 8); margin-block-start: calc(var(--lt-unit) * 6) !important; }
.slip-lines > span { display: flex; flex: 1 1 12em; gap: calc(var(--lt-unit) * 2); }
@media print {
  @page { margin: 12mm; }
  .slip-tools { display: none; }
  .lt-page .lt-book { display: block; }
  .slip { --lt-unit: 2.4pt; --lt-small: 9pt; --lt-text: 10.5pt; --lt-large: 13pt; border: 0; padding: 0; font-size: 10pt; line-height: 1.3; gap: 9pt; }
  .slip-code { font-size: 30pt; }
  .slip-head { grid-template-columns: minmax(0, 1fr) 42mm; }
  .slip-told > div { grid-template-columns: minmax(0, 3fr) minmax(0, 2fr); gap: 8pt; padding-block: 0.5pt; break-inside: avoid; }
  .slip-told dt, .slip-told dd { font-size: 9.5pt; line-height: 1.25; }
  .slip-bring li { margin-block: 0; }
  .slip-bring { font-size: 9.5pt; }
  .slip-bench { break-inside: avoid; }
}
`;

/** The print button, which only works with a script and so only then shows. */
export const printScript = `const button = document.querySelector("[data-print]");
button.hidden = false;
button.addEventListener("click", () => print());
`;
