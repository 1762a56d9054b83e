import type { TurnKind } from "../edition.ts";
import type { Segment, Token } from "./tokens.ts";
import type { Vocabulary } from "./vocabulary.ts";

/** What small words do to the words after them. */
export interface Bearings {
  /** For each word: the places of the denying words whose reach it is in. */
  deniedBy: readonly (readonly number[])[];
  /** For each word: whether it is only supposed, asked or expected. */
  supposed: readonly boolean[];
  /** For each word: whether it was told with a doubt. */
  hedged: readonly boolean[];
  /** Whether a word carries no meaning of its own. */
  small: readonly boolean[];
}

/** How far a denial reaches at most, in words. */
const FARTHEST = 12;

export function readBearings(
  vocabulary: Vocabulary,
  tokens: readonly Token[],
  segments: readonly Segment[],
): Bearings {
  const length = (kind: TurnKind, at: number) => lengthOfRun(vocabulary, tokens, kind, at);
  const marks = (kind: TurnKind) => tokens.map((_, at) => length(kind, at));
  const spared = cover(marks("no-denial"));
  const denies = marks("deny").map((size, at) => (spared[at] ? 0 : size));
  const absences = marks("absence");
  const supposes = marks("suppose");
  const turns = marks("turn");
  const statement = marks("statement").map((size) => size > 0);
  const small = cover(marks("small"));
  const reachOf = (at: number) => endOfReach(tokens, segments, turns, statement, at);
  const deniedBy: number[][] = tokens.map(() => []);
  const supposed = tokens.map(() => false);
  tokens.forEach((_, at) => {
    const denying = denies[at] ?? 0;
    if (denying > 0) {
      const own = Array.from({ length: denying }, (_, i) => at + i);
      for (const place of placesDenied(at, denying)) deniedBy[place]?.push(...own);
    }
    const supposing = supposes[at] ?? 0;
    // "will not open" is told, not expected.
    if (supposing > 0 && (denies[at + supposing] ?? 0) === 0)
      for (let i = at + supposing; i < reachOf(at + supposing - 1); i++) supposed[i] = true;
  });
  // "There were webs last year": the whole piece is over.
  const past = marks("past");
  const over = new Set(tokens.flatMap(({ segment }, at) => ((past[at] ?? 0) > 0 ? [segment] : [])));
  tokens.forEach(({ segment }, at) => {
    if (over.has(segment)) supposed[at] = true;
  });
  const hedges = marks("hedge");
  const hedged = tokens.map(({ segment }, at) =>
    hedges.some((size, i) => size > 0 && i <= at && tokens[i]?.segment === segment),
  );
  return { deniedBy, supposed, hedged, small };

  /** After the denying words; or before them, where nothing follows that could be meant: "webs? none", "bugs are not there". */
  function placesDenied(at: number, size: number): number[] {
    const token = tokens[at];
    const segment = segments[token?.segment ?? -1];
    if (!token || !segment) return [];
    const after = tokens.slice(at + size, segment.to);
    const isBare = after.every((_, i) => (absences[at + size + i] ?? 0) > 0);
    if (!isBare) return between(at + size, reachOf(at + size - 1));
    const before = tokens
      .slice(segment.from, at)
      .some((_, i) => !small[segment.from + i] && !(absences[segment.from + i] ?? 0));
    if (before) return between(segment.from, at);
    const previous = segments[(token.segment ?? 0) - 1];
    const none = (length("deny-after", at) ?? 0) > 0;
    if (
      !previous ||
      !(segment.joint === "question" || segment.joint === "colon" || (none && segment.joint === "comma"))
    ) {
      return between(at + size, reachOf(at + size - 1));
    }
    const whole = segments.find(({ sentence }) => sentence === previous.sentence) ?? previous;
    return between(segment.joint === "question" ? whole.from : previous.from, previous.to);
  }
}

function between(from: number, to: number): number[] {
  return Array.from({ length: Math.max(0, to - from) }, (_, i) => from + i);
}

/** The first word that the reach of a turning word at a place no longer holds. */
function endOfReach(
  tokens: readonly Token[],
  segments: readonly Segment[],
  turns: readonly number[],
  statement: readonly boolean[],
  at: number,
): number {
  const home = tokens[at]?.segment ?? 0;
  for (let i = at + 1; i < tokens.length; i++) {
    const token = tokens[i];
    if (!token || i - at > FARTHEST || (turns[i] ?? 0) > 0) return i;
    const segment = segments[token.segment];
    if (token.segment === home || segment?.from !== i) continue;
    if (segment.joint === "or") continue;
    if (segment.joint !== "comma" && segment.joint !== "and") return i;
    if (statement.slice(segment.from, segment.to).some(Boolean)) return i;
  }
  return tokens.length;
}

/** How many words a run of some kind takes at a place, or 0. */
export function lengthOfRun(
  { turns }: Vocabulary,
  tokens: readonly Token[],
  kind: TurnKind,
  at: number,
): number {
  let longest = 0;
  for (const run of turns[kind].get(tokens[at]?.stem ?? "") ?? []) {
    if (run.length > longest && run.every((stem, i) => tokens[at + i]?.stem === stem)) longest = run.length;
  }
  return longest;
}

/** Marks every word of a run, not only its first. */
function cover(lengths: readonly number[]): boolean[] {
  const covered = lengths.map(() => false);
  lengths.forEach((length, at) => {
    covered.fill(true, at, at + length);
  });
  return covered;
}
