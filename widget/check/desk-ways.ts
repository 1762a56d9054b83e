import { type Case, isDayId, takeBack } from "../../flows/case.ts";
import { writeLink } from "../../flows/case-link.ts";
import { dropRemark, type Remarks } from "../../flows/desk/pieces.ts";
import type { Flow } from "../../flows/flow.ts";
import type { DeskWays } from "../views/desk/desk-ways.ts";
import type { Pair } from "../views/ways.ts";
import { makeAside, writeQuery } from "./page-ways.ts";

const PAGE = "/desk";

/**
 * Links and forms of the desk that do all the work without a script. `root`: the server, without its last slash;
 * `remarks`: what was told beside the case.
 */
export function makeDeskWays(flow: Flow, kase: Case, remarks: Remarks = {}, root = ""): DeskWays {
  const last = kase.answers.findLast(({ to }) => !isDayId(to));
  const aside = makeAside(remarks, null, undefined);
  const link = `${writeLink(flow, kase)}${writeQuery(aside)}`;
  const hrefWithout = (to: string) => {
    const { case: before, dropped } = takeBack(flow, kase, to);
    const said = dropped.map(({ to: id }) => `&dropped=${id}`).join("");
    return `${hrefToDesk(flow, before, remarks)}${said}`;
  };
  return {
    action: PAGE,
    carried: [
      ["e", String(flow.edition.number)],
      ...kase.answers.map(({ to, is }): Pair => [to, is]),
      ...aside,
    ],
    hrefWithout,
    hrefWithoutRemark: (name, id) => hrefToDesk(flow, kase, dropRemark(remarks, name, id)),
    hrefBack: last === undefined ? null : hrefWithout(last.to),
    hrefToCode: (code) => `${PAGE}?code=${encodeURIComponent(code)}`,
    hrefToSay: `${PAGE}/say?${link}`,
    hrefToKeep: `${PAGE}?${link}`,
    hrefToCheck: `${root}/check?${link}`,
    hrefToSlip: `${root}/slip?${writeLink(flow, kase)}`,
  };
}

/** The address of a case at the desk. */
export function hrefToDesk(flow: Flow, kase: Case, remarks: Remarks = {}): string {
  return `${PAGE}?${writeLink(flow, kase)}${writeQuery(makeAside(remarks, null, undefined))}`;
}
