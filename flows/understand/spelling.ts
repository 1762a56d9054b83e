import { distance } from "../find-host.ts";
import { stemOf } from "./tokens.ts";
import type { Vocabulary } from "./vocabulary.ts";

const SHORTEST = 5;

/**
 * The stem that the lexicon knows for a word that it does not: the nearest one with the same first letter and one wrong,
 * missing or swapped letter, two in long words. The word itself where nothing comes close, or where it is an everyday word.
 */
export function correctStem(vocabulary: Vocabulary, word: string, stem: string): string {
  if (vocabulary.known.has(stem) || word.length < SHORTEST || /\d/.test(word) || word.length > 20)
    return stem;
  if (vocabulary.plain.has(stem)) return stem;
  let best = word;
  let least = (word.length >= 8 ? 2 : 1) + 1;
  for (const known of vocabulary.wordsByLetter.get(word.charAt(0)) ?? []) {
    if (Math.abs(known.length - word.length) >= least || (least > 2 && known.length < 6)) continue;
    const slips = countSlips(word, known);
    if (slips < least) [best, least] = [known, slips];
  }
  return stemOf(best);
}

/** Two neighbors that changed places are one slip. */
function countSlips(a: string, b: string): number {
  const slips = distance(a, b);
  if (slips !== 2 || a.length !== b.length) return slips;
  const at = [...a].findIndex((letter, i) => letter !== b[i]);
  return a[at] === b[at + 1] && a[at + 1] === b[at] && a.slice(at + 2) === b.slice(at + 2) ? 1 : slips;
}
