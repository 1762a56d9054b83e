import type { Lexicon, Way } from "../edition.ts";
import { plainLetters, stemOf } from "./tokens.ts";

/** Stems that stand directly after each other. */
export type Run = readonly string[];

/** One of several runs; the first stem leads to the runs that begin with it. */
export interface Element {
  byFirst: ReadonlyMap<string, readonly Run[]>;
  /** Whether it stands for a part of the plant: one that is not named carries over from before. */
  parts: ReadonlySet<string>;
}

/** A way, ready to be looked for: its elements stand near each other in any order. */
export type Pattern = readonly Element[];

/** Ways compiled against the sets of one lexicon. Words that cannot be read match nothing. */
export function compileWays(
  { words, parts }: Pick<Lexicon, "words" | "parts">,
  ways: readonly Way[],
): Pattern[] {
  return ways.map((way) =>
    way
      .split(" ")
      .filter((element) => element !== "")
      .map((element) => compileElement(words, parts, element)),
  );
}

function compileElement(words: Lexicon["words"], parts: readonly string[], element: string): Element {
  const byFirst = new Map<string, Run[]>();
  const partsHere = new Set<string>();
  for (const choice of element.split("|")) {
    const set = /^\{(.+)\}$/.exec(choice)?.[1];
    if (set !== undefined && parts.includes(set)) partsHere.add(set);
    for (const entry of set === undefined ? [choice] : (words[set] ?? [])) addRun(byFirst, readRun(entry));
  }
  return { byFirst, parts: partsHere };
}

/** "came_inside" as stems; "=plants" stays: it is the very word, not the stem. */
export function readRun(entry: string): Run {
  return plainLetters(entry)
    .split(/[^\p{L}\p{N}=]+/u)
    .filter((word) => word !== "")
    .map((word) => (word.startsWith("=") ? word : stemOf(word)));
}

export function addRun(byFirst: Map<string, Run[]>, run: Run): void {
  const [first] = run;
  if (first === undefined) return;
  const runs = byFirst.get(first);
  if (runs) runs.push(run);
  else byFirst.set(first, [run]);
}

/** The sets and words that a way names: for checks, and for the words that spelling knows. */
export function listChoices(way: Way): { set: string | null; word: string }[] {
  return way
    .split(/[ |]/)
    .filter((choice) => choice !== "")
    .map((choice) => ({ set: /^\{(.*)\}$/.exec(choice)?.[1] ?? null, word: choice }));
}
