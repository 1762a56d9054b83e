import type { Answer } from "../case.ts";
import { writeLink } from "../case-link.ts";
import { NOT_SURE } from "../flow.ts";
import type { Household, HouseholdPair, Step } from "./household.ts";
import type { Editions, SideName } from "./merge.ts";
import type { CaseView, ChangeGroup, EndView } from "./report.ts";
import type { SideEnd, SidePoint } from "./side.ts";

/** One side of a pair that ended: the way there, the plant, and what was told of the household. */
export interface EndCase {
  end: SideEnd;
  point: SidePoint;
  host: string | null;
  pair: HouseholdPair;
}

/** What brought the leader on only shows in the plan, so it does not make a verdict another. */
export function sameEnd(live: SideEnd, draft: SideEnd): boolean {
  return (
    live.standing === draft.standing &&
    live.leader === draft.leader &&
    live.beside.join() === draft.beside.join() &&
    live.bringSample === draft.bringSample
  );
}

export function viewEnd({ standing, leader, beside, bringSample }: SideEnd): EndView {
  return { standing, leader, beside, bringSample };
}

export function sameSteps(from: readonly Step[], to: readonly Step[]): boolean {
  return from.length === to.length && from.every(({ key }, i) => key === to[i]?.key);
}

export function diffSteps(from: readonly Step[], to: readonly Step[]): ChangeGroup["steps"] {
  const [was, is] = [from.map(({ id }) => id), to.map(({ id }) => id)];
  const added = is.filter((id) => !was.includes(id)).sort();
  const dropped = was.filter((id) => !is.includes(id)).sort();
  return { added, dropped, otherwise: added.length + dropped.length === 0 };
}

/** A conversation of a pair as it can be clicked through. */
export function viewCase(
  editions: Editions,
  household: Household,
  side: SideName,
  { end, point, host, pair }: EndCase,
): CaseView {
  const flow = editions[side];
  const answers: Answer[] = [];
  for (let at: SidePoint | undefined = point; at?.parent; at = at.parent) {
    const prompt = flow.prompts[at.prompt];
    answers.unshift({ to: prompt?.question.id ?? "", is: prompt?.replies[at.reply]?.id ?? NOT_SURE });
  }
  if (flow.hostQuestion) answers.splice(1, 0, { to: flow.hostQuestion.id, is: host ?? NOT_SURE });
  for (const [at, reply] of pair.told[side]) {
    const prompt = household.prompts[at];
    answers.push({ to: prompt?.id ?? "", is: prompt?.[side]?.replies[reply]?.id ?? NOT_SURE });
  }
  const shared = { id: host, live: host, draft: host };
  const steps = household.steps(side, end, shared, pair[side].stated).map(({ id }) => id);
  return { link: writeLink(flow, { edition: flow.edition.number, answers }), answers, steps };
}
