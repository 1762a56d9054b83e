import type { Answer, Case } from "../../flows/case.ts";
import type { Flow } from "../../flows/flow.ts";

/** A case of "to=is" pairs; a bare finding id is "yes". */
export function caseOf(flow: Flow, ...answers: string[]): Case {
  return { edition: flow.edition.number, answers: answers.map(readAnswer) };
}

function readAnswer(text: string): Answer {
  const [to = "", is = "yes"] = text.split("=");
  return { to, is };
}

/** The answers of a case as a set, for comparing cases whatever the order. */
export function answerSet(kase: Case): string[] {
  return kase.answers.map(({ to, is }) => `${to}=${is}`).sort();
}
