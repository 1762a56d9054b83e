/** Addresses under which a draft can be looked at by whoever has them, for a while. */
import { hashToken, isToken } from "../people/token.ts";
import { noteHistory, type Who } from "./history.ts";

export const PREVIEW_DAYS = 7;
const DAY = 86_400_000;

export interface Preview {
  id: string;
  madeBy: string | null;
  madeAt: number;
  expiresAt: number;
}

interface NewPreview {
  id: string;
  draft: string;
  token: string;
  who: Who;
  now: number;
}

export async function makePreview(
  database: D1Database,
  { id, draft, token, who, now }: NewPreview,
): Promise<void> {
  await database.batch([
    database
      .prepare(
        "INSERT INTO previews (hash, id, draft, made_by, made_at, expires_at) VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
      )
      .bind(await hashToken(token), id, draft, who.id, now, now + PREVIEW_DAYS * DAY),
    noteHistory(database, { at: now, who, what: "preview-made", subject: draft, why: "" }),
  ]);
}

/** The draft that a token shows; null when it is unknown or over. */
export async function findPreview(
  database: D1Database,
  token: string,
  now: number,
): Promise<{ draft: string; revision: number; expiresAt: number } | null> {
  if (!isToken(token)) return null;
  return database
    .prepare(
      `SELECT p.draft, d.revision, p.expires_at AS expiresAt FROM previews p JOIN drafts d ON d.id = p.draft
       WHERE p.hash = ?1 AND p.expires_at > ?2`,
    )
    .bind(await hashToken(token), now)
    .first();
}

export async function listPreviews(database: D1Database, draft: string, now: number): Promise<Preview[]> {
  const { results } = await database
    .prepare(
      `SELECT id, (SELECT name FROM people WHERE people.id = made_by) AS madeBy, made_at AS madeAt, expires_at AS expiresAt
       FROM previews WHERE draft = ?1 AND expires_at > ?2 ORDER BY made_at`,
    )
    .bind(draft, now)
    .all<Preview>();
  return results;
}

export async function endPreview(
  database: D1Database,
  { id, draft, who, now }: { id: string; draft: string; who: Who; now: number },
): Promise<void> {
  await database.batch([
    database
      .prepare("UPDATE previews SET expires_at = ?3 WHERE id = ?1 AND draft = ?2 AND expires_at > ?3")
      .bind(id, draft, now),
    noteHistory(database, { at: now, who, what: "preview-ended", subject: draft, why: "", ifChanged: true }),
  ]);
}
