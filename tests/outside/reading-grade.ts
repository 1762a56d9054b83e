import { fleschKincaid } from "flesch-kincaid";
import { syllable } from "syllable";
import type { Block, Inline } from "../../flows/edition.ts";

/** Grades a text; every word of the trade counts as one plain word. */
export type Grader = (units: readonly string[]) => number;

const PLAIN_WORD = "plant";

/**
 * A Flesch-Kincaid grader. Each unit (a paragraph, a list item, a label) begins a new sentence; so does what follows a
 * full stop, question mark, exclamation mark, colon or semicolon. A number with its unit of measure counts as one short word.
 */
export function makeGrader(tradeWords: readonly string[]): Grader {
  const longestFirst = [...tradeWords].sort((a, b) => b.length - a.length);
  const pattern = longestFirst.map((word) => word.replaceAll(" ", "\\s+")).join("|");
  const trade = new RegExp(`\\b(?:${pattern})\\b`, "gi");
  return (units) => gradeOf(units.map((unit) => simplify(unit, trade)));
}

function simplify(text: string, trade: RegExp): string {
  return text
    .replace(trade, PLAIN_WORD)
    .replace(/\d[\d.,:/–-]*\s*(?:°C|°F|%|cm|mm|ml|in)?/g, "ten ")
    .replace(/°[CF]/g, "");
}

function gradeOf(units: readonly string[]): number {
  const sentences = units
    .flatMap((unit) => unit.split(/[.!?:;]+(?:\s|$)/))
    .filter((sentence) => /\p{L}/u.test(sentence));
  const words = sentences.flatMap((sentence) => sentence.match(/[\p{L}'’-]+/gu) ?? []);
  return fleschKincaid({
    sentence: sentences.length,
    word: words.length,
    syllable: words.reduce((sum, word) => sum + Math.max(1, syllable(word)), 0),
  });
}

/** The units of a piece of prose. */
export function unitsOf(blocks: readonly Block[]): string[] {
  return blocks.flatMap((block) =>
    block.t === "p" ? [plainText(block.of)] : block.items.flatMap((item) => unitsOf(item)),
  );
}

function plainText(inlines: readonly Inline[]): string {
  return inlines
    .map((inline) => {
      if (inline.t === "break") return " ";
      return "text" in inline ? inline.text : plainText(inline.of);
    })
    .join("");
}
