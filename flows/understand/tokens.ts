import { stemmer } from "stemmer";

/** One word of what was typed, in small letters and by its stem. Two words can share a place: "isn't" is "is", "not". */
export interface Token {
  word: string;
  stem: string;
  /** Where the word stands in the text: `text.slice(start, end)`. */
  start: number;
  end: number;
  /** Number of the sentence, counted from 0, and of the segment in the text. */
  sentence: number;
  segment: number;
}

/** What stands between a segment and the one before it. */
export type Joint = "start" | "sentence" | "question" | "colon" | "comma" | "and" | "or" | "other";

export interface Segment {
  from: number;
  to: number;
  sentence: number;
  joint: Joint;
}

export interface TokenText {
  tokens: Token[];
  segments: Segment[];
}

/** Longer texts are read up to here: nobody's opening line is longer, and every step below is at most quadratic in it. */
export const LONGEST_TYPED = 1000;

const joiningWords: Record<string, Joint> = { and: "and", or: "or", nor: "or" };
for (const word of [
  "but",
  "then",
  "while",
  "because",
  "though",
  "although",
  "which",
  "when",
  "yet",
  "until",
]) {
  joiningWords[word] = "other";
}

/** "now and then" is one word, not two pieces. */
const pairs: Record<string, string> = {
  now: "then",
  more: "more",
  over: "over",
  again: "again",
  day: "night",
  on: "off",
};

function isPair(before: string | undefined, after: string): boolean {
  const other = pairs[before ?? ""];
  return other !== undefined && plainLetters(after.slice(0, 12)).trimStart().startsWith(other);
}

const contractions: Record<string, string[]> = {
  cant: ["can", "not"],
  cannot: ["can", "not"],
  wont: ["will", "not"],
  shant: ["shall", "not"],
  aint: ["is", "not"],
  dunno: ["do", "not", "know"],
  ive: ["i"],
  im: ["i"],
};
for (const verb of "is are was were do does did has have had could would should must".split(" ")) {
  contractions[`${verb}nt`] = [verb, "not"];
}

const stems = new Map<string, string>();

/** The stem of a word, in small letters without accents. */
export function stemOf(word: string): string {
  let stem = stems.get(word);
  if (stem === undefined) {
    stem = stemmer(word);
    // Words come from a small stock; what strangers type must not fill the memory.
    if (stems.size < 5000) stems.set(word, stem);
  }
  return stem;
}

/** Small letters, no accents, straight apostrophes. */
export function plainLetters(text: string): string {
  return text
    .normalize("NFD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/[’‘`´]/g, "'");
}

/** Splits what was typed into words, and these into segments: runs of words between commas, stops and joining words. */
export function tokenize(typed: string): TokenText {
  const text = typed.slice(0, LONGEST_TYPED);
  const tokens: Token[] = [];
  const segments: Segment[] = [];
  let sentence = 0;
  let last = 0;
  let joint: Joint = "start";
  const open = (): Segment => {
    const segment: Segment = { from: tokens.length, to: tokens.length, sentence, joint };
    segments.push(segment);
    return segment;
  };
  let current: Segment | undefined;
  for (const found of text.matchAll(/[\p{L}\p{N}\p{M}]+(?:['’‘`´][\p{L}]+)*/gu)) {
    const start = found.index;
    const raw = found[0];
    const between = readJoint(text.slice(last, start), tokens.length === 0);
    last = start + raw.length;
    if (between) {
      if (between === "sentence" || between === "question") sentence++;
      joint = stronger(current && current.from === current.to ? joint : undefined, between);
      current = undefined;
    }
    const words = splitWord(raw);
    const joining = words.length === 1 ? joiningWords[words[0] ?? ""] : undefined;
    if (joining && tokens.length > 0 && !isPair(tokens.at(-1)?.word, text.slice(last))) {
      joint = stronger(current ? undefined : joint, joining);
      current = undefined;
      continue;
    }
    current ??= open();
    for (const word of words) {
      tokens.push({ word, stem: stemOf(word), start, end: last, sentence, segment: segments.length - 1 });
    }
    current.to = tokens.length;
  }
  return { tokens, segments };
}

const strength: Joint[] = ["and", "comma", "or", "other", "colon", "question", "sentence", "start"];

/** "…, and": the stronger of two joints in a row holds; a joining word decides over a comma. */
function stronger(before: Joint | undefined, now: Joint): Joint {
  if (before === undefined) return now;
  if (before === "comma") return now;
  return strength.indexOf(before) > strength.indexOf(now) ? before : now;
}

function readJoint(between: string, isFirst: boolean): Joint | undefined {
  if (isFirst) return undefined;
  if (between.includes("?")) return "question";
  if (/[.!;\n…]/.test(between)) return "sentence";
  if (/[:—–()]|\s-+\s/.test(between)) return "colon";
  if (between.includes(",")) return "comma";
  if (/[&+/]/.test(between)) return "and";
  return undefined;
}

function splitWord(raw: string): string[] {
  const word = plainLetters(raw);
  const negated = /^([a-z]+)n't$/.exec(word);
  const bare = word.replaceAll("'", "");
  const known = contractions[bare];
  if (known) return known;
  if (negated) return [negated[1] ?? "", "not"];
  return [word.replace(/'(s|ve|d|re|m|ll|t)$/, "").replaceAll("'", "")];
}
