import { type Answer, type Case, isDayId } from "../../flows/case.ts";
import type { Question } from "../../flows/edition.ts";
import { type Flow, NOT_SURE } from "../../flows/flow.ts";
import * as words from "./words.ts";

/** An answer in the words the shopper saw. */
export interface AnswerInWords {
  to: string;
  prompt: string;
  answer: string;
}

/** The answers of a case; the days of a plan are none. */
export function describeAnswers(flow: Flow, kase: Case): AnswerInWords[] {
  return kase.answers.filter(({ to }) => !isDayId(to)).map((answer) => describeAnswer(flow, answer));
}

export function describeAnswer(flow: Flow, answer: Answer): AnswerInWords {
  const question = questionFor(flow, answer.to);
  return {
    to: answer.to,
    prompt: question?.prompt ?? answer.to,
    answer: nameReply(flow, question, answer.is),
  };
}

/** The question an answer belongs to. A finding told without being asked gets a plain yes-or-no question. */
export function questionFor(flow: Flow, to: string): Question | undefined {
  return flow.question(to) ?? questionAboutFinding(flow, to);
}

function questionAboutFinding(flow: Flow, id: string): Question | undefined {
  const finding = flow.finding(id);
  if (finding === undefined) return undefined;
  const option = { present: [], absent: [], facts: {}, none: false };
  return {
    id,
    kind: "finding",
    prompt: words.seen(finding.name),
    why: "",
    howToCheck: [],
    askWhen: { any: [], none: [] },
    options: [
      { ...option, id: "yes", label: words.yes },
      { ...option, id: "no", label: words.no },
    ],
  };
}

function nameReply(flow: Flow, question: Question | undefined, is: string): string {
  if (is === NOT_SURE) return question?.kind === "host" ? words.plantUnknown : words.notSure;
  if (question?.kind === "host") return flow.host(is)?.name ?? is;
  return question?.options.find((option) => option.id === is)?.label ?? is;
}
