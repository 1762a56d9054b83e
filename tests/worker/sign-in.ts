import { env } from "cloudflare:test";
import { addKey, addPerson } from "../../worker/people/people-sql.ts";
import type { KeyPurpose, Role } from "../../worker/people/person.ts";
import { hashToken, makeToken } from "../../worker/people/token.ts";
import type { openFreshApp } from "./fresh-app.ts";

const randomBytes = (count: number) => crypto.getRandomValues(new Uint8Array(count));

interface KeyParts {
  roles?: readonly Role[];
  purpose?: KeyPurpose;
  singleUse?: boolean;
  expiresAt?: number | null;
}

/** Stores a person with a key, as the command does, and gives both. Each test makes its own. */
export async function makePerson(name: string, now: number, parts: KeyParts = {}) {
  const { roles = ["staff"], purpose = "desk", singleUse = false, expiresAt = null } = parts;
  const id = makeToken(randomBytes).slice(0, 8);
  const key = makeToken(randomBytes);
  const hash = await hashToken(key);
  await env.DB.batch(
    [
      addPerson({ id, name, roles, now }),
      addKey({ hash, person: id, purpose, singleUse, now, expiresAt }),
    ].map((statement) => env.DB.prepare(statement)),
  );
  return { id, key };
}

export const sameOrigin = { "sec-fetch-site": "same-origin" };

/** A form sent from a page of ours. */
export function send(fields: Record<string, string>, headers: Record<string, string> = {}): RequestInit {
  return { method: "POST", body: new URLSearchParams(fields), headers: { ...sameOrigin, ...headers } };
}

type Ask = ReturnType<typeof openFreshApp>["ask"];

/** Signs in and gives the cookie as a browser sends it back. */
export async function signIn(ask: Ask, key: string): Promise<string> {
  const response = await ask("/desk/sign-in", send({ key }));
  if (response.status !== 303) throw new Error(`Signing in gave ${response.status}.`);
  return (response.headers.get("set-cookie") ?? "").split(";")[0] ?? "";
}
