/** What the page and its checker, a Web Worker, say to each other. */
import type { CaseTest, TestComparison } from "../../flows/compare/case-tests.ts";
import type { Cause } from "../../flows/compare/causes.ts";
import type { Comparison } from "../../flows/compare/report.ts";
import type { Files } from "../../flows/content/read-files.ts";
import type { FieldChange } from "../../flows/editing/difference.ts";
import type { Step } from "../../flows/editing/edit.ts";
import type { FieldAs } from "../../flows/editing/field-text.ts";
import type { FieldProblem } from "../../flows/editing/place-problem.ts";
import type { Progress } from "../../flows/progress.ts";
import type { WalkReport } from "../../flows/walk/walk.ts";

/** What can be asked of the checker, and what comes of it. */
export interface Jobs {
  /** Begins with a draft and the files of the live edition. To be asked first. */
  open: { asks: { draft: Files; live: Files; liveNumber: number }; gives: Checked };
  /** One file with another text; null takes it away. */
  edit: { asks: { file: string; text: string | null }; gives: Checked };
  /** One file as a form would make it. */
  fill: { asks: { watched: Watched; texts: Record<string, string> }; gives: Checked };
  /** What differs from the live edition, field by field. */
  changes: { asks: object; gives: FieldChange[] };
  /** Every conversation of the draft: counted, and each invariant checked. */
  walk: { asks: object; gives: WalkReport };
  /** What the draft does to every conversation. */
  compare: { asks: object; gives: Comparison };
  /** Why the groups of the latest comparison differ: those from `from` on, so many. */
  explain: { asks: { from: number; count: number }; gives: Cause[][] };
  /** How the things that reports name by their ids are called, in the draft or else in the live edition. */
  names: { asks: object; gives: Names };
  /** What the draft does to kept conversations. */
  tests: { asks: { tests: CaseTest[] }; gives: TestComparison[] };
}
export type JobName = keyof Jobs;

/** A field of a form: its name there, and where it stands in the file. */
export interface WatchedField extends FieldAs {
  name: string;
  path: readonly Step[];
}

export interface Watched {
  file: string;
  /** Without fields the form holds the text of the file itself. */
  fields: readonly WatchedField[] | null;
  /** The condition whose evidence stands in the form as well. */
  condition?: string;
}

export interface Names {
  conditions: Record<string, string>;
  remedies: Record<string, string>;
  questions: Record<string, { prompt: string; answers: Record<string, string> }>;
}

export interface Checked {
  problems: FieldProblem[];
}

export type Ask = { [N in JobName]: { id: number; name: N; asks: Jobs[N]["asks"] } }[JobName];

/** Stops a job that is under way. Its answer is `stopped`. */
export interface Stop {
  stop: number;
}

export type Reply =
  | { id: number; progress: Progress }
  | { id: number; gives: unknown }
  | { id: number; stopped: true }
  /** Nothing could be done: a whole sentence. */
  | { id: number; refused: string };
