/**
 * Who may sign in to the desk. Each person gets a key link of their own, which is shown once: only its hash is stored.
 *
 *   npm run -s staff -- add "Name" | list | renew ID | revoke ID  [--remote --origin https://…] [--persist-to FOLDER]
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
import { hashToken, makeToken } from "../people/token.ts";
import { askDatabase, prepareLocal, type Target } from "./wrangler.ts";

const USAGE = 'Say one of: add "Name", list, renew ID, revoke ID.';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    remote: { type: "boolean", default: false },
    origin: { type: "string" },
    "persist-to": { type: "string" },
  },
});
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
  if (verb === "add") return add(subject);
  if (verb === "renew") return renew(subject);
  return verb === "revoke" ? revoke(subject) : fail(USAGE);
}

async function add(text: string): Promise<number> {
  const name = readName(text);
  if (name === null) return fail("A name has 1 to 80 characters, on one line.");
  const now = Date.now();
  const id = randomBytes(4).toString("hex");
  const { key, statement } = await makeKey(id, now);
  await prepareLocal(target);
  await askDatabase(target, [addPerson({ id, name, roles: ["staff"], now }), statement]);
  return showKey(name, id, key);
}

async function renew(id: string): Promise<number> {
  const person = await find(id);
  if (person === null) return 1;
  if (person.revokedAt !== null) return fail(`${person.name} was taken off the list. Add the name again.`);
  const now = Date.now();
  const { key, statement } = await makeKey(person.id, now);
  await askDatabase(target, [...lockOut(person.id, now), statement]);
  return showKey(person.name, person.id, key);
}

async function revoke(id: string): Promise<number> {
  const person = await find(id);
  if (person === null) return 1;
  await askDatabase(target, revokePerson(person.id, Date.now()));
  console.log(`${person.name} (${person.id}) cannot sign in any more; open sessions are ended.`);
  return 0;
}

async function list(): Promise<number> {
  for (const { id, name, usedAt, revokedAt } of await readList()) {
    const used = usedAt === null ? "never signed in" : `last signed in ${sayDay(usedAt)}`;
    console.log(`${id}  ${name}, ${revokedAt === null ? used : `taken off the list ${sayDay(revokedAt)}`}`);
  }
  return 0;
}

async function readList(): Promise<Listed[]> {
  await prepareLocal(target);
  const [rows = []] = await askDatabase(target, [listPeople("staff")]);
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
  const statement = addKey({ hash, person, purpose: "desk", singleUse: false, now, expiresAt: null });
  return { key, statement };
}

function showKey(name: string, id: string, key: string): number {
  console.log(`${name} (${id}) signs in with this link. It is shown only now; treat it like a key.`);
  console.log(`${origin}/desk/sign-in#key=${key}`);
  return 0;
}

function sayDay(time: number): string {
  return new Date(time).toISOString().slice(0, 10);
}

function fail(sentence: string): number {
  console.error(sentence);
  return 1;
}
