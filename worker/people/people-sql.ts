import { type KeyPurpose, type Role, writeRoles } from "./person.ts";

const LONGEST_NAME = 80;

/** A name as it may be stored, or null. */
export function readName(text: string): string | null {
  const name = text.normalize("NFC").trim();
  return name === "" || name.length > LONGEST_NAME || /\p{C}/u.test(name) ? null : name;
}

function quote(text: string): string {
  return `'${text.replaceAll("'", "''")}'`;
}

interface NewPerson {
  id: string;
  name: string;
  roles: readonly Role[];
  now: number;
}

export function addPerson({ id, name, roles, now }: NewPerson): string {
  return `INSERT INTO people (id, name, roles, created_at) VALUES (${quote(id)}, ${quote(name)}, ${quote(writeRoles(roles))}, ${now})`;
}

interface NewKey {
  /** The hash alone: the key itself is shown once and stored nowhere. */
  hash: string;
  person: string;
  purpose: KeyPurpose;
  singleUse: boolean;
  now: number;
  expiresAt: number | null;
}

export function addKey({ hash, person, purpose, singleUse, now, expiresAt }: NewKey): string {
  return `INSERT INTO keys (hash, person, purpose, single_use, created_at, expires_at) VALUES (${quote(hash)}, ${quote(person)}, ${quote(purpose)}, ${Number(singleUse)}, ${now}, ${expiresAt ?? "NULL"})`;
}

/** A person as the list shows it. Times are milliseconds. */
export interface Listed {
  id: string;
  name: string;
  roles: string;
  createdAt: number;
  revokedAt: number | null;
  /** The last sign-in or use of a key. */
  usedAt: number | null;
}

export function listPeople(role: Role): string {
  return `SELECT id, name, roles, created_at AS createdAt, revoked_at AS revokedAt, (SELECT MAX(used_at) FROM keys WHERE person = people.id) AS usedAt FROM people WHERE roles LIKE ${quote(`%${writeRoles([role])}%`)} ORDER BY created_at, id`;
}

/** Takes all keys of a person back and ends every session, at once. */
export function lockOut(person: string, now: number): string[] {
  return [
    `UPDATE keys SET revoked_at = ${now} WHERE person = ${quote(person)} AND revoked_at IS NULL`,
    `DELETE FROM sessions WHERE person = ${quote(person)}`,
  ];
}

export function revokePerson(person: string, now: number): string[] {
  return [
    `UPDATE people SET revoked_at = ${now} WHERE id = ${quote(person)} AND revoked_at IS NULL`,
    ...lockOut(person, now),
  ];
}
