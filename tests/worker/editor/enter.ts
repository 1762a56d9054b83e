import { env } from "cloudflare:test";
import { addPerson } from "../../../worker/people/people-sql.ts";
import type { Role } from "../../../worker/people/person.ts";
import { openSession } from "../../../worker/people/sessions.ts";
import { makeToken } from "../../../worker/people/token.ts";
import { openFreshApp } from "../fresh-app.ts";
import { sameOrigin } from "../sign-in.ts";

const randomBytes = (count: number) => crypto.getRandomValues(new Uint8Array(count));

/** A server, and someone who is signed in to it as if with a passkey. */
export async function enterRoom(
  roles: Role[] = ["editor", "publisher"],
  proof: "passkey" | "key" = "passkey",
) {
  const { ask, clock } = openFreshApp();
  const id = makeToken(randomBytes).slice(0, 8);
  const name = `Person ${id}`;
  await env.DB.prepare(addPerson({ id, name, roles, now: clock.now })).run();
  const person = { id, name, roles };
  const token = await openSession(env.DB, { person, proof, now: clock.now, randomBytes });
  const cookie = `__Host-leafturn=${token}`;
  const send = (path: string, init: RequestInit = {}) =>
    ask(path, { ...init, redirect: "manual", headers: { cookie, ...sameOrigin, ...init.headers } });
  return {
    ...{ ask, clock, cookie, person },
    get: (path: string, headers: Record<string, string> = {}) => send(path, { headers }),
    read: async (path: string) => (await send(path)).text(),
    post: (path: string, fields: Record<string, string> = {}) =>
      send(path, { method: "POST", body: new URLSearchParams(fields) }),
    send,
  };
}

type Room = Awaited<ReturnType<typeof enterRoom>>;

/** Begins a draft through the page, and gives its address. */
export async function beginDraft(room: Room, title = "Spring"): Promise<string> {
  await room.get("/editor");
  const response = await room.post("/editor/drafts", { title });
  if (response.status !== 303) throw new Error(await response.text());
  return response.headers.get("location") ?? "";
}

/** What a form's hidden or text field holds. */
export function fieldOf(page: string, name: string): string {
  const [, value = ""] = new RegExp(`name="${name}"[^>]*? value="([^"]*)"`).exec(page) ?? [];
  return value.replaceAll("&quot;", '"').replaceAll("&amp;", "&");
}
