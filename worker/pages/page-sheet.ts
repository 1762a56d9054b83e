/** The frame around the check on pages of its own: what the element in a shop's page does not need. */
export const pageSheet = `
.lt-page { min-block-size: 100%; scroll-padding-block-start: 8px; }
.lt-page body { margin: 0; min-inline-size: 0; background: var(--lt-paper); }
.lt-page :is(.lt-top, .lt-main, .lt-foot) { max-inline-size: 46rem; margin-inline: auto; padding-inline: calc(var(--lt-unit) * 4); }
.lt-page .lt-top { padding-block-start: calc(var(--lt-unit) * 2); }
.lt-page .lt-main { padding-block-end: calc(var(--lt-unit) * 10); }
.lt-banner { padding: calc(var(--lt-unit) * 3) calc(var(--lt-unit) * 4) !important; background: var(--lt-accent); color: var(--lt-paper); font-weight: 600; text-align: center; }
@media (forced-colors: active) { .lt-banner { border: 3px solid CanvasText !important; } }
.lt-page .lt-h1 { font: 600 var(--lt-title)/1.2 var(--lt-serif); margin-block: calc(var(--lt-unit) * 2) calc(var(--lt-unit) * 5); }
.lt-page .lt-foot { display: flex; flex-wrap: wrap; gap: calc(var(--lt-unit) * 4) calc(var(--lt-unit) * 8); align-items: end; border-block-start: 1px solid var(--lt-edge); padding-block: calc(var(--lt-unit) * 5) calc(var(--lt-unit) * 10); }
.lt-page .lt-code-form { flex: 1 1 18em; min-inline-size: 0; }
.lt-page .lt-code-row { display: flex; flex-wrap: wrap; gap: calc(var(--lt-unit) * 2); align-items: end; }
.lt-page .lt-code-row .lt-input { flex: 1 1 10em; inline-size: auto; min-inline-size: 0; }
.lt-page .lt-skip { position: absolute; inset-inline-start: -999em; min-block-size: 44px; padding: calc(var(--lt-unit) * 3); background: var(--lt-paper); }
.lt-page .lt-skip:focus { inset-inline-start: calc(var(--lt-unit) * 2); inset-block-start: calc(var(--lt-unit) * 2); z-index: 1; }
.lt-page .lt-guesses { list-style: none; padding: 0; margin-block: calc(var(--lt-unit) * 2); }
.lt-page .lt-guess { display: flex; flex-wrap: wrap; align-items: center; gap: 0 calc(var(--lt-unit) * 2); min-block-size: 44px; text-decoration: none; }
.lt-page .lt-guess:hover { background: var(--lt-wash); }
.lt-page .lt-guess-code { text-decoration: underline; text-decoration-color: var(--lt-accent); text-underline-offset: 0.2em; font-family: ui-monospace, "DejaVu Sans Mono", Consolas, monospace; letter-spacing: 0.06em; }
@media print {
  .lt-page :is(.lt-skip, .lt-top, .lt-foot, .lt-h1) { display: none; }
  .lt-page .lt-main { max-inline-size: none; padding: 0; }
}
`;
