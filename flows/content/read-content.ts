import type { Edition } from "../edition.ts";
import { crossCheck } from "./cross-checks.ts";
import { checkLimits } from "./limits.ts";
import { type Problem, sortProblems } from "./problems.ts";
import { type Files, readFiles } from "./read-files.ts";
import { toEdition } from "./to-edition.ts";

/**
 * Turns the files of content/ (path relative to it → text) into an edition with number 1 and an empty hash.
 * All problems are collected in one pass, sorted by place; with any problem there is no edition.
 */
export function readContent(files: Files): { edition: Edition | null; problems: Problem[] } {
  const limits = checkLimits(files);
  if (limits.length > 0) return { edition: null, problems: sortProblems(limits) };
  const { value: content, problems: found } = readFiles(files);
  const problems = sortProblems([...found, ...crossCheck(content)]);
  return { edition: problems.length === 0 ? toEdition(content) : null, problems };
}
