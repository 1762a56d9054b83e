import type { Condition, ConditionKind, Edition, Host } from "./edition.ts";
import { ABSENT, type FindingTable, PRESENT } from "./finding-table.ts";

/** The four words of evidence, as small integers for the columns. */
export const evidenceWords = ["hallmark", "supports", "against", "excludes"] as const;
export type EvidenceWord = (typeof evidenceWords)[number];

/** How a finding bears on one condition: the condition's index, the word, and its weight in decibans. */
export interface Bearing {
  condition: number;
  word: EvidenceWord;
  weight: number;
}

/**
 * Between equals, the kind that is met more often comes first: sick houseplants suffer from care and surroundings before
 * pests and infections (UC IPM Pest Notes 74172; Clemson HGIC 2251).
 */
const likelierKinds: readonly ConditionKind[] = ["abiotic", "harmless", "pest", "pathogen"];

/** What one finding means for one condition, when present or when absent. */
export interface Row {
  finding: number;
  state: typeof PRESENT | typeof ABSENT;
  word: EvidenceWord;
  weight: number;
}

/** 1 for each index that is in the set. */
export type Mask = Uint8Array;

/** Evidence by finding (columns) and by host plant. All weights are whole decibans. */
export interface EvidenceTable {
  size: number;
  index: ReadonlyMap<string, number>;
  /** `present[finding]`: what it means when the finding is there; `absent[finding]`: when it was looked for and is not. */
  present: readonly (readonly Bearing[])[];
  absent: readonly (readonly Bearing[])[];
  /** `rows[condition]`: the same bearings by condition. */
  rows: readonly (readonly Row[])[];
  /** What the base rate alone gives each condition. */
  baseRate: Int16Array;
  /** Start value of every condition: how common it is, and what the host plant says. `null` is a plant not known. */
  start(host: string | null): Int16Array;
  /** `explains[c]`: findings that condition `c` would produce. */
  explains: readonly Mask[];
  /** `hallmarks[c]`: its hallmark findings. */
  hallmarks: readonly (readonly number[])[];
  /** `linked[c]`: conditions that bring `c` on or that `c` brings: partners, not rivals. */
  linked: readonly Mask[];
  /** `alike[c]`: look-alikes named by either side. */
  alike: readonly Mask[];
  broughtOnBy: readonly (readonly number[])[];
  /** Place of each condition's kind among the kinds, the likeliest first. */
  kindRank: Uint8Array;
}

export function tabulateEvidence(edition: Edition, findings: FindingTable): EvidenceTable {
  const { conditions } = edition;
  const index = new Map(conditions.map((condition, i) => [condition.id, i]));
  const present = Array.from({ length: findings.size }, (): Bearing[] => []);
  const absent = Array.from({ length: findings.size }, (): Bearing[] => []);
  conditions.forEach((condition, c) => {
    fillColumns(edition, findings, condition, c, present, absent);
  });
  const starts = new Map<string | null, Int16Array>();
  const hosts = new Map(edition.hosts.map((host) => [host.id, host]));
  return {
    size: conditions.length,
    index,
    present,
    absent,
    rows: sortRows(conditions.length, present, absent),
    baseRate: Int16Array.from(conditions, ({ howCommon }) => edition.weights.howCommon[howCommon]),
    start(host) {
      const found = starts.get(host);
      if (found) return found;
      const entry = host === null ? undefined : hosts.get(host);
      const made = Int16Array.from(conditions, (condition) => startOf(edition, condition, entry));
      starts.set(host, made);
      return made;
    },
    explains: conditions.map(({ evidence }) =>
      maskOf(
        findings.size,
        [...evidence.hallmark, ...evidence.supports].map((id) => findings.at(id)),
      ),
    ),
    hallmarks: conditions.map(({ evidence }) => evidence.hallmark.map((id) => findings.at(id))),
    linked: relate(conditions, index, (condition) => [...condition.broughtOnBy, ...condition.brings]),
    alike: relate(conditions, index, (condition) => condition.looksLike.map(({ other }) => other)),
    broughtOnBy: conditions.map(({ broughtOnBy }) => broughtOnBy.flatMap((id) => index.get(id) ?? [])),
    kindRank: Uint8Array.from(conditions, ({ kind }) => likelierKinds.indexOf(kind)),
  };
}

function maskOf(size: number, members: readonly number[]): Mask {
  const mask = new Uint8Array(size);
  for (const member of members) mask[member] = 1;
  return mask;
}

/** What bears on each condition, in one pass over all: what is present first, in the order of the findings. */
function sortRows(size: number, present: Bearing[][], absent: Bearing[][]): Row[][] {
  const rows = Array.from({ length: size }, (): Row[] => []);
  const add = (columns: Bearing[][], state: Row["state"]) => {
    columns.forEach((bearings, finding) => {
      for (const bearing of bearings) rows[bearing.condition]?.push({ ...bearing, finding, state });
    });
  };
  add(present, PRESENT);
  add(absent, ABSENT);
  return rows;
}

function fillColumns(
  { weights }: Edition,
  findings: FindingTable,
  condition: Condition,
  c: number,
  present: Bearing[][],
  absent: Bearing[][],
): void {
  const special = new Set([...condition.whenAbsent.against, ...condition.whenAbsent.excludes]);
  for (const word of evidenceWords) {
    for (const id of condition.evidence[word]) {
      present[findings.at(id)]?.push({ condition: c, word, weight: weights.present[word] });
      if (word === "against" || word === "excludes" || special.has(id)) continue;
      if (weights.absent[word] === 0) continue;
      absent[findings.at(id)]?.push({ condition: c, word: "against", weight: weights.absent[word] });
    }
  }
  for (const word of ["against", "excludes"] as const) {
    for (const id of condition.whenAbsent[word]) {
      absent[findings.at(id)]?.push({ condition: c, word, weight: weights.absent[word] });
    }
  }
}

/** What the host plant says about a condition, or undefined when it says nothing. */
export function hostWord(
  condition: Condition,
  host: Host | undefined,
): "prone" | "immune" | "elsewhere" | "unknown" | undefined {
  const fits = (names: readonly string[]) =>
    host !== undefined && names.some((name) => name === host.id || host.groups.includes(name));
  if (fits(condition.immune)) return "immune";
  if (condition.onlyOn.length > 0) {
    if (host === undefined) return "unknown";
    if (!fits(condition.onlyOn)) return "elsewhere";
  }
  return fits(condition.prone) ? "prone" : undefined;
}

function startOf({ weights }: Edition, condition: Condition, host: Host | undefined): number {
  const word = hostWord(condition, host);
  return weights.howCommon[condition.howCommon] + (word === undefined ? 0 : weights.host[word]);
}

function relate(
  conditions: readonly Condition[],
  index: ReadonlyMap<string, number>,
  others: (condition: Condition) => readonly string[],
): Mask[] {
  const related = conditions.map(() => new Uint8Array(conditions.length));
  conditions.forEach((condition, c) => {
    for (const id of others(condition)) {
      const other = index.get(id);
      if (other === undefined || other === c) continue;
      related[c]?.fill(1, other, other + 1);
      related[other]?.fill(1, c, c + 1);
    }
  });
  return related;
}
