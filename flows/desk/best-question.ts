import { type Case, know } from "../case.ts";
import type { Question, Standing } from "../edition.ts";
import { type Flow, NOT_SURE } from "../flow.ts";
import { nextQuestion, offers } from "../next-question.ts";
import { judge, type Verdict } from "../verdict.ts";

/** What an answer would make of the case. */
export interface Outcome {
  /** The reply's id. */
  is: string;
  leader: string | null;
  standing: Standing;
}

/** Why a question is the best one to ask now. */
export type Because =
  /** Everything follows from it. */
  | { kind: "opening" }
  | { kind: "host" }
  /** Steps of the plan depend on it. */
  | { kind: "plan" }
  | { kind: "look" }
  /** Its answers lead to different conditions: those, best first by how often. */
  | { kind: "separates"; conditions: string[]; settles: Outcome | null }
  /** Its answers can make the leader surer, or less sure. */
  | { kind: "weighs"; condition: string; settles: Outcome | null }
  /** The leader stands; the question could unseat it, or tell what brought it on. */
  | { kind: "checks"; condition: string }
  | { kind: "opens" };

export interface BestQuestion {
  question: Question;
  because: Because;
}

const MOST_NAMED = 3;

/** The question to ask next with the reason for it; null when the verdict is due. */
export function bestQuestion(flow: Flow, kase: Case): BestQuestion | null {
  const question = nextQuestion(flow, kase);
  return question && { question, because: reasonFor(flow, kase, question) };
}

function reasonFor(flow: Flow, kase: Case, question: Question): Because {
  if (question.kind === "host") return { kind: "host" };
  if (question.kind === "fact") return { kind: "plan" };
  if (question.kind === "look" || flow.looks?.reopenings.some((one) => one.question === question)) {
    return { kind: "look" };
  }
  if (question.id === flow.edition.conversation.opening) return { kind: "opening" };
  const now = judge(flow, kase);
  if (now.standing === "suspected" && now.leader !== null) return { kind: "checks", condition: now.leader };
  const outcomes = outcomesOf(flow, kase, question);
  const settles = outcomes.find(({ standing }) => standing === "suspected") ?? null;
  const counts = new Map<string, number>();
  for (const { leader } of outcomes) if (leader !== null) counts.set(leader, (counts.get(leader) ?? 0) + 1);
  // The one that leads now comes first: staff compare the others with it.
  const rank = (id: string) => (id === now.leader ? 1000 : (counts.get(id) ?? 0));
  const conditions = [...counts.keys()].sort((a, b) => rank(b) - rank(a)).slice(0, MOST_NAMED);
  const [first] = conditions;
  if (conditions.length > 1) return { kind: "separates", conditions, settles };
  return first === undefined ? { kind: "opens" } : { kind: "weighs", condition: first, settles };
}

/** The verdict after each answer but "not sure". */
function outcomesOf(flow: Flow, kase: Case, { id, options }: Question): Outcome[] {
  return options.map((option) => {
    const answers = [...kase.answers, { to: id, is: option.id }];
    const { leader, standing } = judge(flow, { ...kase, answers });
    return { is: option.id, leader, standing };
  });
}

/** The open question that tells two conditions apart best. */
export interface Separation {
  first: string;
  second: string;
  question: Question;
  /** The replies that speak most for the first, and for the second. */
  forFirst: string;
  forSecond: string;
}

/** What would separate the top two; null when fewer than two stand, or no open question can. */
export function separateTop(flow: Flow, kase: Case, verdict: Verdict): Separation | null {
  const [one, two] = verdict.candidates.filter(({ speaks }) => speaks);
  if (!one || !two) return null;
  const place = (id: string) => flow.edition.conditions.findIndex((condition) => condition.id === id);
  const [a, b] = [place(one.condition), place(two.condition)];
  const { known, answered } = know(flow, kase);
  let best: Separation | null = null;
  let widest = 0;
  for (const { prompt, gains } of offers(flow, known, (id) => answered.has(id))) {
    const swings = gains.map(({ conditions, decibans }) => {
      const gain = (c: number) => decibans[conditions.indexOf(c)] ?? 0;
      return gain(a) - gain(b);
    });
    const [most, least] = [Math.max(...swings), Math.min(...swings)];
    if (most - least <= widest || most <= 0 || least >= 0) continue;
    widest = most - least;
    const replyAt = (swing: number) => prompt.replies[swings.indexOf(swing)]?.id ?? NOT_SURE;
    best = {
      first: one.condition,
      second: two.condition,
      question: prompt.question,
      forFirst: replyAt(most),
      forSecond: replyAt(least),
    };
  }
  return best;
}
