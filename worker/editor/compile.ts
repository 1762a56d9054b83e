import { readLink } from "../../flows/case-link.ts";
import { runTest, type TestOutcome } from "../../flows/compare/case-tests.ts";
import { readContent } from "../../flows/content/read-content.ts";
import type { Files } from "../../flows/content/read-files.ts";
import { type FieldProblem, placeProblems } from "../../flows/editing/place-problem.ts";
import type { Edition, Standing } from "../../flows/edition.ts";
import { type Flow, openFlow } from "../../flows/flow.ts";
import { nextQuestion } from "../../flows/next-question.ts";
import { judge } from "../../flows/verdict.ts";
import { hashEdition } from "../hash-edition.ts";
import type { KeptCase } from "./kept-cases.ts";

export interface Compiled {
  edition: Edition | null;
  problems: FieldProblem[];
}

/** Files → edition with its hash. The number stays open until it is published. */
export async function compile(files: Files): Promise<Compiled> {
  const { edition, problems } = readContent(files);
  return {
    edition: edition && { ...edition, hash: await hashEdition(edition) },
    problems: placeProblems(files, problems),
  };
}

export interface Outcome {
  standing: Standing;
  leader: string | null;
}

/** How a conversation ends; null while a question is still open in it. */
export function endOf(flow: Flow, query: string): Outcome | null {
  const kase = readLink(flow, query).case;
  if (nextQuestion(flow, kase) !== null) return null;
  const { standing, leader } = judge(flow, kase);
  return { standing, leader: standing === "undetermined" ? null : leader };
}

export interface JudgedCase {
  kept: KeptCase;
  now: TestOutcome;
}

/** How every kept case ends under an edition. */
export function judgeCases(edition: Edition, kept: readonly KeptCase[]): JudgedCase[] {
  const flow = openFlow(edition);
  return kept.map((one) => ({ kept: one, now: runTest(flow, one) }));
}
