/**
 * What can be wrong with content, as data. Problems are collected while reading and never thrown.
 * What each code means and what to do about it stands in problem-help.ts.
 */
import { problemHelp } from "./problem-help.ts";

export const problemCodes = [
  // files and YAML
  "FILE_MISSING",
  "FILE_UNKNOWN",
  "FILE_NAME",
  "FILE_LIMITS",
  "FRONT_MATTER",
  "YAML_SYNTAX",
  "YAML_DUPLICATE_KEY",
  "YAML_ALIAS",
  // shape
  "KEY_MISSING",
  "KEY_UNKNOWN",
  "TYPE_WRONG",
  "WORD_UNKNOWN",
  "VALUE_BAD",
  // prose
  "PROSE_HTML",
  "PROSE_IMAGE",
  "PROSE_TABLE",
  "PROSE_HEADING",
  "PROSE_CODE_BLOCK",
  "PROSE_QUOTE",
  "PROSE_LINK",
  "PROSE_OTHER",
  "TEXT_EMPTY",
  "SECTION_MISSING",
  "SECTION_UNKNOWN",
  "SECTION_ORDER",
  "SECTION_TWICE",
  "SECTION_STRAY_TEXT",
  // ids
  "ID_TWICE",
  "ID_RESERVED",
  "ID_CLASH",
  "ID_RETIRED",
  "LISTED_TWICE",
  "FINDING_UNKNOWN",
  "CONDITION_UNKNOWN",
  "HOST_UNKNOWN",
  "REMEDY_UNKNOWN",
  "QUESTION_UNKNOWN",
  "SOURCE_UNKNOWN",
  "PRODUCT_UNKNOWN",
  // findings and hosts
  "IMPLIES_CIRCLE",
  "FINDING_NOT_ASKED",
  "HOST_NAME_TWICE",
  // what people say
  "SET_UNKNOWN",
  "FINDING_NOT_SAID",
  // questions
  "ORDER_INCOMPLETE",
  "ORDER_TWICE",
  "ORDER_KIND",
  "OPTIONS_MISSING",
  "OPTION_NONE",
  "OPTION_CONTRADICTION",
  "HOST_QUESTION",
  "FACT_QUESTION",
  "LOOK_QUESTION",
  // conditions
  "EVIDENCE_MISSING",
  "EVIDENCE_TWICE",
  "HALLMARK_KIND",
  "PLAN_MISSING",
  "SOURCES_MISSING",
  "SOURCE_TIER",
  // remedies
  "SYSTEMIC_UNGUARDED",
  "PRODUCT_ON_FOOD",
  "FIRST_AID_CHEMICAL",
  // drawings
  "DRAWING_SYNTAX",
  "DRAWING_ELEMENT",
  "DRAWING_ATTRIBUTE",
  "DRAWING_TEXT",
  "DRAWING_SIZE",
  "DRAWING_MISSING",
  "DRAWING_UNKNOWN",
  "DRAWING_TWICE",
  "DRAWING_REGION",
] as const;
export type ProblemCode = (typeof problemCodes)[number];

/** A place in a content file. Line and column count from 1. */
export interface Place {
  /** Path relative to content/. */
  file: string;
  line: number;
  column: number;
}

export interface Problem extends Place {
  code: ProblemCode;
  /** What is wrong, naming the thing. */
  sentence: string;
  /** What to do. */
  hint: string;
}

/** Makes a problem; the hint is the usual one of its code unless a better one is known. */
export function makeProblem(
  code: ProblemCode,
  place: Place,
  sentence: string,
  hint: string = problemHelp[code].hint,
): Problem {
  const { file, line, column } = place;
  return { code, file, line, column, sentence, hint };
}

/** One line for a terminal: `file:line:column CODE sentence — hint`. */
export function formatProblem(problem: Problem): string {
  const { file, line, column, code, sentence, hint } = problem;
  return `${file}:${line}:${column} ${code} ${sentence} — ${hint}`;
}

/** By file, then by position, so that an editor can work from top to bottom. */
export function sortProblems(problems: readonly Problem[]): Problem[] {
  return [...problems].sort(
    (a, b) =>
      compareText(a.file, b.file) || a.line - b.line || a.column - b.column || compareText(a.code, b.code),
  );
}

// Not localeCompare: the order must be the same on every machine.
function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
