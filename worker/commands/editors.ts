/**
 * Who may sign in to the editor's room. An invitation is a link for one use within a week, with which a device is registered.
 * Only its hash is stored. A new invitation locks the old device out at once.
 *
 *   npm run -s editors -- invite "Name" --role editor|publisher | list | renew ID | revoke ID
 *     [--remote --origin https://…] [--persist-to FOLDER]
 */
import { randomBytes } from "node:crypto";
import { parseArgs } from "node:util";
import {
  addKey,
  addPerson,
  type Listed,
  listPeople,
  lockOut,
  readName,
  revokePerson,
} from "../people/people-sql.ts";
import type { Role } from "../people/person.ts";
import { hashToken, makeToken } from "../people/token.ts";
import { askDatabase, prepareLocal, type Target } from "./wrangler.ts";

const USAGE = 'Say one of: invite "Name" --role editor|publisher, list, renew ID, revoke ID.';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    remote: { type: "boolean", default: false },
    origin: { type: "string" },
    "persist-to": { type: "string" },
    role: { type: "string" },
  },
});
/** How long an invitation waits for its one use, in milliseconds. */
const INVITATION_LIFE = 7 * 86_400_000;
const target: Target = { remote: values.remote, folder: values["persist-to"] };
const origin = values.origin ?? (target.remote ? undefined : "http://localhost:8787");
const [verb, subject, ...rest] = positionals;
process.exitCode = rest.length > 0 ? fail(USAGE) : await act();

async function act(): Promise<number> {
  if (verb === "list" && subject === undefined) return list();
  if (subject === undefined) return fail(USAGE);
  if (verb !== "revoke" && origin === undefined) {
    return fail("Say with --origin where the check lives, such as https://check.example.");
  }
  if (verb === "invite") return invite(subject);
  if (verb === "renew") return renew(subject);
  return verb === "revoke" ? revoke(subject) : fail(USAGE);
}

async function invite(text: string): Promise<number> {
  const name = readName(text);
  const roles = rolesOf(values.role);
  if (roles === null) return fail("Say with --role whether it is an editor or a publisher.");
  if (name === null) return fail("A name has 1 to 80 characters, on one line.");
  const now = Date.now();
  const id = randomBytes(4).toString("hex");
  const { key, statement } = await makeKey(id, now);
  await prepareLocal(target);
  await askDatabase(target, [addPerson({ id, name, roles, now }), statement]);
  return showKey(name, id, key);
}

/** A publisher edits as well. */
function rolesOf(role: string | undefined): Role[] | null {
  if (role === "editor") return ["editor"];
  return role === "publisher" ? ["editor", "publisher"] : null;
}

/** What keeps every earlier device of a person out. */
function dropDevices(person: string, now: number): string {
  return `UPDATE passkeys SET revoked_at = ${now} WHERE person = '${person}' AND revoked_at IS NULL`;
}

async function renew(id: string): Promise<number> {
  const person = await find(id);
  if (person === null) return 1;
  if (person.revokedAt !== null) return fail(`${person.name} was taken off the list. Invite the name again.`);
  const now = Date.now();
  const { key, statement } = await makeKey(person.id, now);
  await askDatabase(target, [...lockOut(person.id, now), dropDevices(person.id, now), statement]);
  return showKey(person.name, person.id, key);
}

async function revoke(id: string): Promise<number> {
  const person = await find(id);
  if (person === null) return 1;
  const now = Date.now();
  await askDatabase(target, [...revokePerson(person.id, now), dropDevices(person.id, now)]);
  console.log(`${person.name} (${person.id}) cannot sign in any more; open sessions are ended.`);
  return 0;
}

async function list(): Promise<number> {
  for (const { id, name, roles, usedAt, revokedAt } of await readList()) {
    const used = usedAt === null ? "no device yet" : `device registered ${sayDay(usedAt)}`;
    const role = roles.includes(" publisher ") ? "publisher" : "editor";
    console.log(
      `${id}  ${name}, ${role}, ${revokedAt === null ? used : `taken off the list ${sayDay(revokedAt)}`}`,
    );
  }
  return 0;
}

async function readList(): Promise<Listed[]> {
  await prepareLocal(target);
  const [rows = []] = await askDatabase(target, [listPeople("editor")]);
  return rows as Listed[];
}

async function find(id: string): Promise<Listed | null> {
  const found = (await readList()).find((person) => person.id === id);
  if (found === undefined) fail(`Nobody has the id ${id}. “list” shows all.`);
  return found ?? null;
}

async function makeKey(person: string, now: number) {
  const key = makeToken(randomBytes);
  const hash = await hashToken(key);
  const expiresAt = now + INVITATION_LIFE;
  const statement = addKey({ hash, person, purpose: "invitation", singleUse: true, now, expiresAt });
  return { key, statement };
}

function showKey(name: string, id: string, key: string): number {
  console.log(
    `${name} (${id}) registers a device with this link, once, within a week. It is shown only now.`,
  );
  console.log(`${origin}/editor/invitation#key=${key}`);
  return 0;
}

function sayDay(time: number): string {
  return new Date(time).toISOString().slice(0, 10);
}

function fail(sentence: string): number {
  console.error(sentence);
  return 1;
}
