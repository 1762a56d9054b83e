import type { Element, Pattern } from "./ways.ts";

/** Words between which a way may stand, its own not counted: small words never count. */
const MOST_BETWEEN = 4;

/** What a pattern is looked for in: stems in order, some of which stand for parts that were named before. */
export interface Reach {
  stems: readonly string[];
  words: readonly string[];
  /** Sets of parts that hold at a place although no word says so: the plant's own name, or a subject carried over. */
  parts: readonly (readonly string[])[];
  /** Words that no way may use, such as those of a plant's name. */
  taken: readonly boolean[];
  /** Words for something with a place of its own, and words whose segment holds such a word. */
  things: readonly boolean[];
  besideThings: readonly boolean[];
  /** Words that may stand between without being counted. */
  small: readonly boolean[];
  /** Sets of parts that are spoken of at a place: those named there or last before. */
  subjects: readonly (readonly string[])[];
}

/** The places of the words that a pattern found, in the order of its elements; a carried part has none. */
export interface Hit {
  places: number[];
  /** Places of elements that are not parts of the plant: what is said about them. */
  core: number[];
}

/** All places where a pattern stands, one for each word that its first telling element can begin at. */
export function findPattern(pattern: Pattern, reach: Reach): Hit[] {
  const anchorAt = Math.max(
    0,
    pattern.findIndex(({ parts }) => parts.size === 0),
  );
  const anchor = pattern[anchorAt];
  if (!anchor) return [];
  const others = pattern.filter((_, i) => i !== anchorAt);
  const hits: Hit[] = [];
  for (let at = 0; at < reach.stems.length; at++) {
    const length = lengthAt(anchor, reach, at);
    if (length === 0) continue;
    const hit = complete(anchor, others, reach, range(at, length));
    if (hit) hits.push(hit);
  }
  return hits;
}

function complete(anchor: Element, others: readonly Element[], reach: Reach, places: number[]): Hit | null {
  const used = new Set(places);
  const core = anchor.parts.size === 0 ? [...places] : [];
  const start = places[0] ?? 0;
  let carries = false;
  for (const element of others) {
    const at = nearest(element, reach, start, used);
    if (at && countBetween(reach, [...used, ...at]) <= MOST_BETWEEN) {
      for (const place of at) used.add(place);
      if (element.parts.size === 0) core.push(...at);
    } else if (reach.subjects[start]?.some((part) => element.parts.has(part))) carries = true;
    else return null;
  }
  const all = [...used].sort((a, b) => a - b);
  // "brown tips, and black dots": the dots are black, not the tips.
  if (carries && reach.besideThings[start] && !all.some((place) => reach.things[place])) return null;
  return { places: all, core: core.length > 0 ? core : all };
}

/** The nearest place where an element stands, as the places of its words. */
function nearest(element: Element, reach: Reach, from: number, used: ReadonlySet<number>): number[] | null {
  for (let step = 1; step < reach.stems.length; step++) {
    for (const at of [from + step, from - step]) {
      if (at < 0 || at >= reach.stems.length || used.has(at)) continue;
      const length = lengthAt(element, reach, at);
      if (length === 0) continue;
      const places = range(at, length);
      if (!places.some((place) => used.has(place))) return places;
    }
  }
  return null;
}

/** How many words an element takes at a place, or 0. */
function lengthAt(element: Element, reach: Reach, at: number): number {
  if (element.parts.size > 0 && reach.parts[at]?.some((part) => element.parts.has(part))) return 1;
  let longest = 0;
  for (const key of [reach.stems[at] ?? "", `=${reach.words[at]}`]) {
    for (const run of element.byFirst.get(key) ?? []) {
      if (run.length > longest && run.every((stem, i) => isAt(reach, stem, at + i))) longest = run.length;
    }
  }
  return longest;
}

function isAt({ stems, words, taken }: Reach, stem: string, at: number): boolean {
  return !taken[at] && (stems[at] === stem || (stem.startsWith("=") && stem.slice(1) === words[at]));
}

/** Words of meaning between the places, the places' own not counted. */
function countBetween(reach: Reach, places: readonly number[]): number {
  let count = 0;
  for (let at = Math.min(...places); at < Math.max(...places); at++) {
    if (!reach.small[at] && !places.includes(at)) count++;
  }
  return count;
}

/** Whether every element of a pattern stands somewhere in the reach, however far apart; plants' names count too. */
export function standsIn(pattern: Pattern, reach: Reach): boolean {
  const open = { ...reach, taken: [] };
  return (
    pattern.length > 0 &&
    pattern.every((element) => reach.stems.some((_, at) => lengthAt(element, open, at) > 0))
  );
}

export function range(from: number, length: number): number[] {
  return Array.from({ length }, (_, i) => from + i);
}
