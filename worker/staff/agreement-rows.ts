import { type Standing, standings } from "../../flows/edition.ts";
import { type Agreement, type Judged, type Line, tally, tallyBy } from "../../flows/statistics/agreement.ts";
import type { BenchFinding } from "./bench-findings.ts";

/** A finding as the statistics see it. What the bench took out says nothing. */
export interface Sampled extends Judged {
  finding: BenchFinding;
}

export function toSampled(findings: readonly BenchFinding[]): Sampled[] {
  return findings
    .filter(({ result }) => result !== "withdrawn")
    .map((finding) => {
      const { standing, condition, lead, result } = finding;
      return { standing, condition, lead, agreed: result === "confirmed", finding };
    });
}

/** One line for each condition and standing, the condition with the most samples first. */
export interface ConditionRow extends Agreement {
  condition: string;
  standing: Standing;
  /** What the bench saw in its place, and how often; null for nothing of the kind. */
  instead: { what: string | null; isListed: boolean; count: number }[];
}

/** The surest standing first. */
const order = [...standings].reverse();

export function tallyStandings(sampled: readonly Sampled[]): Line<Standing>[] {
  const lines = tallyBy(sampled, ({ standing }) => standing);
  return order.flatMap((standing) => lines.filter(({ key }) => key === standing));
}

export function tallyConditions(sampled: readonly Sampled[]): ConditionRow[] {
  return tallyBy(sampled, ({ condition }) => condition).flatMap(({ key: condition }) =>
    order.flatMap((standing) => {
      const members = sampled.filter((one) => one.condition === condition && one.standing === standing);
      if (members.length === 0) return [];
      return [{ condition, standing, ...tally(members), instead: countOthers(members) }];
    }),
  );
}

function countOthers(members: readonly Sampled[]): ConditionRow["instead"] {
  const counts = new Map<string, ConditionRow["instead"][number]>();
  for (const { agreed, finding } of members) {
    if (agreed) continue;
    const isListed = finding.result === "something-else";
    const key = `${finding.result} ${finding.benchCondition}`;
    const count = (counts.get(key)?.count ?? 0) + 1;
    counts.set(key, { what: finding.benchCondition, isListed, count });
  }
  return [...counts.values()].sort((a, b) => b.count - a.count);
}
