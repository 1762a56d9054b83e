import { type KeyPurpose, type Person, readRoles } from "./person.ts";
import { hashToken, isToken } from "./token.ts";

/** One statement, so that of two presses at once only one uses up a key for a single use. */
const USE = `UPDATE keys SET used_at = ?3
  WHERE hash = ?1 AND purpose = ?2 AND revoked_at IS NULL
    AND (expires_at IS NULL OR expires_at > ?3)
    AND (single_use = 0 OR used_at IS NULL)
    AND EXISTS (SELECT 1 FROM people WHERE id = keys.person AND people.revoked_at IS NULL)
  RETURNING (SELECT id FROM people WHERE id = keys.person) AS id,
    (SELECT name FROM people WHERE id = keys.person) AS name,
    (SELECT roles FROM people WHERE id = keys.person) AS roles`;

/** Whose key it is; null when it opens nothing, or no more. A key for a single use is used up. */
export async function useKey(
  database: D1Database,
  key: string,
  purpose: KeyPurpose,
  now: number,
): Promise<Person | null> {
  if (!isToken(key)) return null;
  const row = await database
    .prepare(USE)
    .bind(await hashToken(key), purpose, now)
    .first<{ id: string; name: string; roles: string }>();
  return row && { ...row, roles: readRoles(row.roles) };
}

/** The key in what someone pasted: the key alone, in groups or not, or the whole link that holds it. */
export function readKey(text: string): string {
  const [, inLink] = /#key=([0-9a-f]+)/i.exec(text) ?? [];
  return (inLink ?? text).replaceAll(/[\s-]/g, "").toLowerCase();
}
