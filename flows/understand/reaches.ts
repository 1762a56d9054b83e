import type { Reach } from "./match.ts";
import type { Segment, Token } from "./tokens.ts";
import type { Vocabulary } from "./vocabulary.ts";

/** A stretch of the text that ways are looked for in; `from` turns its places into those of the text. */
export interface Stretch {
  from: number;
  reach: Reach;
}

/**
 * Cuts the text into stretches that each speak of one thing. A segment that names neither a part of the plant nor a thing
 * belongs to its neighbor: "leaves are brown, and crispy"; "brown and yellow leaves". A part that is not named carries
 * over: "the leaves curl, and drop".
 */
export function cutReaches(
  { partsOf, thingStems }: Vocabulary,
  tokens: readonly Token[],
  segments: readonly Segment[],
  hostEnds: ReadonlySet<number>,
  taken: readonly boolean[],
  small: readonly boolean[],
  statement: readonly boolean[],
): Stretch[] {
  const partsAt = tokens.map(({ stem }, at): readonly string[] => {
    if (hostEnds.has(at)) return ["plant"];
    return taken[at] ? [] : (partsOf.get(stem) ?? []);
  });
  const standsAlone = segments.map(({ from, to }) =>
    tokens
      .slice(from, to)
      .some(({ stem }, i) => (partsAt[from + i]?.length ?? 0) > 0 || thingStems.has(stem)),
  );
  const things = tokens.map(({ stem }, at) => thingStems.has(stem) && !taken[at]);
  const besideThings = segments.flatMap(({ from, to }) => {
    const holds = things.slice(from, to).includes(true);
    return Array.from({ length: to - from }, () => holds);
  });
  const stretches: Stretch[] = [];
  const subjects = carrySubjects(segments, partsAt);
  for (const [first, last] of groupSegments(segments, standsAlone, small, statement)) {
    const from = segments[first]?.from ?? 0;
    const to = segments[last]?.to ?? from;
    const parts = partsAt.slice(from, to);
    stretches.push({
      from,
      reach: {
        stems: tokens.slice(from, to).map(({ stem }) => stem),
        words: tokens.slice(from, to).map(({ word }) => word),
        parts,
        taken: taken.slice(from, to),
        small: small.slice(from, to),
        things: things.slice(from, to),
        besideThings: besideThings.slice(from, to),
        subjects: subjects.slice(from, to),
      },
    });
  }
  return stretches;
}

/** For each word the parts that its segment speaks of: its own, or those of the last one that names any; at first the plant. */
function carrySubjects(
  segments: readonly Segment[],
  partsAt: readonly (readonly string[])[],
): (readonly string[])[] {
  let subject: readonly string[] = ["plant"];
  return segments.flatMap(({ from, to }) => {
    const own = partsAt.slice(from, to).flat();
    if (own.length > 0) subject = own;
    return Array.from({ length: to - from }, () => subject);
  });
}

/** First and last segment of each stretch. */
function groupSegments(
  segments: readonly Segment[],
  standsAlone: readonly boolean[],
  small: readonly boolean[],
  statement: readonly boolean[],
): [number, number][] {
  const groups: [number, number][] = [];
  let open: [number, number] | undefined;
  let leansForward = false;
  segments.forEach((segment, i) => {
    const previous = segments[i - 1];
    const sameSentence = previous !== undefined && previous.sentence === segment.sentence;
    const joins =
      sameSentence &&
      segment.joint !== "colon" &&
      segment.joint !== "other" &&
      (leansForward || !standsAlone[i]);
    const next = segments[i + 1];
    // "… has brown and yellow leaves": what follows is told of the same part.
    const leads =
      !standsAlone[i] &&
      next !== undefined &&
      standsAlone[i + 1] === true &&
      next.sentence === segment.sentence &&
      (next.joint === "and" || next.joint === "comma" || next.joint === "or") &&
      !small[next.from] &&
      !statement[next.from];
    if (open && joins && !(leads && !leansForward && standsAlone[open[0]])) open[1] = i;
    else {
      open = [i, i];
      groups.push(open);
    }
    leansForward = !standsAlone[i] && (leads || (!joins && next?.sentence === segment.sentence));
  });
  return groups;
}
