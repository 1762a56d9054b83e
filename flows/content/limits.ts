import { makeProblem, type Problem } from "./problems.ts";
import type { Files } from "./read-files.ts";

export const mostCharacters = 262_144;
const mostMarkers = 12;
const mostIndent = 80;
const mostBrackets = 40;

const listOrQuoteMarker = /[ \t]*(?:[>*+-]|\d{1,9}[.)])/y;

/**
 * Files that no person would write and that could exhaust the readers, which call themselves at each level of nesting.
 * To be asked before anything is parsed.
 */
export function checkLimits(files: Files): Problem[] {
  return Object.entries(files).flatMap(([file, text]) => checkFileLimits(file, text));
}

export function checkFileLimits(file: string, text: string): Problem[] {
  if (text.length > mostCharacters) {
    return [
      makeProblem(
        "FILE_LIMITS",
        { file, line: 1, column: 1 },
        `The file has more than ${mostCharacters} characters.`,
      ),
    ];
  }
  const line = findTooDeep(text);
  if (line === null) return [];
  return [
    makeProblem(
      "FILE_LIMITS",
      { file, line, column: 1 },
      "The lists or brackets are nested too deeply here.",
    ),
  ];
}

/** The first line that is nested too deeply, from 1. Brackets count through the whole file. */
function findTooDeep(text: string): number | null {
  let brackets = 0;
  const index = text.split("\n").findIndex((line) => {
    for (const character of line) {
      if (character === "[" || character === "{") brackets += 1;
      else if (character === "]" || character === "}") brackets = Math.max(0, brackets - 1);
      if (brackets > mostBrackets) return true;
    }
    return line.length - line.trimStart().length > mostIndent || countMarkers(line) > mostMarkers;
  });
  return index === -1 ? null : index + 1;
}

function countMarkers(line: string): number {
  let count = 0;
  listOrQuoteMarker.lastIndex = 0;
  // A rule of dashes, and the table line |---|, are no nesting.
  while (count <= mostMarkers && !/^[-*]{3}/.test(line.trimStart()) && listOrQuoteMarker.test(line))
    count += 1;
  return count;
}
