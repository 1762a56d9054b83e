import { type CivilDate, isCaseDay } from "../../flows/calendar/civil-date.ts";
import { type Case, isDayId, takeBack } from "../../flows/case.ts";
import { writeLink } from "../../flows/case-link.ts";
import type { Branch } from "../../flows/edition.ts";
import type { Flow } from "../../flows/flow.ts";
import type { Pair, Ways } from "../views/ways.ts";
import type { Typed } from "./read-request.ts";

const PREFIX = "lt-";
/** Where every page of the check should be read from: the question in hand, or the verdict. */
const NOW = `#${PREFIX}now`;

/** The page of the check, seen from anywhere on the server. */
const PAGE = "/check";

/**
 * Links and forms that do all the work without a script. `page`: the address of the page of the check; `aside`: what every
 * link and form takes along beside the case.
 */
export function makePageWays(flow: Flow, kase: Case, aside: readonly Pair[], page = PAGE): Ways {
  const last = kase.answers.findLast(({ to }) => !isDayId(to));
  const go = (to: Case, ...extra: Pair[]) => hrefToCheck(flow, to, [...extra, ...aside], page);
  const link = `?${writeLink(flow, kase)}${writeQuery(aside)}`;
  return {
    id: (name) => `${PREFIX}${name}`,
    action: `${page}${NOW}`,
    actionAt: (name) => `${page}#${PREFIX}${name}`,
    carried: [...carry(flow, kase), ...aside],
    hrefToChange: (to) => go(kase, ["change", to]),
    hrefToKeep: go(kase),
    hrefToStart: page,
    hrefToLook: go(kase, ["look", "ask"]),
    hrefToCalendar: `${page.replace(/check$/, "calendar.ics")}${link}`,
    hrefToSay: `${page.replace(/check$/, "say")}${link}${NOW}`,
    hrefToSlip: `${page.replace(/check$/, "slip")}${link}`,
    hrefToPrint: null,
    hrefBack: last === undefined ? null : go(withoutAnswer(flow, kase, last.to)),
  };
}

/** A look that is taken back takes its day along. */
function withoutAnswer(flow: Flow, kase: Case, to: string): Case {
  const isLook = flow.looks?.again.some(({ question }) => question.id === to) === true;
  const { case: before } = takeBack(flow, kase, to);
  return isLook ? takeBack(flow, before, "looked").case : before;
}

/**
 * What links take along beside the case. The day in them is today's: whoever follows one has seen the plan today, and
 * whoever keeps one is asked how it went when it is opened later.
 */
export function makeAside(typed: Typed, branch: Branch | null, today: CivilDate | undefined): Pair[] {
  return [
    ...Object.entries(typed).flatMap(([name, text]) => (text === undefined ? [] : [[name, text] as const])),
    ...(branch ? [["branch", branch.id] as const] : []),
    ...(today !== undefined && isCaseDay(today) ? [["made", today] as const] : []),
  ];
}

/** Further parts of a query that has a beginning. */
export function writeQuery(pairs: readonly Pair[]): string {
  return pairs.map(([name, value]) => `&${name}=${encodeURIComponent(value)}`).join("");
}

/** The page of a case. `extra` holds the parts of the query that are not the case. */
export function hrefToCheck(flow: Flow, kase: Case, extra: readonly Pair[] = [], page = PAGE): string {
  return `${page}?${writeLink(flow, kase)}${writeQuery(extra)}${NOW}`;
}

function carry(flow: Flow, kase: Case): Pair[] {
  return [["e", String(flow.edition.number)], ...kase.answers.map(({ to, is }): Pair => [to, is])];
}
