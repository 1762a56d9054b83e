import { type Answer, type Case, giveAnswer, newCase } from "../../../flows/case.ts";
import { type Edition, facts } from "../../../flows/edition.ts";
import { type Flow, NOT_SURE, openFlow } from "../../../flows/flow.ts";
import { nextQuestion } from "../../../flows/next-question.ts";
import { makePlan } from "../../../flows/plan.ts";
import { judge } from "../../../flows/verdict.ts";

interface Ended {
  answers: readonly Answer[];
  verdict: string;
  plan: string;
}

/** What a comparison comes to, in a form that can be held against another. */
export interface Tallied {
  pairs: number;
  differ: { verdict: number; plan: number; questions: number };
  longer: number;
  shorter: number;
  longest: { live: number; draft: number };
  /** By from → to and what differs: how many pairs, and the length of the shortest. */
  groups: Record<string, { pairs: number; shortest: number }>;
}

/** Every conversation of an edition, one by one, through the functions that the server asks. */
export function listConversations(flow: Flow): Ended[] {
  const ended: Ended[] = [];
  const follow = (kase: Case): void => {
    const next = nextQuestion(flow, kase);
    if (next) {
      const options = next.kind === "host" ? flow.edition.hosts : next.options;
      for (const is of [...options.map(({ id }) => id), NOT_SURE])
        follow(giveAnswer(flow, kase, next.id, is).case);
      return;
    }
    const { standing, leader, beside, bringSample } = judge(flow, kase);
    const known = standing === "undetermined" ? [null, []] : [leader, beside];
    const verdict = JSON.stringify([standing, ...known, bringSample]);
    ended.push({ answers: kase.answers, verdict, plan: describePlan(flow, kase) });
  };
  follow(newCase(flow));
  return ended;
}

/** The steps with all but their words: what they are, when they are done, and for whom they show how many cautions. */
function describePlan(flow: Flow, kase: Case): string {
  const plan = makePlan(flow, kase, judge(flow, kase));
  const states = new Map(plan.household.map(({ fact, state }) => [fact, state]));
  const steps = plan.steps.map(({ remedy: id, phase, labelIsLaw }) => {
    const remedy = flow.remedy(id);
    const due = facts.map((fact) => (states.get(fact) === "no" ? 0 : (remedy?.cautions[fact].length ?? 0)));
    return [
      id,
      phase,
      labelIsLaw,
      remedy?.method,
      remedy?.toxicity,
      remedy?.lastResort === true,
      remedy?.cautions.always.length,
      ...due,
    ];
  });
  return JSON.stringify(steps);
}

const idsOf = (plan: string) => (JSON.parse(plan) as [string][]).map(([id]) => id);

/** For each question that both editions have: which reply of one goes with which of the other. */
function openAgreement(live: Flow, draft: Flow): (question: string, a: string, b: string) => boolean {
  const replies = (flow: Flow, id: string): Set<string> => {
    const question = flow.edition.questions.find((one) => one.id === id);
    const options = question?.kind === "host" ? flow.edition.hosts : (question?.options ?? []);
    return new Set(options.map((option) => option.id));
  };
  const both = new Map<string, [Set<string>, Set<string>]>();
  return (question, a, b) => {
    const [was, is] = both.get(question) ?? [replies(live, question), replies(draft, question)];
    both.set(question, [was, is]);
    if (a === b) return true;
    // An answer that only one edition knows is met by "not sure".
    return (b === NOT_SURE && !is.has(a)) || (a === NOT_SURE && !was.has(b));
  };
}

/** The comparison by its definition: every conversation of one edition with every one of the other, where all answers agree. */
export function compareOneByOne(before: Edition, after: Edition): Tallied {
  const [live, draft] = [openFlow(before), openFlow(after)];
  const agree = openAgreement(live, draft);
  const result: Tallied = {
    pairs: 0,
    differ: { verdict: 0, plan: 0, questions: 0 },
    longer: 0,
    shorter: 0,
    longest: { live: 0, draft: 0 },
    groups: {},
  };
  const others = listConversations(draft).map((ended) => ({
    ended,
    given: new Map(ended.answers.map(({ to, is }) => [to, is])),
  }));
  for (const was of listConversations(live)) {
    for (const { ended: is, given } of others) {
      const fits = was.answers.every((answer) => {
        const other = given.get(answer.to);
        return other === undefined || agree(answer.to, answer.is, other);
      });
      if (fits) countPair(result, was, is);
    }
  }
  return result;
}

function countPair(result: Tallied, was: Ended, is: Ended): void {
  const [a, b] = [was.answers.map(({ to }) => to), is.answers.map(({ to }) => to)];
  const added = b.filter((id) => !a.includes(id)).sort();
  const dropped = a.filter((id) => !b.includes(id)).sort();
  const order = a.filter((id) => b.includes(id)).join() !== b.filter((id) => a.includes(id)).join();
  const isAsked = added.length + dropped.length > 0 || order;
  result.pairs++;
  if (b.length > a.length) result.longer++;
  if (b.length < a.length) result.shorter++;
  result.longest.live = Math.max(result.longest.live, a.length);
  result.longest.draft = Math.max(result.longest.draft, b.length);
  const kind =
    was.verdict !== is.verdict ? "verdict" : was.plan !== is.plan ? "plan" : isAsked ? "questions" : null;
  if (!kind) return;
  result.differ[kind]++;
  const [from, to] = [idsOf(was.plan), idsOf(is.plan)];
  const more = to.filter((id) => !from.includes(id)).sort();
  const less = from.filter((id) => !to.includes(id)).sort();
  const detail = {
    verdict: "",
    plan: JSON.stringify([more, less, more.length + less.length === 0]),
    questions: JSON.stringify([added, dropped, order]),
  }[kind];
  const key = `${kind} ${was.verdict} ${is.verdict} ${detail}`;
  const group = result.groups[key] ?? { pairs: 0, shortest: Number.POSITIVE_INFINITY };
  result.groups[key] = group;
  group.pairs++;
  group.shortest = Math.min(group.shortest, a.length + b.length);
}
