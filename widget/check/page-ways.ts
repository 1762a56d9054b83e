import { type Case, takeBack } from "../../flows/case.ts";
import { writeLink } from "../../flows/case-link.ts";
import type { Flow } from "../../flows/flow.ts";
import type { Pair, Ways } from "../views/ways.ts";

const PREFIX = "lt-";
/** Where every page of the check should be read from: the question in hand, or the verdict. */
const NOW = `#${PREFIX}now`;

/** The page of the check, seen from anywhere on the server. */
const PAGE = "/check";

/** Links and forms that do all the work without a script. `page`: the address of the page of the check. */
export function makePageWays(flow: Flow, kase: Case, page = PAGE): Ways {
  const last = kase.answers.at(-1);
  return {
    id: (name) => `${PREFIX}${name}`,
    action: `${page}${NOW}`,
    carried: carry(flow, kase),
    hrefToChange: (to) => hrefToCheck(flow, kase, [["change", to]], page),
    hrefToKeep: hrefToCheck(flow, kase, [], page),
    hrefToStart: page,
    hrefToSlip: `${page.replace(/check$/, "slip")}?${writeLink(flow, kase)}`,
    hrefToPrint: null,
    hrefBack: last === undefined ? null : hrefToCheck(flow, takeBack(flow, kase, last.to).case, [], page),
  };
}

/** The page of a case. `extra` holds the parts of the query that are not the case. */
export function hrefToCheck(flow: Flow, kase: Case, extra: readonly Pair[] = [], page = PAGE): string {
  const more = extra.map(([name, value]) => `&${name}=${encodeURIComponent(value)}`).join("");
  return `${page}?${writeLink(flow, kase)}${more}${NOW}`;
}

function carry(flow: Flow, kase: Case): Pair[] {
  return [["e", String(flow.edition.number)], ...kase.answers.map(({ to, is }): Pair => [to, is])];
}
