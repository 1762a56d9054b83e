/** The check on paper: the verdict and the plan in three narrow columns, with everything unfolded. */
export const printSheet = `
@page { margin: 9mm; }
@media print {
  .lt {
    --lt-paper: #fff; --lt-leaf: #fff; --lt-ink: #000; --lt-faint: #222; --lt-rule: #999; --lt-edge: #555; --lt-accent: #000; --lt-wash: #fff;
    --lt-unit: 1.5pt; --lt-small: 7.2pt; --lt-text: 7.5pt; --lt-large: 9pt; --lt-title: 14pt; --lt-sans: var(--lt-serif);
    color-scheme: light;
    line-height: 1.18;
  }
  .lt :is(.lt-transcript, .lt-notices, .lt-step .lt-hint, .lt-actions, .lt-sources, .lt-card, .lt-screen-only, [data-lt="say"], .lt-rival .lt-reasons, .lt-sample:not(.lt-wanted) > ol, .lt-sample:not(.lt-wanted) > p, .lt-keep > p:not(.lt-print-only), .lt-keep .lt-field:has([id$="link"])) { display: none; }
  .lt-book { border: 0; padding: 0; display: block; }
  .lt-verdict { columns: 3; column-gap: 5mm; column-fill: auto; }
  .lt-verdict-head { column-span: all; margin-block-end: 4pt; }
  .lt-verdict-head > .lt-lead { max-inline-size: none; }
  .lt-section { margin-block-start: 5pt; padding-block-start: 2pt; }
  .lt-section h4 { margin-block: 3pt 1pt; }
  .lt-section p + p { margin-block-start: 1pt; }
  .lt-wanted { padding: 3pt; border-width: 1pt; }
  .lt .lt-step { padding-block: 2pt; }
  .lt :is(h3, h4, h5, summary) { break-after: avoid; }
  .lt-section :is(p, li) { max-inline-size: none; orphans: 2; widows: 2; }
  .lt li { margin-block: 0; }
  .lt-reasons, .lt-branches { display: block; margin-block: 2pt; }
  .lt .lt-input { border: 0; padding: 0; min-block-size: 0; background: transparent; color: #000; }
  .lt .lt-branches a { display: inline; text-decoration: none; }
  .lt-print-only { display: block; }
  .lt-print-link { overflow-wrap: anywhere; }
  /* A step is a paragraph on paper: open, and its short sentences run on. */
  .lt-fold::details-content { content-visibility: visible; block-size: auto; }
  .lt-fold > summary { padding: 0; min-block-size: 0; }
  .lt-fold > summary::before { content: none !important; }
  .lt-fold > summary > * { display: inline !important; }
  .lt-fold > :not(summary), .lt-law { margin-inline-start: 0 !important; }
  .lt-fold[open] { padding: 0; }
  .lt-law { margin-block-end: 0 !important; }
  .lt-fold :is(ol, ul) { padding: 0; }
  .lt-fold :is(ol, ul) > li { display: inline; }
  .lt-facts, .lt-caution { margin-block-start: 1pt !important; padding: 0; border: 0; }
  .lt-facts > div, .lt-facts :is(dt, dd), .lt-caution > * { display: inline !important; }
  .lt-fold :is(ol, ul) > li::after, .lt-fold > summary > h5::after, .lt-facts > div::after { content: " "; }
  .lt-fold > summary > h5::after { content: ". "; }
  .lt-caution > .lt-label::after { content: ": "; }
  .lt :is(.lt-numbers, .lt-numbers-form, .lt-own-bottle, .lt-working, .lt-why, .lt-look-again) { display: none; }
  .lt .lt-sums > details:not(:has(.lt-result)) { display: none; }
  .lt .lt-sums > details > summary, .lt .lt-sums .lt-hint { display: none; }
  .lt .lt-result { padding: 0; border: 0; }
  .lt .lt-days li { display: block; border: 0; padding: 0; }
  .lt .lt-days li::before { content: "\\2610\\00a0"; }
  .lt .lt-step-sums > :not(.lt-why, .lt-working, .lt-screen-only, .lt-own-bottle), .lt .lt-step-sums > div > :not(.lt-working, .lt-own-bottle) { display: inline; }
  .lt .lt-step-sums > *::after { content: " "; }
  .lt .lt-shop-items { list-style: none; padding: 0; }
  .lt .lt-shop-items li::before { content: "\\2610\\00a0"; }
}
`;
