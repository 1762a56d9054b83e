/**
 * The look of the check: a potting-bench notebook. Paper, ink, and one red as in a ledger's margin line.
 * Served as a file to the pages and adopted by the shadow root of the element, so it may only name `.lt` and below.
 * Sizes follow the reader's own text size, with a floor that a host page's root size cannot undercut.
 */
export const sheet = `
.lt {
  color-scheme: light dark;
  --lt-paper: #f6f4ec;
  --lt-leaf: #fffefa;
  --lt-ink: #20241f;
  --lt-faint: #4a4e45;
  --lt-rule: #cfcbbb;
  --lt-edge: #74766a;
  --lt-accent: #7d1f2b;
  --lt-wash: #ece8da;
  --lt-unit: clamp(4px, 0.25rem, max(4px, 1vw));
  --lt-serif: "Iowan Old Style", "Palatino Linotype", Palatino, "URW Palladio L", "Book Antiqua", Charter, Georgia, serif;
  --lt-sans: system-ui, "Segoe UI", Roboto, "Noto Sans", "Helvetica Neue", sans-serif;
  --lt-small: max(0.875rem, 14px);
  --lt-text: max(1.0625rem, 17px);
  --lt-large: max(1.3125rem, 21px);
  --lt-title: max(1.75rem, 28px);
  box-sizing: border-box;
  background: var(--lt-paper);
  color: var(--lt-ink);
  font: 400 var(--lt-text)/1.5 var(--lt-sans);
  text-align: start;
  overflow-wrap: break-word;
  -webkit-text-size-adjust: 100%;
  text-size-adjust: 100%;
}
@media (prefers-color-scheme: dark) {
  .lt {
    --lt-paper: #191b18;
    --lt-leaf: #21241f;
    --lt-ink: #ecebe2;
    --lt-faint: #bfc0b4;
    --lt-rule: #3d4039;
    --lt-edge: #8d9084;
    --lt-accent: #f0a9a4;
    --lt-wash: #2b2e28;
  }
}
.lt *, .lt *::before, .lt *::after { box-sizing: inherit; }
.lt :is(h1, h2, h3, h4, h5, p, ul, ol, dl, dd, fieldset, legend, figure) { margin: 0; padding: 0; border: 0; min-inline-size: 0; }
.lt :is(h1, h2, h3, h4, h5) { font-weight: 600; line-height: 1.25; text-wrap: balance; }
.lt :is(ul, ol) { padding-inline-start: calc(var(--lt-unit) * 5.5); }
.lt :is(p, li) { text-wrap: pretty; }
.lt li { margin-block: var(--lt-unit); }
.lt li::marker { color: var(--lt-accent); }
.lt a { color: var(--lt-ink); text-decoration: underline; text-decoration-color: var(--lt-accent); text-decoration-thickness: 0.1em; text-underline-offset: 0.2em; }
.lt a:hover { text-decoration-thickness: 0.18em; }
.lt :focus-visible { outline: 3px solid var(--lt-accent); outline-offset: 2px; }
.lt [tabindex="-1"]:focus { outline: none; }

/* The notebook: a ruled margin on the left, everything written to the right of it. */
.lt-book { border-inline-start: 2px solid var(--lt-accent); padding-inline-start: calc(var(--lt-unit) * 4); display: grid; gap: calc(var(--lt-unit) * 6); grid-template-columns: minmax(0, 1fr); }
@media (min-width: 600px) { .lt-book { padding-inline-start: calc(var(--lt-unit) * 8); } }

.lt-eyebrow { display: block; color: var(--lt-accent); font: 600 var(--lt-small)/1.4 var(--lt-sans); }
.lt-prompt { display: block; font: 600 var(--lt-large)/1.3 var(--lt-serif); text-wrap: balance; }
.lt-label { display: block; font: 600 var(--lt-small)/1.4 var(--lt-sans); }
.lt-hint { color: var(--lt-faint); font-size: var(--lt-small); }

.lt-notices { background: var(--lt-wash); padding: calc(var(--lt-unit) * 3) calc(var(--lt-unit) * 4); }
.lt-notices ul { margin-block-start: var(--lt-unit); }

/* Answered lines, as on ruled paper. */
.lt-lines { list-style: none; padding: 0 !important; margin-block-start: var(--lt-unit) !important; }
.lt .lt-line { display: flex; gap: calc(var(--lt-unit) * 3); align-items: center; justify-content: space-between; margin: 0; border-block-end: 1px solid var(--lt-rule); min-block-size: calc(var(--lt-unit) * 12); padding-block: var(--lt-unit); }
.lt-line-text { min-inline-size: 0; }
.lt-line-prompt { display: block; color: var(--lt-faint); font-size: var(--lt-small); line-height: 1.35; }
.lt-line-answer { display: block; font: 400 var(--lt-text)/1.35 var(--lt-serif); }
.lt .lt-line-open { margin-block: calc(var(--lt-unit) * 4); }
.lt-link { display: inline-flex; align-items: center; min-block-size: 44px; min-inline-size: 44px; font-size: var(--lt-small); }
.lt-change { flex: none; justify-content: flex-end; }

/* The question in hand is the only full card. */
.lt-card { display: block; background: var(--lt-leaf); border: 1px solid var(--lt-edge); padding: calc(var(--lt-unit) * 4); scroll-margin-block-start: calc(var(--lt-unit) * 4); }
@media (min-width: 600px) { .lt-card { padding: calc(var(--lt-unit) * 6); } }
.lt-legend { display: block; inline-size: 100%; padding: 0; scroll-margin-block-start: calc(var(--lt-unit) * 8); }
.lt-aside { margin-block-start: calc(var(--lt-unit) * 2); font-size: var(--lt-small); }
.lt-aside > summary { display: flex; align-items: center; gap: calc(var(--lt-unit) * 2); min-block-size: 44px; cursor: pointer; list-style: none; font-weight: 600; }
.lt-aside > summary:hover { text-decoration: underline; }
.lt-aside > summary::-webkit-details-marker { display: none; }
.lt-aside > summary::before { content: "+"; flex: none; inline-size: 1em; color: var(--lt-accent); font-weight: 600; text-align: center; }
.lt-aside[open] > summary::before { content: "\\2212"; }
.lt-aside > :not(summary) { padding-block-end: calc(var(--lt-unit) * 2); }
.lt-aside + .lt-aside { margin-block-start: 0; }
.lt-options { margin-block-start: calc(var(--lt-unit) * 3); border-block-start: 1px solid var(--lt-rule); }
.lt-option { display: flex; gap: calc(var(--lt-unit) * 3); align-items: center; min-block-size: calc(var(--lt-unit) * 12); padding: calc(var(--lt-unit) * 2) var(--lt-unit); border-block-end: 1px solid var(--lt-rule); cursor: pointer; line-height: 1.35; break-inside: avoid; }
.lt-option > span { min-inline-size: 0; overflow-wrap: anywhere; }
.lt-option:hover { background: var(--lt-wash); }
.lt-option:has(:checked) { background: var(--lt-wash); box-shadow: inset 3px 0 0 var(--lt-accent); }
.lt-option:has(:focus-visible) { outline: 3px solid var(--lt-accent); outline-offset: -3px; }
.lt-option input { flex: none; margin: 0 0 0 calc(var(--lt-unit) * 2); inline-size: 1.3em; block-size: 1.3em; accent-color: var(--lt-accent); }
.lt-option input:focus-visible { outline: none; }
.lt-thumb { display: none; }
@media (min-width: 15rem) { .lt-thumb { display: block; flex: none; inline-size: 56px; block-size: 56px; margin-inline-start: auto; } }
@media (min-width: 600px) { .lt-thumb { inline-size: 72px; block-size: 72px; } }
.lt-press { position: relative; max-inline-size: 20rem; aspect-ratio: 1; margin-block-start: calc(var(--lt-unit) * 3); }
.lt-shown { inline-size: 9rem; max-inline-size: 100%; aspect-ratio: 1; margin-block-end: calc(var(--lt-unit) * 2); }
@media (min-width: 640px) { .lt-options-many { columns: 2; column-gap: calc(var(--lt-unit) * 6); } }
.lt-botanical { color: var(--lt-faint); }
.lt-actions { display: flex; flex-wrap: wrap; gap: calc(var(--lt-unit) * 2) calc(var(--lt-unit) * 6); align-items: center; margin-block-start: calc(var(--lt-unit) * 4); }
.lt-button { appearance: none; min-block-size: calc(var(--lt-unit) * 12); padding: calc(var(--lt-unit) * 2) calc(var(--lt-unit) * 7); border: 2px solid var(--lt-ink); border-radius: 2px; background: var(--lt-ink); color: var(--lt-leaf); font: 600 var(--lt-text)/1.3 var(--lt-sans); cursor: pointer; }
.lt-button:hover { background: var(--lt-accent); border-color: var(--lt-accent); }
.lt-button-plain { background: transparent; color: var(--lt-ink); border-width: 1px; font-weight: 400; }
.lt-button-plain:hover { background: var(--lt-wash); border-color: var(--lt-ink); }
.lt-unknown { margin-block-start: calc(var(--lt-unit) * 4); padding-block-start: calc(var(--lt-unit) * 4); border-block-start: 1px solid var(--lt-rule); }
.lt-field { margin-block-start: calc(var(--lt-unit) * 4); }
.lt-input { display: block; inline-size: 100%; max-inline-size: 28em; min-block-size: calc(var(--lt-unit) * 12); margin-block-start: var(--lt-unit); padding: calc(var(--lt-unit) * 2) calc(var(--lt-unit) * 3); border: 1px solid var(--lt-edge); border-radius: 2px; background: var(--lt-leaf); color: var(--lt-ink); font: 400 var(--lt-text)/1.4 var(--lt-sans); }
.lt-input[aria-invalid] { border: 2px solid var(--lt-accent); }
.lt-problem { margin-block-start: calc(var(--lt-unit) * 3) !important; padding-inline-start: calc(var(--lt-unit) * 3) !important; border-inline-start: 4px solid var(--lt-accent) !important; font-weight: 600; }
.lt-code { inline-size: auto; max-inline-size: 100%; font: 600 var(--lt-large)/1.3 ui-monospace, "DejaVu Sans Mono", Consolas, monospace; letter-spacing: 0.06em; }

/* The verdict reads like a page of the book: a headline, then ruled sections. */
.lt-verdict { scroll-margin-block-start: calc(var(--lt-unit) * 4); }
.lt-verdict-name { font: 600 var(--lt-title)/1.2 var(--lt-serif) !important; margin-block: var(--lt-unit) calc(var(--lt-unit) * 2) !important; scroll-margin-block-start: calc(var(--lt-unit) * 12); }
.lt-lead { max-inline-size: 34em; }
.lt-section { margin-block-start: calc(var(--lt-unit) * 8); padding-block-start: calc(var(--lt-unit) * 3); border-block-start: 1px solid var(--lt-edge); }
.lt :is(.lt-section, .lt-topic) > h3 { font: 600 var(--lt-large)/1.25 var(--lt-serif); margin-block-end: calc(var(--lt-unit) * 2); }
.lt-section :is(p, li) { max-inline-size: 36em; }
.lt-section p + p { margin-block-start: calc(var(--lt-unit) * 2); }
.lt-branches { list-style: none; padding: 0 !important; display: grid; gap: calc(var(--lt-unit) * 3); grid-template-columns: repeat(auto-fit, minmax(min(100%, 14em), 1fr)); }
.lt-branches a { display: inline-flex; align-items: center; min-block-size: 44px; }
.lt-print-only { display: none; }

@media (prefers-reduced-motion: no-preference) {
  .lt-option, .lt-button { transition: background-color 120ms linear; }
}
@media (forced-colors: active) {
  .lt { --lt-accent: LinkText; --lt-rule: CanvasText; --lt-edge: CanvasText; }
  .lt-option:has(:checked) { outline: 2px solid Highlight; outline-offset: -2px; }
  .lt-button { border-color: ButtonBorder; }
}

`;
