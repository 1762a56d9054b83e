import type { Standing } from "./edition.ts";
import type { Mask } from "./evidence-table.ts";
import { ABSENT, counts, PRESENT } from "./finding-table.ts";
import type { Flow } from "./flow.ts";

/** What the findings say about every condition, before the host plant has its say. */
export interface Weighed {
  known: Uint8Array;
  /** Decibans per condition, exclusions included. */
  sums: readonly number[];
  /** How much speaks for each condition: SILENT, CIRCUMSTANCES or EXPLAINS. */
  speaks: readonly number[];
  /** Number of present hallmarks per condition. */
  hallmarks: readonly number[];
  /** Conditions that would explain something seen, and those of them that have a hallmark. */
  contenders: readonly number[];
  marked: readonly number[];
  /** Worked out when first asked for: the host plant changes neither. */
  speakers: (Speaking | undefined)[];
  leftOver: Map<number, LeftOver>;
}

export const SILENT = 0;
export const CIRCUMSTANCES = 1;
export const EXPLAINS = 2;

/** Who leads, by how much, and beside what: the heart of a verdict. */
export interface Decision {
  /** The leading condition, or -1 when nothing speaks for any. */
  leader: number;
  /** Second causes that stand beside the leader. */
  beside: readonly number[];
  /** The strongest condition that is neither beside nor linked, or -1. */
  rival: number;
  /** Decibans between the leader and the rival (or the silent one, if that is stronger). */
  lead: number;
  standing: Standing;
}

export interface Assessment extends Decision {
  weighed: Weighed;
  /** Decibans per condition, host plant included. */
  scores: Int16Array;
  /** All conditions, best first. */
  ranking: number[];
}

const MOST_BESIDE = 2;
const nobody: number[] = [];

/**
 * Weighs what is known. `host`: `null` or `undefined` when the plant is not known.
 * Pure arithmetic on whole numbers: the same on every machine.
 */
export function assess(flow: Flow, known: Uint8Array, host: string | null | undefined): Assessment {
  const weighed = weigh(flow, known);
  const start = flow.evidence.start(host ?? null);
  const scores = start.map((value, c) => value + (weighed.sums[c] ?? 0));
  const decision = decide(flow, weighed, start);
  const ranking = rank(flow, scores, weighed.speaks);
  const others = ranking.filter((c) => c !== decision.leader);
  return {
    ...decision,
    weighed,
    scores,
    ranking: decision.leader < 0 ? ranking : [decision.leader, ...others],
  };
}

/** Adds up the evidence of the findings. */
export function weigh(flow: Flow, known: Uint8Array): Weighed {
  const { evidence, findings } = flow;
  // Plain arrays: the walker makes millions of them, and typed ones are slow to allocate.
  const sums = new Array<number>(evidence.size).fill(0);
  const speaks = new Array<number>(evidence.size).fill(SILENT);
  const hallmarks = new Array<number>(evidence.size).fill(0);
  const excluded = new Array<number>(evidence.size).fill(0);
  for (let f = 0; f < findings.size; f++) {
    const present = known[f] === PRESENT;
    if (present ? !counts(findings, known, f) : known[f] !== ABSENT) continue;
    for (const { condition, word, weight } of (present ? evidence.present : evidence.absent)[f] ?? []) {
      if (word === "excludes") {
        excluded[condition] = (excluded[condition] ?? 0) + 1;
        continue;
      }
      sums[condition] = (sums[condition] ?? 0) + weight;
      if (!present || weight <= 0) continue;
      if (word === "hallmark") hallmarks[condition] = (hallmarks[condition] ?? 0) + 1;
      const explains = word === "hallmark" || !findings.isCircumstance[f];
      if (speaks[condition] !== EXPLAINS) speaks[condition] = explains ? EXPLAINS : CIRCUMSTANCES;
    }
  }
  settleExclusions(flow, sums, hallmarks, excluded);
  const contenders: number[] = [];
  const marked: number[] = [];
  for (let c = 0; c < speaks.length; c++) {
    if (speaks[c] === EXPLAINS) contenders.push(c);
    if ((hallmarks[c] ?? 0) > 0) marked.push(c);
  }
  return { known, sums, speaks, hallmarks, contenders, marked, speakers: [], leftOver: new Map() };
}

/** An `excludes` is overruled by a hallmark of the same condition: then it merely speaks against. */
function settleExclusions(
  flow: Flow,
  sums: number[],
  hallmarks: readonly number[],
  excluded: readonly number[],
): void {
  for (let c = 0; c < excluded.length; c++) {
    const times = excluded[c] ?? 0;
    if (times > 0) sums[c] = (sums[c] ?? 0) + times * exclusion(flow, (hallmarks[c] ?? 0) > 0);
  }
}

function exclusion(flow: Flow, hasHallmark: boolean): number {
  const { against, excludes } = flow.edition.weights.present;
  return hasHallmark ? against : excludes;
}

/** Decides on a leader. `start`: what the host plant and the base rates give each condition. */
export function decide(flow: Flow, weighed: Weighed, start: Int16Array): Decision {
  const { contenders, sums } = weighed;
  const leader = showing(flow, weighed, start, best(flow, contenders, sums, start));
  if (leader < 0) return { leader, beside: [], rival: -1, lead: 0, standing: "undetermined" };
  const beside = findBeside(flow, weighed, start, leader);
  const rival = findRival(flow, weighed, start, leader, beside);
  const score = (c: number) => (sums[c] ?? 0) + (start[c] ?? 0);
  const { silentRival } = flow.edition.weights;
  const lead = score(leader) - (rival < 0 ? silentRival : Math.max(silentRival, score(rival)));
  return { leader, beside, rival, lead, standing: standingOf(flow, weighed, start, leader, lead) };
}

/**
 * What shows on the plant leads over the state of its surroundings that brought it on: rot over wet soil. The state is
 * not lost: it is linked to the leader, and the plan treats both.
 */
function showing(flow: Flow, weighed: Weighed, start: Int16Array, leader: number): number {
  const isState = leader >= 0 && (weighed.hallmarks[leader] ?? 0) > 0 && !hasSign(flow, weighed, leader);
  if (!isState) return leader;
  const { silentRival, lead } = flow.edition.weights;
  const shown = weighed.marked.filter(
    (c) => flow.evidence.broughtOnBy[c]?.includes(leader) && hasSign(flow, weighed, c),
  );
  const next = best(flow, shown, weighed.sums, start);
  if (next < 0 || (weighed.sums[next] ?? 0) + (start[next] ?? 0) < silentRival + lead.leaning) return leader;
  return next;
}

/** Whether a hallmark of the condition is present that is more than a state of the surroundings. */
function hasSign(flow: Flow, { known, hallmarks }: Weighed, condition: number): boolean {
  if ((hallmarks[condition] ?? 0) === 0) return false;
  for (const finding of flow.evidence.hallmarks[condition] ?? []) {
    if (known[finding] === PRESENT && !flow.findings.isState[finding]) return true;
  }
  return false;
}

function standingOf(flow: Flow, weighed: Weighed, start: Int16Array, leader: number, lead: number): Standing {
  const { lead: leads } = flow.edition.weights;
  const hasHallmark = (weighed.hallmarks[leader] ?? 0) > 0;
  if (hasHallmark && lead >= leads.suspected) return "suspected";
  if (lead >= leads.leaning && (hasHallmark || isDescribed(flow, weighed, start, leader))) {
    return "leaning";
  }
  return "undetermined";
}

/**
 * At least two things speak for the condition, a prone host plant among them, and one is more than a vague first word:
 * enough to lean on.
 */
function isDescribed(flow: Flow, weighed: Weighed, start: Int16Array, condition: number): boolean {
  const { speaking, sharp } = speakingFor(flow, weighed, condition);
  const isProne = (start[condition] ?? 0) > (flow.evidence.baseRate[condition] ?? 0);
  return speaking + Number(isProne) >= 2 && sharp >= 1;
}

/** How many present findings speak for a condition, and how many of them are not vague. */
interface Speaking {
  speaking: number;
  sharp: number;
}

function speakingFor(flow: Flow, { known, speakers }: Weighed, condition: number): Speaking {
  const before = speakers[condition];
  if (before) return before;
  const found: Speaking = { speaking: 0, sharp: 0 };
  const explains = flow.evidence.explains[condition];
  for (let f = 0; f < known.length; f++) {
    if (explains?.[f] !== 1 || !counts(flow.findings, known, f)) continue;
    found.speaking++;
    if (flow.edition.findings[f]?.vague === false) found.sharp++;
  }
  speakers[condition] = found;
  return found;
}

/** The best of some conditions: highest score, then the likelier kind, then the order of the edition. -1 for none. */
function best(
  flow: Flow,
  among: readonly number[],
  sums: readonly number[],
  start: Int16Array,
  isOut?: (condition: number) => boolean,
): number {
  const { kindRank } = flow.evidence;
  let leader = -1;
  let most = 0;
  for (const c of among) {
    const score = (sums[c] ?? 0) + (start[c] ?? 0);
    if ((leader >= 0 && score < most) || isOut?.(c)) continue;
    if (leader >= 0 && score === most && (kindRank[c] ?? 0) >= (kindRank[leader] ?? 0)) continue;
    leader = c;
    most = score;
  }
  return leader;
}

function rank(flow: Flow, scores: Int16Array, speaks: readonly number[]): number[] {
  // What explains something comes before what merely is common, and nobody is told "harmless" for no reason.
  const group = (c: number) =>
    speaks[c] === EXPLAINS ? 0 : flow.edition.conditions[c]?.kind === "harmless" ? 2 : 1;
  const { kindRank } = flow.evidence;
  return Array.from({ length: flow.evidence.size }, (_, c) => c).sort(
    (a, b) =>
      group(a) - group(b) ||
      (scores[b] ?? 0) - (scores[a] ?? 0) ||
      (kindRank[a] ?? 0) - (kindRank[b] ?? 0) ||
      a - b,
  );
}

/** Takes away what the leader explains and looks again for a condition that still has a hallmark. */
function findBeside(flow: Flow, weighed: Weighed, start: Int16Array, leader: number): number[] {
  const { marked } = weighed;
  if (marked.length === 0 || (marked.length === 1 && marked[0] === leader)) return nobody;
  const beside: number[] = [];
  while (beside.length < MOST_BESIDE) {
    const { open, sums } = leftOver(flow, weighed, leader, beside[0]);
    const next = best(flow, open, sums, start, (c) => beside.includes(c));
    if (next < 0 || (sums[next] ?? 0) + (start[next] ?? 0) < flow.edition.weights.silentRival) break;
    beside.push(next);
  }
  return beside;
}

/** Conditions with a hallmark that neither cause explains, and what speaks for them without the explained findings. */
interface LeftOver {
  open: number[];
  /** Decibans by condition, filled in for `open` only. */
  sums: number[];
}

function leftOver(flow: Flow, weighed: Weighed, leader: number, second = -1): LeftOver {
  const key = leader * (flow.evidence.size + 1) + second + 1;
  let found = weighed.leftOver.get(key);
  if (!found) {
    const { explains } = flow.evidence;
    const explained = [leader, second].flatMap((c) => explains[c] ?? []);
    const open = weighed.marked.filter(
      (c) => c !== leader && c !== second && hasOpenHallmark(flow, weighed, explained, c),
    );
    const sums: number[] = [];
    for (const c of open) sums[c] = sumWithout(flow, weighed.known, explained, c);
    found = { open, sums };
    weighed.leftOver.set(key, found);
  }
  return found;
}

function isIn(masks: readonly Mask[], finding: number): boolean {
  for (const mask of masks) if (mask[finding] === 1) return true;
  return false;
}

/** What speaks for and against one condition when the explained findings are taken away. */
function sumWithout(flow: Flow, known: Uint8Array, explained: readonly Mask[], condition: number): number {
  let sum = 0;
  let excluded = 0;
  let hasHallmark = false;
  for (const { finding, state, word, weight } of flow.evidence.rows[condition] ?? []) {
    if (known[finding] !== state) continue;
    const present = state === PRESENT;
    if (present && (isIn(explained, finding) || !counts(flow.findings, known, finding))) continue;
    if (word === "excludes") excluded++;
    else sum += weight;
    if (present && word === "hallmark") hasHallmark = true;
  }
  return sum + excluded * exclusion(flow, hasHallmark);
}

function hasOpenHallmark(
  flow: Flow,
  { known }: Weighed,
  explained: readonly Mask[],
  condition: number,
): boolean {
  for (const finding of flow.evidence.hallmarks[condition] ?? []) {
    if (known[finding] === PRESENT && !isIn(explained, finding)) return true;
  }
  return false;
}

/** The best condition that is a rival: not a second cause, not a partner of the leader. */
function findRival(
  flow: Flow,
  { contenders, sums }: Weighed,
  start: Int16Array,
  leader: number,
  beside: readonly number[],
): number {
  const linked = flow.evidence.linked[leader];
  return best(flow, contenders, sums, start, (c) => c === leader || beside.includes(c) || linked?.[c] === 1);
}
