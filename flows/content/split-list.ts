/** A piece of a YAML list file: one item with its comments after it, or what stands before the first item. */
export interface ListPart {
  text: string;
  /** Characters and lines of the file before this part. */
  offset: number;
  linesBefore: number;
}

/**
 * Cuts the text of a YAML file that is one list at its top into its items, so that each can be read by itself. The first part
 * is what comes before the first item. Null when the text is no such list, or holds what only the whole text explains
 * (several documents, directives, tabs before a dash).
 */
export function splitList(text: string): ListPart[] | null {
  if (/^(?:---|\.\.\.|%)/m.test(text) || /^\t*\t-/m.test(text)) return null;
  const starts = [...text.matchAll(/^-(?=[ \n\r]|$)/gm)].map(({ index }) => index);
  const [first] = starts;
  if (first === undefined || !/^(?:[ \t]*(?:\r?\n|#[^\n]*\n))*$/.test(text.slice(0, first))) return null;
  const cuts = [0, ...starts, text.length];
  let linesBefore = 0;
  return cuts.slice(0, -1).map((from, i) => {
    const part = { text: text.slice(from, cuts[i + 1]), offset: from, linesBefore };
    linesBefore += countLines(part.text);
    return part;
  });
}

function countLines(text: string): number {
  let lines = 0;
  for (let at = text.indexOf("\n"); at >= 0; at = text.indexOf("\n", at + 1)) lines++;
  return lines;
}
