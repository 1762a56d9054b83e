/** The invented shop's own look: nothing here is shared with the check. */
export const demoSheet = `
:root { color-scheme: light dark; --ground: #ffffff; --text: #15251c; --band: #1f4d3a; --on-band: #ffffff; --sun: #f4c84a; --line: #cfd8d2; }
@media (prefers-color-scheme: dark) { :root { --ground: #101713; --text: #e9efeb; --band: #17392b; --line: #35453c; } }
* { box-sizing: border-box; }
body { margin: 0; background: var(--ground); color: var(--text); font: 1.0625rem/1.55 Verdana, "DejaVu Sans", Geneva, sans-serif; overflow-wrap: break-word; }
h1, h2, h3, p, ul { margin: 0; }
a { color: inherit; text-underline-offset: 0.2em; }
:focus-visible { outline: 3px solid currentColor; outline-offset: 3px; }
.top, main > section, footer { padding: 1.25rem max(1rem, calc(50vw - 32rem)); }
.top { display: flex; flex-wrap: wrap; gap: 0.5rem 2rem; align-items: center; justify-content: space-between; }
.name { display: inline-flex; align-items: center; min-height: 44px; font-size: 1.25rem; font-weight: 700; text-decoration: none; }
.skip { position: absolute; inset-inline-start: -999em; padding: 1rem; background: var(--ground); }
.skip:focus { inset-inline-start: 0.5rem; inset-block-start: 0.5rem; }
nav { display: flex; flex-wrap: wrap; gap: 0 1.5rem; }
nav [aria-current] { font-weight: 700; text-decoration-thickness: 3px; }
nav a, .visit a { display: inline-flex; align-items: center; min-height: 44px; }
.hero { padding-block: clamp(2rem, 8vw, 5rem); }
.hero h1 { max-width: 16em; font-size: clamp(1.75rem, 6vw, 3rem); line-height: 1.15; }
.hero p { max-width: 36em; margin-top: 1rem; }
.help { background: var(--band); color: var(--on-band); padding-block: 2.5rem; }
.help > * { max-width: 38em; }
.help > * + * { margin-top: 1rem; }
.call { display: inline-flex; align-items: center; min-height: 52px; padding: 0.5rem 1.75rem; border-radius: 999px; background: var(--sun); color: #15251c; font-weight: 700; text-decoration: none; }
.code label { display: block; }
.row { display: flex; flex-wrap: wrap; gap: 0.5rem; }
.row input, .row button { min-height: 48px; padding: 0.5rem 1rem; border: 1px solid currentColor; border-radius: 8px; background: var(--ground); color: var(--text); font: inherit; }
.row input { flex: 1 1 10rem; min-width: 0; max-width: 18rem; }
.call-quiet { background: transparent; border: 2px solid currentColor; color: inherit; }
.week, .goods { padding-block: 2rem; }
.intro h1 { font-size: clamp(1.75rem, 5vw, 2.5rem); line-height: 1.2; }
.intro p, .answers > *, .check > :not(leafturn-check) { max-width: 38em; margin-top: 0.75rem; }
.answers h3 { margin-top: 1.5rem; }
.answers { padding-block: 2rem 3rem; }
.check { padding-block-end: 2.5rem; }
.check leafturn-check { display: block; margin-block-start: 1rem; }
.week ul, .goods ul, .visit ul { display: grid; gap: 1.5rem; grid-template-columns: repeat(auto-fit, minmax(min(100%, 16rem), 1fr)); list-style: none; padding: 0; margin-top: 1rem; }
.week li, .visit li { border-top: 4px solid var(--sun); padding-top: 0.75rem; }
.goods li { padding: 1.25rem; border: 1px solid var(--line); border-radius: 12px; }
.goods h2 { font-size: 1.125rem; }
.price { margin-top: 0.5rem; font-weight: 700; }
.note { margin-top: 1.5rem; }
footer { border-top: 1px solid var(--line); font-size: 0.875rem; }
`;
