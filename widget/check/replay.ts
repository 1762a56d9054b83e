import type { Case } from "../../flows/case.ts";
import { findContradictions, type LinkProblem, readLink } from "../../flows/case-link.ts";
import type { Flow } from "../../flows/flow.ts";
import { nextQuestion } from "../../flows/next-question.ts";
import { makePlan } from "../../flows/plan.ts";
import { judge } from "../../flows/verdict.ts";
import { sayVerdict } from "../views/report.ts";
import * as words from "../views/words.ts";

/** The live edition, and the one a link asks for when that is another and still exists. */
export interface Editions {
  live: Flow;
  asked: Flow | undefined;
}

/** A case as it stands under the live edition, and what should be said about how it got there. */
export interface Replay {
  case: Case;
  problems: LinkProblem[];
  /** What was told in two ways; nothing of it is lost. */
  contradictions: LinkProblem[];
  /** Whether another edition was asked for, and what became of that. */
  edition: {
    asked: number;
    sentence: string | null;
    code: "UNKNOWN_EDITION" | "SAME_OUTCOME" | "OTHER_OUTCOME";
  } | null;
}

/** Replays a link under the edition it was made with, then under the live one. */
export function replay({ live, asked }: Editions, query: string, askedNumber: number | undefined): Replay {
  const read = readLink(live, query);
  const base = {
    case: read.case,
    problems: read.problems,
    contradictions: findContradictions(live, read.case),
  };
  if (askedNumber === undefined || askedNumber === live.edition.number) return { ...base, edition: null };
  if (asked === undefined) {
    const sentence = words.editionUnknown(String(askedNumber));
    return { ...base, edition: { asked: askedNumber, sentence, code: "UNKNOWN_EDITION" } };
  }
  const sentence = tellDifference(outcomeOf(asked, readLink(asked, query).case), outcomeOf(live, read.case));
  return {
    ...base,
    edition: { asked: askedNumber, sentence, code: sentence === null ? "SAME_OUTCOME" : "OTHER_OUTCOME" },
  };
}

interface Outcome {
  /** Null while a question is still open. */
  said: string | null;
  key: string;
  plan: string;
}

function outcomeOf(flow: Flow, kase: Case): Outcome {
  if (nextQuestion(flow, kase) !== null) return { said: null, key: "", plan: "" };
  const verdict = judge(flow, kase);
  return {
    said: sayVerdict(flow, verdict),
    key: [verdict.standing, verdict.leader, ...verdict.beside].join(),
    plan: makePlan(flow, kase, verdict)
      .steps.map(({ remedy }) => remedy)
      .join(),
  };
}

/** Null when nothing was said then, or the same is said now. */
function tellDifference(then: Outcome, now: Outcome): string | null {
  if (then.said === null) return null;
  if (now.said === null) return words.editionAsksMore(then.said);
  if (then.key !== now.key) return words.editionDiffers(then.said, now.said);
  return then.plan === now.plan ? null : words.editionPlanDiffers;
}
