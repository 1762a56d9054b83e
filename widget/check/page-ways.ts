import { type Case, takeBack } from "../../flows/case.ts";
import { writeLink } from "../../flows/case-link.ts";
import type { Flow } from "../../flows/flow.ts";
import type { Pair, Ways } from "../../widget/views/ways.ts";

const PREFIX = "lt-";
/** Where every page of the check should be read from: the question in hand, or the verdict. */
const NOW = `#${PREFIX}now`;

/** Links and forms that do all the work without a script. */
export function makePageWays(flow: Flow, kase: Case): Ways {
  const last = kase.answers.at(-1);
  return {
    id: (name) => `${PREFIX}${name}`,
    action: `/check${NOW}`,
    carried: carry(flow, kase),
    hrefToChange: (to) => hrefToCheck(flow, kase, [["change", to]]),
    hrefToKeep: hrefToCheck(flow, kase),
    hrefToStart: "/check",
    hrefBack: last === undefined ? null : hrefToCheck(flow, takeBack(flow, kase, last.to).case),
  };
}

/** The page of a case. `extra` holds the parts of the query that are not the case. */
export function hrefToCheck(flow: Flow, kase: Case, extra: readonly Pair[] = []): string {
  const more = extra.map(([name, value]) => `&${name}=${encodeURIComponent(value)}`).join("");
  return `/check?${writeLink(flow, kase)}${more}${NOW}`;
}

function carry(flow: Flow, kase: Case): Pair[] {
  return [["e", String(flow.edition.number)], ...kase.answers.map(({ to, is }): Pair => [to, is])];
}
