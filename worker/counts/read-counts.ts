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

/** Rows from that day on, in the order of the days. */
export async function readCounts(database: D1Database, from: CivilDate, most: number): Promise<Counted[]> {
  const { results } = await database
    .prepare(
      "SELECT day, branch, source, name, what, count FROM counts WHERE day >= ?1 ORDER BY day, branch, source, name, what LIMIT ?2",
    )
    .bind(from, most)
    .all<Counted>();
  return results;
}

export type Sum = Pick<Counted, "name" | "what" | "count">;

/** Sums over all rows of a name, by what was counted. */
export async function sumCounts(database: D1Database, from: CivilDate): Promise<Sum[]> {
  const { results } = await database
    .prepare(
      "SELECT name, what, SUM(count) AS count FROM counts WHERE day >= ?1 GROUP BY name, what ORDER BY 3 DESC, 2",
    )
    .bind(from)
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
