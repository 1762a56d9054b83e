import type { CivilDate } from "../../flows/calendar/civil-date.ts";
import type { Case } from "../../flows/case.ts";
import { writeCode } from "../../flows/case-code.ts";
import { writeLink } from "../../flows/case-link.ts";
import type { Remarks } from "../../flows/desk/pieces.ts";
import type { Branch } from "../../flows/edition.ts";
import type { Flow } from "../../flows/flow.ts";
import { makePlan } from "../../flows/plan.ts";
import { secondLook } from "../../flows/second-look.ts";
import { judge } from "../../flows/verdict.ts";
import { hostOf, type Report } from "../views/report.ts";
import { makeAside, writeQuery } from "./page-ways.ts";

interface ReportRequest {
  /** The address of the server, with its last slash. */
  base: string;
  branch?: Branch | null;
  /** The day the link is handed out; undefined where nobody gets it. */
  today?: CivilDate;
  /** What the link takes along beside the case. */
  remarks?: Remarks;
}

/** What the verdict tells about a case. */
export function makeReport(
  flow: Flow,
  kase: Case,
  { base, branch = null, today, remarks = {} }: ReportRequest,
): Report {
  const verdict = judge(flow, kase);
  const look = secondLook(flow, kase, verdict);
  const plan = makePlan(flow, kase, verdict);
  const now = new Set(look.remedies);
  return {
    flow,
    verdict: { ...verdict, bringSample: look.bringSample },
    // A step up adds to the plan; only a sample takes steps away, until the bench has seen it.
    plan:
      look.outcome.kind === "sample"
        ? { ...plan, steps: plan.steps.filter(({ remedy }) => now.has(remedy)) }
        : plan,
    look,
    canLook: look.outcome.kind !== "sample" && look.taken < (flow.looks?.again.length ?? 0),
    host: hostOf(flow, kase),
    branch,
    base,
    link: `${base}check?${writeLink(flow, kase)}${writeQuery(makeAside(remarks, branch, today))}`,
    code: writeCode(flow, kase),
  };
}
