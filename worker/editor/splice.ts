/** One change of a text: what was cut out at a place, and what was put there instead. Places count UTF-16 units. */
export interface Splice {
  start: number;
  removed: string;
  added: string;
}

/** The smallest single splice that makes one text of another. */
export function findSplice(before: string, after: string): Splice {
  const shorter = Math.min(before.length, after.length);
  let start = 0;
  while (start < shorter && before.charCodeAt(start) === after.charCodeAt(start)) start++;
  let tail = 0;
  while (
    tail < shorter - start &&
    before.charCodeAt(before.length - 1 - tail) === after.charCodeAt(after.length - 1 - tail)
  )
    tail++;
  // A pair of surrogates stays whole: half of one cannot be stored.
  if (start > 0 && isHigh(before.charCodeAt(start - 1))) start--;
  if (tail > 0 && isLow(before.charCodeAt(before.length - tail))) tail--;
  return {
    start,
    removed: before.slice(start, before.length - tail),
    added: after.slice(start, after.length - tail),
  };
}

/** The text as it was before the splice. */
export function undoSplice(after: string, { start, removed, added }: Splice): string {
  return after.slice(0, start) + removed + after.slice(start + added.length);
}

function isHigh(unit: number): boolean {
  return unit >= 0xd800 && unit < 0xdc00;
}

function isLow(unit: number): boolean {
  return unit >= 0xdc00 && unit < 0xe000;
}
