/** What was done here: who, when, what, why. Rows are only ever added; the database itself refuses anything else. */

/** Who does something. */
export interface Who {
  id: string;
  name: string;
}

export const deeds = [
  "draft-made",
  "draft-closed",
  "draft-opened",
  "draft-moved",
  "published",
  "taken-back",
  "preview-made",
  "preview-ended",
  "device-registered",
  "signed-in",
  "case-kept",
  "case-dropped",
] as const;
export type Deed = (typeof deeds)[number];

export interface HistoryRow {
  id: number;
  /** Milliseconds. */
  at: number;
  whoName: string;
  what: Deed;
  /** A draft's id, an edition's number, or empty. */
  subject: string;
  why: string;
}

interface NewRow {
  at: number;
  who: Who;
  what: Deed;
  subject: string;
  why: string;
  /** Only if the statement before, in the same batch, changed something. */
  ifChanged?: boolean;
}

/** The statement that notes a deed; goes into the batch that does it. */
export function noteHistory(
  database: D1Database,
  { at, who, what, subject, why, ifChanged }: NewRow,
): D1PreparedStatement {
  return database
    .prepare(
      `INSERT INTO history (at, who, who_name, what, subject, why)
       SELECT ?1, ?2, ?3, ?4, ?5, ?6 ${ifChanged ? "WHERE changes() > 0" : ""}`,
    )
    .bind(at, who.id, who.name, what, subject, why);
}

/** The newest first; `before` is the id of the last one seen. */
export async function listHistory(
  database: D1Database,
  before = Number.MAX_SAFE_INTEGER,
  most = 100,
): Promise<HistoryRow[]> {
  const { results } = await database
    .prepare(
      "SELECT id, at, who_name AS whoName, what, subject, why FROM history WHERE id < ?1 ORDER BY id DESC LIMIT ?2",
    )
    .bind(before, most)
    .all<HistoryRow>();
  return results;
}
