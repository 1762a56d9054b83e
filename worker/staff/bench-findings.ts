import type { CivilDate } from "../../flows/calendar/civil-date.ts";
import type { Standing } from "../../flows/edition.ts";
import { everything, type Filter } from "./figures-filter.ts";

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

const CHOSEN = "(?1 IS NULL OR branch = ?1) AND (?2 IS NULL OR day >= ?2) AND (?3 IS NULL OR day <= ?3)";

interface Wanted {
  /** Of one case alone. */
  code?: string;
  filter?: Filter;
  most: number;
}

/** The findings that count, newest first. */
export async function listFindings(
  database: D1Database,
  { code, filter = everything, most }: Wanted,
): Promise<BenchFinding[]> {
  const { branch, from, to } = filter;
  const { results } = await database
    .prepare(
      `SELECT ${COLUMNS} FROM bench_findings
        WHERE ${CURRENT} AND ${CHOSEN} AND (?5 IS NULL OR code = ?5) ORDER BY rowid DESC LIMIT ?4`,
    )
    .bind(branch, from, to, most, code ?? null)
    .all<BenchFinding>();
  return results;
}

/** The chosen lines of the book in the order they were written, corrected ones included; at most the newest `most`. */
export async function readBook(
  database: D1Database,
  { branch, from, to }: Filter,
  most: number,
): Promise<BenchFinding[]> {
  const { results } = await database
    .prepare(`SELECT ${COLUMNS} FROM bench_findings WHERE ${CHOSEN} ORDER BY rowid DESC LIMIT ?4`)
    .bind(branch, from, to, most)
    .all<BenchFinding>();
  return results.reverse();
}
