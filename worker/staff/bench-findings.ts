import type { CivilDate } from "../../flows/calendar/civil-date.ts";
import type { Standing } from "../../flows/edition.ts";

/** What a look at the sample can come to. The last one only as a correction: recorded by mistake. */
export const benchResults = ["confirmed", "not-detected", "something-else", "withdrawn"] as const;
export type BenchResult = (typeof benchResults)[number];

/** One line of the bench book. */
export interface BenchFinding {
  id: string;
  /** The id of the finding that this one takes the place of. */
  corrects: string | null;
  edition: number;
  code: string;
  standing: Standing;
  /** The leading condition; null when nothing spoke for any. */
  condition: string | null;
  /** Decibans between it and its nearest rival. */
  lead: number;
  result: BenchResult;
  /** With "something-else": a condition, or null for one that is none of ours. Else null. */
  benchCondition: string | null;
  branch: string;
  day: CivilDate;
}

/**
 * "recorded" also when the very same finding was there already. "other": this form has recorded something else before.
 * "corrected": another correction came first. "unknown": there is nothing to correct.
 */
export type Recording = "recorded" | "other" | "corrected" | "unknown";

const COLUMNS =
  "id, corrects, edition, code, standing, condition, lead, result, bench_condition AS benchCondition, branch, day";
/** A finding counts until it is corrected. */
const CURRENT = "id NOT IN (SELECT corrects FROM bench_findings WHERE corrects IS NOT NULL)";

const INSERT = `INSERT INTO bench_findings
  (id, corrects, edition, code, standing, condition, lead, result, bench_condition, branch, day)
  SELECT ?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11
  WHERE ?2 IS NULL OR EXISTS (SELECT 1 FROM bench_findings WHERE id = ?2 AND code = ?4)
  ON CONFLICT DO NOTHING`;

/** Writes a line into the book, once. Nothing in the book is ever changed. */
export async function recordFinding(database: D1Database, finding: BenchFinding): Promise<Recording> {
  const { id, corrects, edition, code, standing, condition, lead } = finding;
  const { result, benchCondition, branch, day } = finding;
  const { meta } = await database
    .prepare(INSERT)
    .bind(id, corrects, edition, code, standing, condition, lead, result, benchCondition, branch, day)
    .run();
  if (meta.changes > 0) return "recorded";
  const there = await findFinding(database, id);
  if (there) return isSame(there, finding) ? "recorded" : "other";
  return corrects !== null && (await findFinding(database, corrects)) ? "corrected" : "unknown";
}

function isSame(one: BenchFinding, other: BenchFinding): boolean {
  return (Object.keys(one) as (keyof BenchFinding)[]).every((key) => one[key] === other[key]);
}

export function findFinding(database: D1Database, id: string): Promise<BenchFinding | null> {
  return database
    .prepare(`SELECT ${COLUMNS} FROM bench_findings WHERE id = ?1`)
    .bind(id)
    .first<BenchFinding>();
}

/** The findings that count, newest first: those of one case, or the last few of all. */
export async function listFindings(
  database: D1Database,
  { code, most }: { code?: string; most: number },
): Promise<BenchFinding[]> {
  const { results } = await database
    .prepare(
      `SELECT ${COLUMNS} FROM bench_findings WHERE ${CURRENT} AND (?1 IS NULL OR code = ?1) ORDER BY rowid DESC LIMIT ?2`,
    )
    .bind(code ?? null, most)
    .all<BenchFinding>();
  return results;
}

/** The whole book in the order it was written, corrected lines included; at most the newest `most`. */
export async function readBook(database: D1Database, most: number): Promise<BenchFinding[]> {
  const { results } = await database
    .prepare(`SELECT ${COLUMNS} FROM bench_findings ORDER BY rowid DESC LIMIT ?1`)
    .bind(most)
    .all<BenchFinding>();
  return results.reverse();
}
