import { answerTo, type Case, isDayId } from "../../flows/case.ts";
import { type Flow, NOT_SURE } from "../../flows/flow.ts";
import { judge } from "../../flows/verdict.ts";
import type { CheckState } from "../../widget/check/decide.ts";
import type { CheckRequest } from "../../widget/check/read-request.ts";
import { knownBranch, type Visit } from "./visit.ts";

/**
 * What the view of a page tells of a conversation, without knowing which one it is. A press on one of our pages gets
 * the next question or the verdict; so the view of a page says that the question before it was answered. Opening a
 * link or reloading says nothing, and neither does a page that only looks at the same thing in another way.
 */
export function readPageVisit(
  { flow, case: kase, next, reopened }: CheckState,
  request: CheckRequest,
  { fromOurPage, branch }: { fromOurPage: boolean; branch: string | undefined },
): Visit | null {
  const { change, to, plant, dropped, look, typed } = request;
  const isAside = [change, to, plant, look].some((part) => part !== undefined);
  if (isAside || reopened || dropped.length > 0 || Object.keys(typed).length > 0) return null;
  const last = kase.answers.findLast(({ to }) => !isDayId(to));
  if (last && !fromOurPage) return null;
  const answered = last && flow.question(last.to) ? [last.to] : [];
  return {
    branch: knownBranch(flow, branch),
    started: last === undefined,
    shown: next ? [next.id] : [],
    answered,
    unsure: answered.filter((id) => answerTo(kase, id) === NOT_SURE),
    verdict: next || !last ? null : readVerdict(flow, kase),
  };
}

function readVerdict(flow: Flow, kase: Case): Visit["verdict"] {
  const { standing, leader } = judge(flow, kase);
  return { standing, condition: standing === "undetermined" ? null : leader };
}
