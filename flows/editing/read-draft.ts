import { crossCheck } from "../content/cross-checks.ts";
import { checkFileLimits } from "../content/limits.ts";
import { type Problem, sortProblems } from "../content/problems.ts";
import { type Files, newMemory, readFiles } from "../content/read-files.ts";
import { toEdition } from "../content/to-edition.ts";
import type { Edition } from "../edition.ts";
import { type FieldProblem, placeProblems } from "./place-problem.ts";

export interface DraftRead {
  /** Null while there is any problem. */
  edition: Edition | null;
  problems: FieldProblem[];
}

/**
 * Reads a draft again and again while it is edited: the same result as `readContent`, with the field of each problem. Only what
 * changed since the last time is read anew.
 */
export function openReader(): { read(files: Files): DraftRead } {
  const memory = newMemory();
  let limits = new Map<string, { text: string; problems: Problem[] }>();
  const checkLimits = (files: Files): Problem[] => {
    const now = new Map<string, { text: string; problems: Problem[] }>();
    for (const [file, text] of Object.entries(files)) {
      const before = limits.get(file);
      now.set(file, before?.text === text ? before : { text, problems: checkFileLimits(file, text) });
    }
    limits = now;
    return [...now.values()].flatMap(({ problems }) => problems);
  };
  return {
    read(files) {
      const beyond = checkLimits(files);
      if (beyond.length > 0) return { edition: null, problems: placeProblems(files, sortProblems(beyond)) };
      const { value: content, problems: found } = readFiles(files, memory);
      const problems = sortProblems([...found, ...crossCheck(content)]);
      return {
        edition: problems.length === 0 ? toEdition(content) : null,
        problems: placeProblems(files, problems),
      };
    },
  };
}
