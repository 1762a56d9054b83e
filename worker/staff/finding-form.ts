import { dayNumber } from "../../flows/calendar/civil-date.ts";
import { judge, type Verdict } from "../../flows/verdict.ts";
import { isToken } from "../people/token.ts";
import { type BenchFinding, type BenchResult, benchResults } from "./bench-findings.ts";
import { counterWords } from "./counter-words.ts";
import type { Sample } from "./open-sample.ts";

/** The form as it was sent or carried in a query; nothing in it is to be trusted. */
export interface FindingForm {
  code: string;
  id: string;
  corrects: string;
  result: string;
  /** A condition's id, NOT_LISTED, or empty. */
  other: string;
  branch: string;
  day: string;
}

/** Stands in the form for a condition that is none of ours. No condition can have this id, because of its dot. */
export const NOT_LISTED = "not.listed";

const fieldNames = ["code", "id", "corrects", "result", "other", "branch", "day"] as const;
const LONGEST_FIELD = 4000;
/** How far back, in days, the look at a sample may be. */
const OLDEST = 366;

/** Reads the fields of a form; what is missing is empty. */
export function readFields(get: (name: string) => unknown): FindingForm {
  const entries = fieldNames.map((name) => {
    const value = get(name);
    return [name, typeof value === "string" ? value.trim().slice(0, LONGEST_FIELD) : ""];
  });
  return Object.fromEntries(entries) as FindingForm;
}

/** A field that has to be mended, and the sentence for it. */
export interface FormProblem {
  field: "result" | "other" | "branch" | "day" | "id";
  sentence: string;
}

export type FormReading = { ok: true; finding: BenchFinding } | { ok: false; problems: FormProblem[] };

/** What the form says about the sample. `today` is the day at the shop; `branches` are those of the live edition. */
export function readFindingForm(
  form: FindingForm,
  { flow, case: kase, code }: Sample,
  { today, branches }: { today: string; branches: readonly string[] },
): FormReading {
  const verdict = judge(flow, kase);
  const result = benchResults.find((one) => one === form.result);
  const problems: FormProblem[] = [];
  const complain = (field: FormProblem["field"], sentence: string | null) => {
    if (sentence !== null) problems.push({ field, sentence });
  };
  complain("result", checkResult(result, form, verdict));
  const isKnown = form.other === NOT_LISTED || flow.condition(form.other) !== undefined;
  complain("other", checkOther(result, form.other, isKnown, verdict));
  complain("branch", branches.includes(form.branch) ? null : counterWords.noBranch);
  complain("day", isRecentDay(form.day, today) ? null : counterWords.badDay);
  const isOurs = isToken(form.id) && (form.corrects === "" || isToken(form.corrects));
  complain("id", isOurs ? null : counterWords.oldForm);
  if (problems.length > 0 || result === undefined) return { ok: false, problems };
  const { id, branch, day } = form;
  const { standing, leader: condition, lead } = verdict;
  const isOther = result === "something-else" && form.other !== NOT_LISTED;
  return {
    ok: true,
    finding: {
      ...{ id, code, standing, condition, lead, result, branch, day },
      corrects: form.corrects === "" ? null : form.corrects,
      edition: flow.edition.number,
      benchCondition: isOther ? form.other : null,
    },
  };
}

function checkResult(result: BenchResult | undefined, form: FindingForm, verdict: Verdict): string | null {
  if (result === undefined) return counterWords.noResult;
  if (result === "withdrawn" && form.corrects === "") return counterWords.noResult;
  return result === "confirmed" && verdict.leader === null ? counterWords.noLeader : null;
}

function checkOther(
  result: BenchResult | undefined,
  other: string,
  isKnown: boolean,
  { leader }: Verdict,
): string | null {
  if (result !== "something-else") {
    return other === "" || result === undefined || result === "withdrawn"
      ? null
      : counterWords.strayCondition;
  }
  if (!isKnown) return counterWords.noCondition;
  return other === leader ? counterWords.sameCondition : null;
}

function isRecentDay(day: string, today: string): boolean {
  const [number, last] = [dayNumber(day), dayNumber(today)];
  return number !== undefined && last !== undefined && number <= last && number > last - OLDEST;
}
