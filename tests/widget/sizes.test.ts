import { brotliCompressSync } from "node:zlib";
import { expect, test } from "vitest";
import { packFirst, packProse } from "../../flows/parcel/pack.ts";
import { shippedFlow } from "../support/shipped-flow.ts";
import { bodyOf, builtWidget, restOf } from "./built-widget.ts";

/**
 * Ceilings in bytes, after brotli. Raise one only in the commit that needs it, and say there why. The README names the
 * same figures.
 */
const ceilings = {
  /** The script before any press. */
  first: 3_000,
  /** Everything that the conversation up to its verdict needs after opening: the program and the first parcel. */
  opening: 45_000,
  /**
   * The views and the prose of verdicts and plans, fetched behind the first questions. They grow with the content. They hold
   * all that days, amounts, shopping list, calendar file and paper take, so that these work without a connection.
   */
  behind: 81_000,
  /** What reads typed words, fetched when somebody first types: the program and the lexicon. */
  typing: 40_000,
  /** The script of the phone desk, which holds the whole check: every question, the verdict and the plan. */
  desk: 45_000,
  /** What reads the caller's words at the desk, without the lexicon, which is the element's. */
  deskTyping: 10_000,
};

const size = (text: string) => brotliCompressSync(text).length;

test("the files stay below their ceilings", async () => {
  const widget = await builtWidget();
  const { edition } = shippedFlow();
  const sizes = {
    first: size(widget.files[widget.first]?.body ?? ""),
    program: size(restOf(widget)),
    data: size(JSON.stringify(packFirst(edition))),
    views: size(bodyOf(widget, "verdict.js")),
    reader: size(bodyOf(widget, "say.js")),
    lexicon: size(JSON.stringify(edition.lexicon)),
    desk: size(bodyOf(widget, "desk.js")),
    deskReader: size(bodyOf(widget, "desk-say.js")),
    prose: size(JSON.stringify(packProse(edition))),
  };
  console.info("bytes after brotli:", sizes);
  expect(sizes.first).toBeLessThanOrEqual(ceilings.first);
  expect(sizes.program + sizes.data).toBeLessThanOrEqual(ceilings.opening);
  expect(sizes.reader + sizes.lexicon).toBeLessThanOrEqual(ceilings.typing);
  expect(sizes.desk).toBeLessThanOrEqual(ceilings.desk);
  expect(sizes.deskReader).toBeLessThanOrEqual(ceilings.deskTyping);
  expect(sizes.views + sizes.prose).toBeLessThanOrEqual(ceilings.behind);
});

test("nothing heavy or forbidden is in the program", async () => {
  const widget = await builtWidget();
  for (const { body } of Object.values(widget.files)) {
    expect(body).not.toMatch(/\beval\(|new Function|document\.write|insertAdjacentHTML|outerHTML/);
    expect(body).not.toMatch(/document\.cookie|localStorage|indexedDB/);
    // Of the renderer only: it has a branch for HTML strings, and no view of ours leads there.
    expect(body.match(/innerHTML/g)?.length ?? 0).toBeLessThanOrEqual(2);
    expect(body).not.toMatch(/ZodError|YAMLParseError|blockquote/);
  }
});
