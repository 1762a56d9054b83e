/** The element before it is opened, and when it cannot be. */
export const startSheet = `
:host { display: contents; }
:host([hidden]) { display: none; }
.frame { all: initial; display: block; box-sizing: border-box; min-block-size: 100vh; min-block-size: 100svh; padding: 16px; background: var(--leafturn-paper, #f6f4ec); color: var(--leafturn-ink, #20241f); font: 400 1em/1.5 var(--leafturn-sans, system-ui, sans-serif); }
.frame.failed { min-block-size: 0; margin-block-start: 8px; }
.frame p { margin: 0 0 8px; }
.frame a { color: inherit; display: inline-flex; align-items: center; min-block-size: 44px; }
button { min-block-size: 48px; padding: 8px 28px; border: 2px solid var(--leafturn-ink, #20241f); border-radius: 2px; background: var(--leafturn-ink, #20241f); color: var(--leafturn-leaf, #fffefa); font: 600 max(1em, 17px)/1.3 var(--leafturn-sans, system-ui, sans-serif); cursor: pointer; }
:focus-visible { outline: 3px solid var(--leafturn-accent, #7d1f2b); outline-offset: 2px; }
[hidden] { display: none; }
@media (prefers-color-scheme: dark) {
  .frame { background: var(--leafturn-paper, #191b18); color: var(--leafturn-ink, #ecebe2); }
  button { border-color: var(--leafturn-ink, #ecebe2); background: var(--leafturn-ink, #ecebe2); color: var(--leafturn-leaf, #21241f); }
  :focus-visible { outline-color: var(--leafturn-accent, #f0a9a4); }
}
`;
