import type { CivilDate } from "../../flows/calendar/civil-date.ts";
import { type Cell, writeCsv } from "../../flows/statistics/csv.ts";
import type { CountName, CountSource } from "./visit.ts";

/** One row of the counts. */
export interface Counted {
  day: CivilDate;
  branch: string;
  source: CountSource;
  name: CountName;
  what: string;
  count: number;
}

/** Which rows: from a day on, up to another or without end, of one branch or of all. */
export interface CountFilter {
  from: CivilDate;
  to: CivilDate | null;
  branch: string | null;
}

const WANTED = "day >= ?1 AND (?2 IS NULL OR day <= ?2) AND (?3 IS NULL OR branch = ?3)";

/** The rows in the order of the days, `most` at most. */
export async function readCounts(
  database: D1Database,
  { from, to, branch }: CountFilter,
  most: number,
): Promise<Counted[]> {
  const { results } = await database
    .prepare(
      `SELECT day, branch, source, name, what, count FROM counts WHERE ${WANTED} ORDER BY day, branch, source, name, what LIMIT ?4`,
    )
    .bind(from, to, branch, most)
    .all<Counted>();
  return results;
}

export type Sum = Pick<Counted, "name" | "what" | "count">;

/** Sums over all rows of a name, by what was counted. */
export async function sumCounts(database: D1Database, { from, to, branch }: CountFilter): Promise<Sum[]> {
  const { results } = await database
    .prepare(
      `SELECT name, what, SUM(count) AS count FROM counts WHERE ${WANTED} GROUP BY name, what ORDER BY 3 DESC, 2`,
    )
    .bind(from, to, branch)
    .all<Sum>();
  return results;
}

const columns = [
  "day",
  "branch",
  "source",
  "name",
  "what",
  "count",
] as const satisfies readonly (keyof Counted)[];

export function writeCounts(rows: readonly Counted[]): string {
  return writeCsv(
    columns,
    rows.map((row) => columns.map((name): Cell => row[name])),
  );
}
