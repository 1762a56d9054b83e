import type { Standing } from "../edition.ts";
import { type Interval, wilsonInterval } from "./wilson.ts";

/** What the check said of one sample and whether the bench saw just that. */
export interface Judged {
  standing: Standing;
  /** The leading condition; null when nothing spoke for any. */
  condition: string | null;
  /** Decibans between it and its nearest rival. */
  lead: number;
  agreed: boolean;
}

/** How often the bench agreed, and between which shares the true rate lies in 95 of 100 such samples. */
export interface Agreement {
  agreed: number;
  all: number;
  interval: Interval;
}

export function tally(judged: readonly Judged[]): Agreement {
  const agreed = judged.filter((one) => one.agreed).length;
  return { agreed, all: judged.length, interval: wilsonInterval(agreed, judged.length) };
}

/** One line of a table: the key that its samples share. */
export interface Line<K> extends Agreement {
  key: K;
}

/** A line for each key, the one with the most samples first; equal ones stay in their order. */
export function tallyBy<K extends string>(
  judged: readonly Judged[],
  keyOf: (one: Judged) => K | null,
): Line<K>[] {
  const groups = new Map<K, Judged[]>();
  for (const one of judged) {
    const key = keyOf(one);
    if (key === null) continue;
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return [...groups].map(([key, members]) => ({ key, ...tally(members) })).sort((a, b) => b.all - a.all);
}

/** The share of right verdicts that a lead promises: ten decibans are ten to one. */
export function promisedBy(lead: number): number {
  const odds = 10 ** (lead / 10);
  return odds / (1 + odds);
}

/** Verdicts with nearly the same lead. */
export interface ReliabilityBin extends Agreement {
  /** Least and greatest lead, in decibans; the last bin has no greatest. */
  from: number;
  to: number | null;
  /** What the leads in it promise on average. */
  promised: number;
}

/** Where the bins begin, in decibans: even odds, 2 to 1, 4 to 1, 10 to 1, 30 to 1, 100 to 1. */
const binStarts = [0, 3, 6, 10, 15, 20];

/** What the check promised against what the bench saw; bins without samples are left out. */
export function binByLead(judged: readonly Judged[]): ReliabilityBin[] {
  return binStarts.flatMap((from, i) => {
    const next = binStarts[i + 1] ?? Number.POSITIVE_INFINITY;
    const members = judged.filter(({ lead }) => (lead >= from || i === 0) && lead < next);
    if (members.length === 0) return [];
    const promised = members.reduce((sum, { lead }) => sum + promisedBy(lead), 0) / members.length;
    return [{ from, to: Number.isFinite(next) ? next - 1 : null, promised, ...tally(members) }];
  });
}
