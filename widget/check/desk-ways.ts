import { type Case, isDayId, takeBack } from "../../flows/case.ts";
import { writeLink } from "../../flows/case-link.ts";
import type { Flow } from "../../flows/flow.ts";
import type { DeskWays } from "../views/desk/desk-ways.ts";
import type { Pair } from "../views/ways.ts";

const PAGE = "/desk";

/** Links and forms of the desk that do all the work without a script. `root`: the server, without its last slash. */
export function makeDeskWays(flow: Flow, kase: Case, root = ""): DeskWays {
  const last = kase.answers.findLast(({ to }) => !isDayId(to));
  const link = writeLink(flow, kase);
  const hrefWithout = (to: string) => {
    const { case: before, dropped } = takeBack(flow, kase, to);
    const said = dropped.map(({ to: id }) => `&dropped=${id}`).join("");
    return `${PAGE}?${writeLink(flow, before)}${said}`;
  };
  return {
    action: PAGE,
    carried: [["e", String(flow.edition.number)], ...kase.answers.map(({ to, is }): Pair => [to, is])],
    hrefWithout,
    hrefBack: last === undefined ? null : hrefWithout(last.to),
    hrefToCode: (code) => `${PAGE}?code=${encodeURIComponent(code)}`,
    hrefToCheck: `${root}/check?${link}`,
    hrefToSlip: `${root}/slip?${link}`,
  };
}

/** The address of a case at the desk. */
export function hrefToDesk(flow: Flow, kase: Case): string {
  return `${PAGE}?${writeLink(flow, kase)}`;
}
