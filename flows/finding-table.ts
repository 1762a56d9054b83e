import type { Finding } from "./edition.ts";

/** What is known of each finding. */
export const UNKNOWN = 0;
export const PRESENT = 1;
export const ABSENT = 2;

/** Findings by index, with everything that one finding says about another worked out once. */
export interface FindingTable {
  size: number;
  index: ReadonlyMap<string, number>;
  at(id: string): number;
  /** `vaguer[i]`: all findings that hold whenever `i` does (not `i` itself). */
  vaguer: readonly (readonly number[])[];
  /** `sharper[i]`: all findings that cannot hold when `i` does not. */
  sharper: readonly (readonly number[])[];
  isCircumstance: readonly boolean[];
  /** True for circumstances and for what is made up of one: a state of the surroundings more than a sign. */
  isState: readonly boolean[];
  combines: readonly { whole: number; parts: readonly number[] }[];
}

export function tabulateFindings(findings: readonly Finding[]): FindingTable {
  const index = new Map(findings.map((finding, i) => [finding.id, i]));
  const at = (id: string): number => {
    const i = index.get(id);
    if (i === undefined) throw new Error(`No finding "${id}" in this edition.`);
    return i;
  };
  const direct = findings.map((finding) => finding.implies.map(at));
  const vaguer = findings.map((_, i) => reach(i, direct));
  const sharper = findings.map((): number[] => []);
  vaguer.forEach((those, sharp) => {
    for (const vague of those) sharper[vague]?.push(sharp);
  });
  const combines = findings.flatMap((finding, whole) =>
    finding.combines.length > 0 ? [{ whole, parts: finding.combines.map(at) }] : [],
  );
  const isCircumstance = findings.map(
    ({ kind, circumstance }) => circumstance || kind === "site" || kind === "care",
  );
  const isState = findings.map(
    (finding, i) => isCircumstance[i] === true || finding.combines.some((part) => isCircumstance[at(part)]),
  );
  return { size: findings.length, index, at, vaguer, sharper, isCircumstance, isState, combines };
}

function reach(from: number, direct: readonly (readonly number[])[]): number[] {
  const seen = new Set<number>();
  const queue = [...(direct[from] ?? [])];
  for (let next = queue.pop(); next !== undefined; next = queue.pop()) {
    if (next === from || seen.has(next)) continue;
    seen.add(next);
    queue.push(...(direct[next] ?? []));
  }
  return [...seen].sort((a, b) => a - b);
}

/**
 * Closes what was asserted under the table: a sharp finding brings its vaguer ones, parts make their whole, an absent
 * finding takes its sharper ones with it. A sign that was seen overrules "not seen", whoever said it first, so the
 * order of assertions never matters.
 *
 * @returns one of UNKNOWN, PRESENT, ABSENT per finding.
 */
export function closeFindings(
  table: FindingTable,
  present: Iterable<number>,
  absent: Iterable<number>,
  into: Uint8Array = new Uint8Array(table.size),
): Uint8Array {
  into.fill(UNKNOWN);
  for (const finding of present) markPresent(table, into, finding);
  // A whole may be part of another.
  for (let more = true; more; ) {
    more = false;
    for (const { whole, parts } of table.combines) {
      if (into[whole] === PRESENT || !parts.every((part) => into[part] === PRESENT)) continue;
      markPresent(table, into, whole);
      more = true;
    }
  }
  for (const finding of absent) {
    if (into[finding] === PRESENT) continue;
    into[finding] = ABSENT;
    for (const sharper of table.sharper[finding] ?? []) into[sharper] = ABSENT;
  }
  return into;
}

function markPresent(table: FindingTable, into: Uint8Array, finding: number): void {
  into[finding] = PRESENT;
  for (const vaguer of table.vaguer[finding] ?? []) into[vaguer] = PRESENT;
}

/** True when a present finding counts as evidence: nothing sharper that implies it is present too. */
export function counts(table: FindingTable, known: Uint8Array, finding: number): boolean {
  if (known[finding] !== PRESENT) return false;
  for (const sharper of table.sharper[finding] ?? []) if (known[sharper] === PRESENT) return false;
  return true;
}
