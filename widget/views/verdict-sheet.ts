/** What the verdict in full and its plan add to the sheet; it follows that one. */
export const verdictSheet = `
.lt-section h4 { margin-block: calc(var(--lt-unit) * 4) var(--lt-unit); font-size: var(--lt-text); }
.lt-section h5 { font-size: var(--lt-text); }
.lt .lt-section :is(h4, h5).lt-label { font-size: var(--lt-small); }
.lt-reasons { display: grid; gap: calc(var(--lt-unit) * 2) calc(var(--lt-unit) * 6); grid-template-columns: repeat(auto-fit, minmax(min(100%, 15em), 1fr)); margin-block: calc(var(--lt-unit) * 3); }
.lt .lt-reasons .lt-label { margin-block: 0; }
.lt-for { list-style-type: "+  "; }
.lt-against { list-style-type: "\\2212  "; }
.lt-rival + .lt-rival { margin-block-start: calc(var(--lt-unit) * 5); }
.lt-check { padding-inline-start: calc(var(--lt-unit) * 3); border-inline-start: 4px solid var(--lt-accent); }
.lt .lt-phase > h4 { font: 600 var(--lt-text)/1.3 var(--lt-sans); color: var(--lt-accent); }
.lt-steps { list-style: none; padding: 0 !important; }
.lt .lt-step { margin: 0; padding-block: calc(var(--lt-unit) * 3); border-block-end: 1px solid var(--lt-rule); max-inline-size: none; }
.lt .lt-step { padding-block: 0; }
.lt-fold > summary { position: relative; display: block; min-block-size: 44px; padding: calc(var(--lt-unit) * 3) 0 calc(var(--lt-unit) * 3) calc(var(--lt-unit) * 6); cursor: pointer; list-style: none; }
.lt-fold > summary::-webkit-details-marker { display: none; }
.lt-fold > summary::before { content: "+"; position: absolute; inset-inline-start: 0; color: var(--lt-accent); font-weight: 600; }
.lt-fold[open] > summary::before { content: "\\2212"; }
.lt-fold > summary:hover h5 { text-decoration: underline; text-decoration-color: var(--lt-accent); }
.lt-fold > :not(summary) { margin-inline-start: calc(var(--lt-unit) * 6) !important; }
.lt-fold[open] { padding-block-end: calc(var(--lt-unit) * 3); }
.lt-law { margin: 0 0 calc(var(--lt-unit) * 3) calc(var(--lt-unit) * 6) !important; font-weight: 600; }
.lt .lt-step h5 { display: inline; font: 600 var(--lt-text)/1.3 var(--lt-serif); }
.lt-method { display: block; color: var(--lt-faint); font: 400 var(--lt-small)/1.4 var(--lt-sans); }
.lt-facts { font-size: var(--lt-small); margin-block-start: calc(var(--lt-unit) * 2) !important; }
.lt-facts :is(dt, dd) { display: inline; }
.lt-facts dt { font-weight: 600; }
.lt-facts dt::after { content: ": "; }
.lt-caution { margin-block-start: calc(var(--lt-unit) * 2); padding-inline-start: calc(var(--lt-unit) * 3); border-inline-start: 4px solid var(--lt-accent); }
.lt-left-out { margin-block-start: calc(var(--lt-unit) * 4); font-size: var(--lt-small); }
.lt .lt-left-out h4 { font-size: var(--lt-small); }
.lt-plan > .lt-hint { margin-block-start: calc(var(--lt-unit) * 3) !important; }
.lt-topic + .lt-topic { margin-block-start: calc(var(--lt-unit) * 6); }
.lt-poison-help { font-weight: 600; margin-block-start: calc(var(--lt-unit) * 2) !important; }
.lt-wanted { background: var(--lt-leaf); border: 2px solid var(--lt-accent); padding: calc(var(--lt-unit) * 4); }
.lt-sources li { margin: 0; }
`;
