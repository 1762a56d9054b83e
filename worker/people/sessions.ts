import { type Person, type Proof, readRoles, type SignedIn } from "./person.ts";
import { hashToken, isToken, makeToken, type RandomBytes } from "./token.ts";

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;

/** In milliseconds: how long a session lives without a request, and at most. A shift at the counter is no longer. */
const limits: Record<Proof, { idle: number; whole: number }> = {
  key: { idle: 2 * HOUR, whole: 12 * HOUR },
  passkey: { idle: HOUR, whole: 12 * HOUR },
};

/** A request is noted once in this time: not every click has to write. */
const NOTED = MINUTE;

interface NewSession {
  person: Person;
  proof: Proof;
  now: number;
  randomBytes: RandomBytes;
}

/** Begins a session and gives its token, which is nowhere stored. Sessions that are over are swept away. */
export async function openSession(
  database: D1Database,
  { person, proof, now, randomBytes }: NewSession,
): Promise<string> {
  const token = makeToken(randomBytes);
  const { idle, whole } = limits[proof];
  await database.batch([
    database.prepare("DELETE FROM sessions WHERE expires_at <= ?1 OR seen_at + idle <= ?1").bind(now),
    database
      .prepare(
        "INSERT INTO sessions (hash, person, proof, created_at, seen_at, idle, expires_at) VALUES (?1, ?2, ?3, ?4, ?4, ?5, ?6)",
      )
      .bind(await hashToken(token), person.id, proof, now, idle, now + whole),
  ]);
  return token;
}

interface SessionRow {
  id: string;
  name: string;
  roles: string;
  proof: Proof;
  seenAt: number;
}

const FIND = `SELECT p.id, p.name, p.roles, s.proof, s.seen_at AS seenAt
  FROM sessions s JOIN people p ON p.id = s.person
  WHERE s.hash = ?1 AND p.revoked_at IS NULL AND s.expires_at > ?2 AND s.seen_at + s.idle > ?2`;

/** Who is signed in with this token; null for one that is forged, over, or taken back. */
export async function findSession(
  database: D1Database,
  token: string | undefined,
  now: number,
): Promise<SignedIn | null> {
  if (token === undefined || !isToken(token)) return null;
  const hash = await hashToken(token);
  const row = await database.prepare(FIND).bind(hash, now).first<SessionRow>();
  if (row === null) return null;
  if (now - row.seenAt >= NOTED) {
    await database.prepare("UPDATE sessions SET seen_at = ?2 WHERE hash = ?1").bind(hash, now).run();
  }
  const { id, name, proof } = row;
  return { id, name, proof, roles: readRoles(row.roles) };
}

/** Ends a session at once, on every device that holds its token. */
export async function endSession(database: D1Database, token: string | undefined): Promise<void> {
  if (token === undefined || !isToken(token)) return;
  await database
    .prepare("DELETE FROM sessions WHERE hash = ?1")
    .bind(await hashToken(token))
    .run();
}
