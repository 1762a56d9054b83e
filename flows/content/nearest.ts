/** The id that a misspelled one was probably meant to be, or null when none is close. */
export function findNearest(id: string, ids: Iterable<string>): string | null {
  let best: string | null = null;
  let bestDistance = Math.min(3, Math.floor(id.length / 3)) + 1;
  for (const candidate of ids) {
    if (Math.abs(candidate.length - id.length) >= bestDistance) continue;
    const distance = countEdits(id, candidate);
    if (distance < bestDistance) [best, bestDistance] = [candidate, distance];
  }
  return best;
}

/** Levenshtein's distance: letters to insert, remove or replace. */
function countEdits(from: string, to: string): number {
  let row = Array.from({ length: to.length + 1 }, (_, index) => index);
  for (let i = 1; i <= from.length; i += 1) {
    const next = [i];
    for (let j = 1; j <= to.length; j += 1) {
      const replace = (row[j - 1] ?? 0) + (from[i - 1] === to[j - 1] ? 0 : 1);
      next.push(Math.min(replace, (row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1));
    }
    row = next;
  }
  return row[to.length] ?? 0;
}
