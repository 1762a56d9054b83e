import type { Flow } from "../../flows/flow.ts";
import { nameDay } from "../../widget/views/name-day.ts";
import type { BenchFinding } from "./bench-findings.ts";
import { counterWords } from "./counter-words.ts";

/** A line of the bench book in words. Ids that the live edition does not know stand as they are. */
export function sayFinding(live: Flow, finding: BenchFinding): string {
  const { shop } = live.edition;
  const name = (id: string | null) =>
    id === null ? counterWords.notListed : (live.condition(id)?.name ?? id);
  const { result, code, day } = finding;
  const what = {
    confirmed: counterWords.confirmed(name(finding.condition)),
    "not-detected": counterWords.results["not-detected"],
    "something-else": `${counterWords.results["something-else"]}: ${name(finding.benchCondition)}`,
    withdrawn: counterWords.results.withdrawn,
  }[result];
  const branch = shop.branches.find(({ id }) => id === finding.branch);
  return [code, what, branch?.name ?? finding.branch, nameDay(day, branch?.units ?? "us")].join(", ");
}
