/** The look of the drawn tree. Everything that color says is said by line, shape or a written mark as well. */
export const treeSheet = `
.ed-part { display: flex; flex-wrap: wrap; gap: calc(var(--lt-unit) * 4); align-items: end; }
.ed-part > label { flex: 1 1 16em; min-inline-size: 0; }
.ed-zoom { align-items: center; border: 0; }
.ed-tree-box { border: 1px solid var(--lt-edge); background: var(--lt-leaf); max-block-size: 85vh; overflow: auto; }
.ed-tree { display: block; font-family: var(--lt-sans); }
.ed-tree-fit { inline-size: 100%; min-inline-size: 52rem; block-size: auto; }
.ed-box { fill: var(--lt-paper); stroke: var(--lt-ink); stroke-width: 1.25; }
.ed-halo { fill: none; stroke: var(--lt-ink); stroke-width: 1.5; stroke-dasharray: 6 4; }
.ed-never .ed-box { stroke-dasharray: 6 4; }
.ed-turn { fill: var(--lt-faint); font-size: 12.5px; font-weight: 600; }
.ed-note { fill: var(--lt-faint); font-size: 12.5px; }
.ed-never .ed-turn { fill: var(--lt-ink); }
.ed-heading { fill: var(--lt-ink); font-size: 14px; font-weight: 600; }
.ed-answer { fill: var(--lt-ink); font-size: 13px; }
.ed-given { font-weight: 700; text-decoration: underline; }
.ed-stop { fill: none; stroke: var(--lt-ink); stroke-width: 2.5; }
.ed-arrow { fill: none; stroke: var(--lt-edge); stroke-width: 1.1; }
.ed-arrow-end { stroke-dasharray: 7 5; }
.ed-arrow-then { stroke-dasharray: 2 4; }
.ed-arrow-dim { stroke-width: 0.8; }
.ed-tip { fill: var(--lt-ink); }
.ed-tree .ed-card { text-decoration: none; cursor: pointer; }
.ed-card:hover .ed-box { fill: var(--lt-wash); }
.ed-tree .ed-card:focus-visible { outline: none; }
.ed-card:focus-visible .ed-box { stroke: var(--lt-accent); stroke-width: 5; }
.ed-lit .ed-box { stroke-width: 3.5; stroke: var(--lt-accent); fill: var(--lt-wash); }
.ed-lit .ed-arrow { stroke: var(--lt-accent); stroke-width: 3.5; }
.ed-lit .ed-arrow-dim { stroke: var(--lt-edge); stroke-width: 0.8; }
.ed-card.ed-near .ed-box { stroke-width: 3; }
.ed-near .ed-arrow { stroke: var(--lt-ink); stroke-width: 2.5; }
.ed-badge { fill: var(--lt-accent); stroke: var(--lt-leaf); stroke-width: 2; }
.ed-badge-text { fill: var(--lt-leaf); font-size: 14px; font-weight: 700; }
.ed-legend { display: grid; gap: calc(var(--lt-unit) * 2) calc(var(--lt-unit) * 6); grid-template-columns: repeat(auto-fit, minmax(min(100%, 20em), 1fr)); }
.ed-legend dt { font-weight: 600; }
.ed-words > li { padding-block: calc(var(--lt-unit) * 2); border-block-end: 1px solid var(--lt-rule); scroll-margin-block-start: calc(var(--lt-unit) * 4); }
.ed-words > li:target { background: var(--lt-wash); }
.ed-words-prompt { font-weight: 600; }
.ed-words-prompt .lt-link { font-size: inherit; }
.ed-words-never { border-inline-start: 4px double var(--lt-ink); padding-inline-start: calc(var(--lt-unit) * 3); }
.ed-words ul a { display: inline-block; padding-block: 2px; }

@media (forced-colors: active) {
  .ed-box { fill: Canvas; stroke: CanvasText; }
  .ed-heading, .ed-answer, .ed-note, .ed-turn, .ed-tip { fill: CanvasText; }
  .ed-arrow, .ed-halo, .ed-stop { stroke: CanvasText; }
  .ed-lit .ed-box, .ed-lit .ed-arrow, .ed-card:focus-visible .ed-box { stroke: Highlight; fill: Canvas; }
  .ed-lit .ed-arrow { fill: none; }
  .ed-badge { fill: CanvasText; }
  .ed-badge-text { fill: Canvas; }
}
@media print {
  .ed-part, .ed-zoom, #tree-keys { display: none; }
  .ed-tree-box { page: tree; max-block-size: none; overflow: visible; border: 0; break-inside: avoid; }
  .ed-tree { inline-size: 100%; block-size: auto; min-inline-size: 0; max-block-size: 17cm; }
  .ed-words > li { break-inside: avoid; }
}
@page tree { size: landscape; margin: 1cm; }
`;
