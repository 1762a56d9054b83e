import type { Case } from "../../flows/case.ts";
import { writeCode } from "../../flows/case-code.ts";
import { writeLink } from "../../flows/case-link.ts";
import type { Branch } from "../../flows/edition.ts";
import type { Flow } from "../../flows/flow.ts";
import { makePlan } from "../../flows/plan.ts";
import { judge } from "../../flows/verdict.ts";
import { hostOf, type Report } from "../views/report.ts";

/** What the verdict tells about a case. `base` is the address of the server, with its last slash. */
export function makeReport(flow: Flow, kase: Case, base: string, branch: Branch | null = null): Report {
  const verdict = judge(flow, kase);
  return {
    flow,
    verdict,
    plan: makePlan(flow, kase, verdict),
    host: hostOf(flow, kase),
    branch,
    link: `${base}check?${writeLink(flow, kase)}`,
    code: writeCode(flow, kase),
  };
}

/** The branch of that id; null when the shop has none such, and then all of them are shown. */
export function branchOf(flow: Flow, id: string | undefined): Branch | null {
  return flow.edition.shop.branches.find((branch) => branch.id === id) ?? null;
}
