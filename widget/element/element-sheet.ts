import { sheet } from "../views/sheet.ts";

/** The custom properties a shop may set on the element, and the same names inside. */
const themed = "paper|leaf|ink|faint|rule|edge|accent|wash|serif|sans";

/** Nothing of the page reaches the wrapper but what is asked for by name. */
const reset = `
:host { display: block; }
:host([hidden]) { display: none; }
/* Measured by its container alone it would vanish where the page shrinks it to its content. */
.lt { all: initial; display: block; container-type: inline-size; contain-intrinsic-inline-size: min(20rem, 100vw - 32px); }
`;

const frame = `
.lt { padding: var(--leafturn-padding, calc(var(--lt-unit) * 4)); border-radius: var(--leafturn-radius, 0); }
.lt-book { max-inline-size: var(--leafturn-width, 46rem); margin-inline: auto; }
.lt .lt-button { border-radius: var(--leafturn-radius, 2px); }
.lt-wait { min-block-size: 100vh; min-block-size: 100svh; }
.lt-unseen { position: absolute; inline-size: 1px; block-size: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
`;

/**
 * The sheet of the pages, made to fit into a foreign one. `rem` follows the page's root and the window says nothing
 * about the room we have, so lengths are counted from the reader's own text size and widths from the wrapper.
 *
 * @param medium the reader's text size in CSS pixels.
 */
export function fitSheet(medium: number): string {
  const cut = sheet.indexOf(".lt *,");
  const theme = sheet
    .slice(0, cut)
    .replace(new RegExp(`(--lt-(${themed})): ([^;}]+)`, "g"), "$1: var(--leafturn-$2, $3)");
  return fitLengths(`${reset}${theme}${sheet.slice(cut)}${frame}`, medium);
}

/** The lengths and widths of a further sheet, made to fit in the same way. */
export function fitLengths(text: string, medium: number): string {
  return text
    .replace(/([\d.]+)([a-z]*)/g, (length, count: string, unit: string) =>
      unit === "rem" ? `${Number(count) * medium}px` : length,
    )
    .replace(/@media ?\(min-width:/g, "@container (min-width:");
}
