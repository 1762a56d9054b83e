import { type CivilDate, dayNumber } from "./calendar/civil-date.ts";
import { answerTo, type Case, type DayId, dayIds, giveAnswer } from "./case.ts";
import type { Question } from "./edition.ts";
import type { Flow } from "./flow.ts";
import { nextQuestion } from "./next-question.ts";
import { readLooks, secondLook } from "./second-look.ts";

/** Whether a case that is opened asks "better, same, worse, something new?" before anything else. */
export interface LookDue {
  /** The question, while another look can be taken; null when there is no plan yet, a look is under way, or none is left. */
  question: Question | null;
  /** True when it is known since when, and that was before today: then it is asked at once. */
  due: boolean;
  /** Days since the latest look, or since the plan began, or since the link was made; null when nothing says. */
  days: number | null;
}

/**
 * `today` is the day at the shopper's; the engine never reads a clock. `made`: the day the link was handed out, which is no
 * part of the case but counts like the day of a look.
 */
export function lookDue(flow: Flow, kase: Case, today: CivilDate, made?: CivilDate): LookDue {
  const days = daysSince(kase, today, made);
  const question = nextLook(flow, kase);
  return { question, due: question !== null && days !== null && days >= 1, days };
}

function nextLook(flow: Flow, kase: Case): Question | null {
  const next = flow.looks?.again[readLooks(flow, kase).length];
  // A plan may begin before the last question is answered; without a day only the end of the questions tells.
  const hasPlan = answerTo(kase, "began") !== undefined && readLooks(flow, kase).length === 0;
  if (!next || (!hasPlan && nextQuestion(flow, kase) !== null)) return null;
  // After a request for a sample the bench has the word.
  return secondLook(flow, kase).outcome.kind === "sample" ? null : next.question;
}

function daysSince(kase: Case, today: CivilDate, made: CivilDate | undefined): number | null {
  const since = [answerTo(kase, "looked") ?? answerTo(kase, "began"), made];
  const from = since.flatMap((day) => (day === undefined ? [] : (dayNumber(day) ?? [])));
  const to = dayNumber(today);
  return from.length === 0 || to === undefined ? null : to - Math.max(...from);
}

/** Notes the day a plan began. A case that has begun keeps its day. */
export function beginPlan(flow: Flow, kase: Case, today: CivilDate): Case {
  return answerTo(kase, "began") === undefined ? noteDay(flow, kase, "began", today) : kase;
}

/** Answers the look that is next, and notes its day. Nothing happens when no look is left. */
export function takeLook(flow: Flow, kase: Case, is: string, today: CivilDate): Case {
  const question = nextLook(flow, kase);
  if (!question) return kase;
  return noteDay(flow, giveAnswer(flow, kase, question.id, is).case, "looked", today);
}

function noteDay(flow: Flow, kase: Case, day: DayId, today: CivilDate): Case {
  return flow.looks ? giveAnswer(flow, kase, day, today).case : kase;
}

/** The case as it was before anyone looked again: what the code of a second look carries along. */
export function firstCase(flow: Flow, kase: Case): Case {
  const later = new Set<string>([...lookIds(flow), ...dayIds]);
  return { ...kase, answers: kase.answers.filter(({ to }) => !later.has(to)) };
}

/** Every question that only a look asks. */
export function lookIds(flow: Flow): string[] {
  const { looks } = flow;
  if (!looks) return [];
  return [...looks.again, ...looks.reopenings, looks.tried, looks.technique].map(
    ({ question }) => question.id,
  );
}
