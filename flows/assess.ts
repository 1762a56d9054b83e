import type { ConditionKind, Standing } from "./edition.ts";
import { ABSENT, counts, PRESENT } from "./finding-table.ts";
import type { Flow } from "./flow.ts";

/** The tally of the evidence in numbers: what a verdict is made of. */
export interface Assessment {
  /** Decibans per condition. */
  scores: Int16Array;
  /** All conditions, best first. */
  ranking: number[];
  /** Those of them that would explain something seen, best first. Circumstances alone do not make a contender. */
  contenders: number[];
  /** The leading condition, or -1 when nothing speaks for any. */
  leader: number;
  /** Second causes that stand beside the leader. */
  beside: number[];
  /** The strongest condition that is neither beside nor linked, or -1. */
  rival: number;
  /** Decibans between the leader and the rival (or the silent one, if that is stronger). */
  lead: number;
  standing: Standing;
}

const MOST_BESIDE = 2;

/** Marks a condition that would explain something seen. */
const EXPLAINS = 1;

/**
 * Weighs what is known. `host`: `null` or `undefined` when the plant is not known.
 * Pure arithmetic on whole numbers: the same on every machine.
 */
export function assess(flow: Flow, known: Uint8Array, host: string | null | undefined): Assessment {
  const { scores, spoken, hallmarks } = tally(flow, known, flow.evidence.start(host ?? null));
  const ranking = rank(flow, scores, spoken);
  const contenders = ranking.filter((c) => spoken[c] === EXPLAINS);
  const leader = contenders[0] ?? -1;
  const beside = leader < 0 ? [] : findBeside(flow, known, host ?? null, contenders);
  const rival = findRival(flow, beside, contenders);
  const { silentRival, lead: leads } = flow.edition.weights;
  const top = scores[leader] ?? 0;
  const lead = leader < 0 ? 0 : top - Math.max(silentRival, rival < 0 ? silentRival : (scores[rival] ?? 0));
  const hasHallmark = leader >= 0 && (hallmarks[leader] ?? 0) > 0;
  const hasCase = hasHallmark || (leader >= 0 && isDescribed(flow, known, leader));
  const standing: Standing =
    hasHallmark && lead >= leads.suspected
      ? "suspected"
      : hasCase && lead >= leads.leaning
        ? "leaning"
        : "undetermined";
  return { scores, ranking, contenders, leader, beside, rival, lead, standing };
}

/** At least two things speak for the condition, one of them more than a vague first word: enough to lean on. */
function isDescribed(flow: Flow, known: Uint8Array, condition: number): boolean {
  let speaking = 0;
  let sharp = 0;
  for (const finding of flow.evidence.explains[condition] ?? []) {
    if (!counts(flow.findings, known, finding)) continue;
    speaking++;
    if (flow.edition.findings[finding]?.vague === false) sharp++;
  }
  return speaking >= 2 && sharp >= 1;
}

interface Tally {
  scores: Int16Array;
  /** EXPLAINS for each condition that would explain something seen, else 0. */
  spoken: Uint8Array;
  hallmarks: Uint8Array;
}

/** Adds up the evidence. Findings in `explained` are passed over. */
export function tally(
  flow: Flow,
  known: Uint8Array,
  start: Int16Array,
  explained?: ReadonlySet<number>,
): Tally {
  const { evidence, findings } = flow;
  const scores = Int16Array.from(start);
  const spoken = new Uint8Array(evidence.size);
  const hallmarks = new Uint8Array(evidence.size);
  const excluded = new Uint8Array(evidence.size);
  for (let f = 0; f < findings.size; f++) {
    const state = known[f];
    if (state === ABSENT) {
      for (const { condition, word, weight } of evidence.absent[f] ?? []) {
        if (word === "excludes") excluded[condition] = (excluded[condition] ?? 0) + 1;
        else scores[condition] = (scores[condition] ?? 0) + weight;
      }
    } else if (state === PRESENT && !explained?.has(f) && counts(findings, known, f)) {
      for (const { condition, word, weight } of evidence.present[f] ?? []) {
        if (word === "excludes") {
          excluded[condition] = (excluded[condition] ?? 0) + 1;
          continue;
        }
        scores[condition] = (scores[condition] ?? 0) + weight;
        if (word === "hallmark") hallmarks[condition] = (hallmarks[condition] ?? 0) + 1;
        if (weight > 0 && (word === "hallmark" || !findings.isCircumstance[f])) {
          spoken[condition] = EXPLAINS;
        }
      }
    }
  }
  settleExclusions(flow, scores, hallmarks, excluded);
  return { scores, spoken, hallmarks };
}

/** An `excludes` is overruled by a hallmark of the same condition: then it merely speaks against. */
function settleExclusions(
  flow: Flow,
  scores: Int16Array,
  hallmarks: Uint8Array,
  excluded: Uint8Array,
): void {
  const { against, excludes } = flow.edition.weights.present;
  for (let c = 0; c < excluded.length; c++) {
    const times = excluded[c] ?? 0;
    if (times === 0) continue;
    scores[c] = (scores[c] ?? 0) + times * ((hallmarks[c] ?? 0) > 0 ? against : excludes);
  }
}

/**
 * Between equals, the kind that is met more often: sick houseplants suffer from care and surroundings first, from pests
 * and infections less (UC IPM Pest Notes 74172; Clemson HGIC 2251).
 */
const likelierKinds: readonly ConditionKind[] = ["abiotic", "harmless", "pest", "pathogen"];

function rank(flow: Flow, scores: Int16Array, spoken: Uint8Array): number[] {
  const { conditions } = flow.edition;
  const order = Array.from({ length: flow.evidence.size }, (_, c) => c);
  // What explains something comes before what merely is common, and nobody is told "harmless" for no reason.
  const kind = (c: number) => conditions[c]?.kind ?? "harmless";
  const group = (c: number) => (spoken[c] === EXPLAINS ? 0 : kind(c) === "harmless" ? 2 : 1);
  return order.sort(
    (a, b) =>
      group(a) - group(b) ||
      (scores[b] ?? 0) - (scores[a] ?? 0) ||
      likelierKinds.indexOf(kind(a)) - likelierKinds.indexOf(kind(b)) ||
      a - b,
  );
}

/** Takes away what the leader explains and looks again for a condition that still has a hallmark. */
function findBeside(
  flow: Flow,
  known: Uint8Array,
  host: string | null,
  contenders: readonly number[],
): number[] {
  const { evidence, edition } = flow;
  const beside: number[] = [];
  const [leader = -1, ...candidates] = contenders;
  const explained = new Set(evidence.explains[leader]);
  while (beside.length < MOST_BESIDE) {
    const left = candidates.filter((c) => hasOpenHallmark(flow, known, explained, c));
    if (left.length === 0) break;
    const { scores, spoken } = tally(flow, known, evidence.start(host), explained);
    const next = rank(flow, scores, spoken).find(
      (c) => left.includes(c) && (scores[c] ?? 0) >= edition.weights.silentRival,
    );
    if (next === undefined) break;
    beside.push(next);
    candidates.splice(candidates.indexOf(next), 1);
    for (const finding of evidence.explains[next] ?? []) explained.add(finding);
  }
  return beside;
}

function hasOpenHallmark(
  flow: Flow,
  known: Uint8Array,
  explained: ReadonlySet<number>,
  condition: number,
): boolean {
  for (const finding of flow.evidence.hallmarks[condition] ?? []) {
    if (known[finding] === PRESENT && !explained.has(finding)) return true;
  }
  return false;
}

/** The best condition that is a rival: not a second cause, not a partner of the leader. */
function findRival(
  flow: Flow,
  beside: readonly number[],
  [leader, ...others]: readonly number[],
): number {
  if (leader === undefined) return -1;
  const linked = flow.evidence.linked[leader];
  return others.find((c) => !beside.includes(c) && !linked?.has(c)) ?? -1;
}
