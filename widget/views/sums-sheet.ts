/** Days, amounts and the forms for the shopper's own numbers. The element fetches it with the views of the verdict. */
export const sumsSheet = `
.lt .lt-numbers { margin-block-end: calc(var(--lt-unit) * 3); }
/* What a browser puts around the content of details does not pass box-sizing on. */
.lt details :is(.lt-input, .lt-button) { box-sizing: border-box; }
.lt .lt-fields { display: grid; gap: 0 calc(var(--lt-unit) * 6); grid-template-columns: repeat(auto-fit, minmax(min(100%, 14em), 1fr)); align-items: end; }
.lt .lt-days { list-style: none; padding: 0; }
.lt .lt-days li { display: flex; flex-wrap: wrap; gap: 0 calc(var(--lt-unit) * 3); margin: 0; padding-block: calc(var(--lt-unit) * 1.5); border-block-end: 1px solid var(--lt-rule); max-inline-size: none; }
.lt .lt-day { flex: none; min-inline-size: 7em; font-weight: 600; white-space: nowrap; }
.lt .lt-tasks { flex: 1 1 7em; min-inline-size: 0; overflow-wrap: anywhere; }
.lt .lt-step-sums { margin-block-start: calc(var(--lt-unit) * 3); font-size: var(--lt-small); }
.lt .lt-step-sums > * + * { margin-block-start: calc(var(--lt-unit) * 2); }
.lt .lt-working { color: var(--lt-faint); font: 400 var(--lt-small)/1.45 var(--lt-serif); font-style: italic; }
.lt .lt-result { margin-block-start: calc(var(--lt-unit) * 4); padding-inline-start: calc(var(--lt-unit) * 3); border-inline-start: 4px solid var(--lt-accent); }
.lt .lt-result > * + * { margin-block-start: calc(var(--lt-unit) * 2); }
.lt .lt-sums .lt-hint { margin-block-start: calc(var(--lt-unit) * 2); }
.lt-paper { position: absolute; inline-size: 0; block-size: 0; border: 0; visibility: hidden; }
`;
