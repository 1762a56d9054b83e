/** Conversations that must end as they do: the editors' own tests. */
import type { Standing } from "../../flows/edition.ts";
import { noteHistory, type Who } from "./history.ts";

export interface KeptCase {
  id: string;
  /** The query of a case link. */
  query: string;
  standing: Standing;
  /** Null when it should end undetermined. */
  leader: string | null;
  reason: string;
  madeBy: string | null;
}

export async function listKeptCases(database: D1Database): Promise<KeptCase[]> {
  const { results } = await database
    .prepare(
      `SELECT id, query, standing, leader, reason, (SELECT name FROM people WHERE people.id = made_by) AS madeBy
       FROM kept_cases WHERE dropped_at IS NULL ORDER BY made_at, id LIMIT 500`,
    )
    .all<KeptCase>();
  return results;
}

export async function keepCase(
  database: D1Database,
  { id, query, standing, leader, reason }: Omit<KeptCase, "madeBy">,
  who: Who,
  now: number,
): Promise<void> {
  await database.batch([
    database
      .prepare(
        "INSERT INTO kept_cases (id, query, standing, leader, reason, made_by, made_at) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)",
      )
      .bind(id, query, standing, leader, reason, who.id, now),
    noteHistory(database, { at: now, who, what: "case-kept", subject: id, why: reason }),
  ]);
}

export async function dropCase(
  database: D1Database,
  id: string,
  why: string,
  who: Who,
  now: number,
): Promise<boolean> {
  const [dropped] = await database.batch([
    database
      .prepare("UPDATE kept_cases SET dropped_at = ?2 WHERE id = ?1 AND dropped_at IS NULL")
      .bind(id, now),
    noteHistory(database, { at: now, who, what: "case-dropped", subject: id, why, ifChanged: true }),
  ]);
  return dropped?.meta.changes === 1;
}
