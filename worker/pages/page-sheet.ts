/** The frame around the check on pages of its own: what the element in a shop's page does not need. */
export const pageSheet = `
.lt-page { min-block-size: 100%; scroll-padding-block-start: 8px; }
.lt-page body { margin: 0; min-inline-size: 0; background: var(--lt-paper); }
.lt-page :is(.lt-top, .lt-main, .lt-foot) { max-inline-size: 46rem; margin-inline: auto; padding-inline: calc(var(--lt-unit) * 4); }
.lt-page .lt-top { padding-block-start: calc(var(--lt-unit) * 2); }
.lt-page .lt-main { padding-block-end: calc(var(--lt-unit) * 10); }
.lt-page .lt-h1 { font: 600 var(--lt-title)/1.2 var(--lt-serif); margin-block: calc(var(--lt-unit) * 2) calc(var(--lt-unit) * 5); }
.lt-page .lt-foot { display: flex; flex-wrap: wrap; gap: calc(var(--lt-unit) * 4) calc(var(--lt-unit) * 8); align-items: end; border-block-start: 1px solid var(--lt-edge); padding-block: calc(var(--lt-unit) * 5) calc(var(--lt-unit) * 10); }
.lt-page .lt-code-form { flex: 1 1 18em; min-inline-size: 0; }
.lt-page .lt-code-row { display: flex; flex-wrap: wrap; gap: calc(var(--lt-unit) * 2); align-items: end; }
.lt-page .lt-code-row .lt-input { flex: 1 1 10em; inline-size: auto; min-inline-size: 0; }
.lt-page .lt-skip { position: absolute; inset-inline-start: -999em; padding: calc(var(--lt-unit) * 3); background: var(--lt-paper); }
.lt-page .lt-skip:focus { inset-inline-start: calc(var(--lt-unit) * 2); inset-block-start: calc(var(--lt-unit) * 2); z-index: 1; }
.lt-page .lt-numbers { margin-block-end: calc(var(--lt-unit) * 3); }
/* What a browser puts around the content of details does not pass box-sizing on. */
.lt-page details :is(.lt-input, .lt-button) { box-sizing: border-box; }
.lt-page .lt-fields { display: grid; gap: 0 calc(var(--lt-unit) * 6); grid-template-columns: repeat(auto-fit, minmax(min(100%, 14em), 1fr)); align-items: end; }
.lt-page .lt-days { list-style: none; padding: 0; }
.lt-page .lt-days li { display: flex; flex-wrap: wrap; gap: 0 calc(var(--lt-unit) * 3); margin: 0; padding-block: calc(var(--lt-unit) * 1.5); border-block-end: 1px solid var(--lt-rule); max-inline-size: none; }
.lt-page .lt-day { flex: none; min-inline-size: 7em; font-weight: 600; white-space: nowrap; }
.lt-page .lt-tasks { flex: 1 1 7em; min-inline-size: 0; overflow-wrap: anywhere; }
.lt-page .lt-step-sums { margin-block-start: calc(var(--lt-unit) * 3); font-size: var(--lt-small); }
.lt-page .lt-step-sums > * + * { margin-block-start: calc(var(--lt-unit) * 2); }
.lt-page .lt-working { color: var(--lt-faint); font: 400 var(--lt-small)/1.45 var(--lt-serif); font-style: italic; }
.lt-page .lt-result { padding-inline-start: calc(var(--lt-unit) * 3); border-inline-start: 4px solid var(--lt-accent); }
.lt-page .lt-result > * + * { margin-block-start: calc(var(--lt-unit) * 2); }
.lt-page .lt-sums .lt-hint { margin-block-start: calc(var(--lt-unit) * 2); }
@page { margin: 9mm; }
@media print {
  .lt-page :is(.lt-skip, .lt-top, .lt-foot, .lt-h1, .lt-numbers, .lt-numbers-form, .lt-working, .lt-why, .lt-look-again) { display: none; }
  .lt-page .lt-sums > details:not(:has(.lt-result)) { display: none; }
  .lt-page .lt-sums > details > summary, .lt-page .lt-sums .lt-hint { display: none; }
  .lt-page .lt-result { padding: 0; border: 0; }
  .lt-page .lt-days li { display: block; border: 0; padding: 0; }
  .lt-page .lt-days li::before { content: "\\2610\\00a0"; }
  .lt-page .lt-step-sums > :not(.lt-why, .lt-working, .lt-screen-only), .lt-page .lt-step-sums > div > :not(.lt-working) { display: inline; }
  .lt-page .lt-step-sums > *::after { content: " "; }
  .lt-page .lt-shop-items { list-style: none; padding: 0; }
  .lt-page .lt-shop-items li::before { content: "\\2610\\00a0"; }
  .lt-page .lt-main { max-inline-size: none; padding: 0; }
}
`;
