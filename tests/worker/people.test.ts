import { env } from "cloudflare:test";
import { Hono } from "hono";
import { afterEach, describe, expect, test, vi } from "vitest";
import { keepEditions } from "../../worker/editions.ts";
import { requireRole } from "../../worker/people/guard.ts";
import { readKey, useKey } from "../../worker/people/keys.ts";
import { revokePerson } from "../../worker/people/people-sql.ts";
import type { Proof, Role } from "../../worker/people/person.ts";
import { openSession } from "../../worker/people/sessions.ts";
import { hashToken } from "../../worker/people/token.ts";
import { readWayBack } from "../../worker/people/way-back.ts";
import type { PrivateSetting } from "../../worker/setting.ts";
import { askToSignIn } from "../../worker/staff/sign-in-routes.tsx";
import { bundled, openFreshApp } from "./fresh-app.ts";
import { makePerson, send, signIn } from "./sign-in.ts";

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const randomBytes = (count: number) => crypto.getRandomValues(new Uint8Array(count));

afterEach(() => {
  vi.restoreAllMocks();
});

/** A page behind the guard, and nothing else. */
function openGuarded(role: Role, clock: { now: number }, bindings: { DB?: D1Database } = { DB: env.DB }) {
  const app = new Hono<PrivateSetting>();
  app.use((c, next) => {
    c.set("now", clock.now);
    return next();
  });
  app.use(requireRole(role, (c, why) => c.text(why, 403)));
  app.get("/", (c) => c.text(c.var.person.name));
  return async (cookie?: string) => {
    const headers = cookie === undefined ? {} : { cookie };
    return (await app.request("https://shop.example/", { headers }, bindings)).text();
  };
}

async function openCookie(roles: readonly Role[], proof: Proof, now: number): Promise<string> {
  const { id } = await makePerson("Ada", now, { roles });
  const person = { id, name: "Ada", roles: [...roles] };
  return `__Host-leafturn=${await openSession(env.DB, { person, proof, now, randomBytes })}`;
}

describe("a key", () => {
  test("opens what it is for, as often as it is shown, and is stored as a hash alone", async () => {
    const { id, key } = await makePerson("Ada", 1);
    expect(await useKey(env.DB, key, "invitation", 2)).toBeNull();
    expect(await useKey(env.DB, key, "desk", 2)).toEqual({ id, name: "Ada", roles: ["staff"] });
    expect(await useKey(env.DB, key, "desk", 3)).not.toBeNull();
    const { results } = await env.DB.prepare("SELECT * FROM keys").all();
    expect(JSON.stringify(results)).not.toContain(key);
    expect(JSON.stringify(results)).toContain(await hashToken(key));
  });

  test("for a single use opens once, also when two use it at the same time", async () => {
    const { key } = await makePerson("Ada", 1, { purpose: "invitation", singleUse: true });
    const both = await Promise.all([2, 2].map((now) => useKey(env.DB, key, "invitation", now)));
    expect(both.filter((person) => person !== null)).toHaveLength(1);
    expect(await useKey(env.DB, key, "invitation", 3)).toBeNull();
  });

  test("ends on time, and with its person", async () => {
    const { key } = await makePerson("Ada", 1, { expiresAt: 100 });
    expect(await useKey(env.DB, key, "desk", 99)).not.toBeNull();
    expect(await useKey(env.DB, key, "desk", 100)).toBeNull();
    const gone = await makePerson("Bea", 1);
    await env.DB.batch(revokePerson(gone.id, 5).map((statement) => env.DB.prepare(statement)));
    expect(await useKey(env.DB, gone.key, "desk", 6)).toBeNull();
  });

  test("is found in whatever was pasted", () => {
    const key = "0123456789abcdef0123456789abcdef01234567";
    for (const text of [key, ` ${key.toUpperCase()}\n`, `https://x.example/desk/sign-in#key=${key}`])
      expect(readKey(text)).toBe(key);
    expect(readKey("0123 4567-89ab")).toBe("0123456789ab");
  });
});

describe("a session", () => {
  test("lives while it is used, and ends two hours after the last use", async () => {
    const clock = { now: 1_000_000 };
    const look = openGuarded("staff", clock);
    const cookie = await openCookie(["staff"], "key", clock.now);
    for (let i = 0; i < 3; i++) {
      clock.now += 2 * HOUR - 2 * MINUTE;
      expect(await look(cookie)).toBe("Ada");
    }
    clock.now += 2 * HOUR;
    expect(await look(cookie)).toBe("over");
  });

  test("ends twelve hours after it began, however it is used", async () => {
    const clock = { now: 1_000_000 };
    const look = openGuarded("staff", clock);
    const cookie = await openCookie(["staff"], "key", clock.now);
    for (let hour = 1; hour < 12; hour++) {
      clock.now += HOUR;
      expect(await look(cookie)).toBe("Ada");
    }
    clock.now += HOUR;
    expect(await look(cookie)).toBe("over");
  });

  test("ends at once when its person is taken off the list", async () => {
    const clock = { now: 1_000_000 };
    const look = openGuarded("staff", clock);
    const { id, key } = await makePerson("Ada", clock.now);
    const cookie = await signIn(openFreshApp().ask, key);
    expect(await look(cookie)).toBe("Ada");
    await env.DB.batch(revokePerson(id, clock.now).map((statement) => env.DB.prepare(statement)));
    expect(await look(cookie)).toBe("over");
  });

  test("that is forged, shortened or under the wrong name opens nothing", async () => {
    const look = openGuarded("staff", { now: 1_000_000 });
    const cookie = await openCookie(["staff"], "key", 1_000_000);
    const [, token = ""] = cookie.split("=");
    expect(await look(cookie)).toBe("Ada");
    expect(await look()).toBe("signed-out");
    expect(await look(`leafturn=${token}`)).toBe("signed-out");
    for (const forged of [
      "",
      token.slice(1),
      token.toUpperCase(),
      "0".repeat(40),
      "' OR 1=1 --",
      "z".repeat(5000),
    ])
      expect(await look(`__Host-leafturn=${forged}`)).toMatch(/^(over|signed-out)$/);
    const stored = await env.DB.prepare("SELECT hash FROM sessions").all<{ hash: string }>();
    for (const { hash } of stored.results) expect(await look(`__Host-leafturn=${hash}`)).toBe("over");
  });

  test("from a key never opens the editor's room, whatever the person's roles", async () => {
    const roles = ["staff", "editor", "publisher"] as const;
    const [withKey, withPasskey] = [
      await openCookie(roles, "key", 1_000_000),
      await openCookie(roles, "passkey", 1_000_000),
    ];
    const staffOnly = await openCookie(["staff"], "passkey", 1_000_000);
    for (const role of roles) {
      const look = openGuarded(role, { now: 1_000_000 });
      expect(await look(withPasskey), role).toBe("Ada");
      expect(await look(withKey), role).toBe(role === "staff" ? "Ada" : "not-yours");
      expect(await look(staffOnly), role).toBe(role === "staff" ? "Ada" : "not-yours");
    }
  });

  test("cannot be told while the records are away", async () => {
    vi.spyOn(console, "error").mockImplementation(() => {});
    const cookie = await openCookie(["staff"], "key", 1_000_000);
    expect(await openGuarded("staff", { now: 1_000_000 }, {})(cookie)).toBe("out-of-reach");
    await env.DB.exec("ALTER TABLE sessions RENAME TO away");
    expect(await openGuarded("staff", { now: 1_000_000 })(cookie)).toBe("out-of-reach");
    await env.DB.exec("ALTER TABLE away RENAME TO sessions");
  });
});

describe("signing in to the desk", () => {
  test("sets a cookie that only this host gets, and no script reads", async () => {
    const { ask, clock } = openFreshApp();
    const { key } = await makePerson("Ada", clock.now);
    const response = await ask("/desk/sign-in", send({ key }));
    expect(response.status).toBe(303);
    expect(response.headers.get("set-cookie")).toMatch(
      /^__Host-leafturn=[0-9a-f]{40}; Path=\/; HttpOnly; Secure; SameSite=Lax$/,
    );
    expect(response.headers.get("cache-control")).toBe("no-store");
  });

  test("begins a new session each time, and signing out ends it", async () => {
    const { ask, clock } = openFreshApp();
    const { key } = await makePerson("Ada", clock.now);
    const look = openGuarded("staff", clock);
    const first = await signIn(ask, key);
    const again = await ask("/desk/sign-in", send({ key }, { cookie: first }));
    const second = again.headers.get("set-cookie")?.split(";")[0] ?? "";
    expect(second).not.toBe(first);
    expect([await look(first), await look(second)]).toEqual(["over", "Ada"]);
    const out = await ask("/desk/sign-out", send({}, { cookie: second }));
    expect(out.headers.get("set-cookie")).toMatch(/^__Host-leafturn=; Max-Age=0/);
    expect(await look(second)).toBe("over");
  });

  test("over plain http works on one's own machine only", async () => {
    const { app, clock } = openFreshApp();
    const { key } = await makePerson("Ada", clock.now);
    const at = (host: string) => app.request(`http://${host}/desk/sign-in`, send({ key }), { DB: env.DB });
    expect((await at("localhost:8787")).headers.get("set-cookie")).toMatch(
      /^leafturn=[0-9a-f]{40}; Path=\/; HttpOnly; SameSite=Lax$/,
    );
    const refused = await at("shop.example");
    expect([refused.status, refused.headers.get("set-cookie")]).toEqual([403, null]);
    expect(await refused.text()).toContain("starts with https");
  });

  test("says clearly what is wrong, and never repeats the key", async () => {
    const { ask } = openFreshApp();
    const wrong = "0".repeat(40);
    for (const [fields, sentence] of [
      [{ key: "" }, "Please paste your key"],
      [{}, "Please paste your key"],
      [{ key: wrong }, "does not open the desk"],
      [{ key: "<script>" }, "does not open the desk"],
    ] as const) {
      const response = await ask("/desk/sign-in", send(fields));
      const page = await response.text();
      expect(response.status).toBe(403);
      expect(page).toContain(sentence);
      expect(page).not.toContain(wrong);
      expect(page).not.toContain("&lt;script");
    }
    const long = await ask("/desk/sign-in", send({ key: "a".repeat(10_000) }));
    expect(long.status).toBe(413);
  });

  test("waits after thirty tries, says how long, and opens again", async () => {
    const { ask, clock } = openFreshApp();
    const { key } = await makePerson("Ada", clock.now);
    const from = (address: string) => ({ "cf-connecting-ip": address });
    for (let i = 0; i < 30; i++) {
      clock.now += 1000;
      expect((await ask("/desk/sign-in", send({ key: "0" }, from("192.0.2.1")))).status).toBe(403);
    }
    const shut = await ask("/desk/sign-in", send({ key }, from("192.0.2.1")));
    expect([shut.status, shut.headers.get("retry-after")]).toEqual([429, "571"]);
    expect(await shut.text()).toContain("Please wait 10 minutes");
    expect((await ask("/desk/sign-in", send({ key }, from("192.0.2.2")))).status).toBe(303);
    clock.now += 571_000;
    expect((await ask("/desk/sign-in", send({ key }, from("192.0.2.1")))).status).toBe(303);
  });

  test("tells that the records are away", async () => {
    vi.spyOn(console, "error").mockImplementation(() => {});
    const without = openFreshApp({});
    expect((await without.ask("/desk/sign-in", send({ key: "1" }))).status).toBe(503);
    const { ask } = openFreshApp();
    await env.DB.exec("ALTER TABLE keys RENAME TO away");
    expect((await ask("/desk/sign-in", send({ key: "0".repeat(40) }))).status).toBe(503);
    await env.DB.exec("ALTER TABLE away RENAME TO keys");
  });

  test("leads back to the desk and nowhere else", async () => {
    const { ask, clock } = openFreshApp();
    const { key } = await makePerson("Ada", clock.now);
    const goes = async (next: string) =>
      (await ask("/desk/sign-in", send({ key, next }))).headers.get("location");
    expect(await goes("/desk/counter?code=E01J")).toBe("/desk/counter?code=E01J");
    const home = await goes("");
    for (const elsewhere of [
      "https://evil.example/desk",
      "//evil.example/desk",
      "/\\evil.example",
      "/deskx",
      "/desk//evil.example",
      "javascript:alert(1)",
      "/desk/../../check",
    ])
      expect(await goes(elsewhere), elsewhere).toBe(home);
    expect(readWayBack("/desk/%2e%2e/check", "/desk", "/desk")).toBe("/desk");
  });
});

describe("a form sent without a session", () => {
  const app = new Hono<PrivateSetting>();
  app.use((c, next) => {
    c.set("now", 1_000_000);
    c.set("openEditions", (asked) => keepEditions(bundled).open(undefined, 0, asked));
    c.set("openAnyEditions", (wanted) => keepEditions(bundled).openAny(undefined, 0, wanted));
    return next();
  });
  app.use(requireRole("staff", askToSignIn));
  const ask = (path: string, init: RequestInit) =>
    app.request(`https://shop.example${path}`, init, { DB: env.DB });

  test("leads to the sign-in and from there back to the form as it was", async () => {
    const cookie = `__Host-leafturn=${"0".repeat(40)}`;
    const response = await ask("/desk/counter", send({ code: 'E01J"&', branch: "north-yard" }, { cookie }));
    const page = await response.text();
    expect(response.status).toBe(403);
    expect(page).toContain("What you typed is kept");
    const [, next = ""] = /name="next" value="([^"]*)"/.exec(page) ?? [];
    expect(next.replaceAll("&amp;", "&")).toBe("/desk/counter?code=E01J%22%26&branch=north-yard");
  });

  test("shows no page behind it", async () => {
    const response = await ask("/desk/figures?x=1", {});
    expect(response.status).toBe(403);
    expect(response.headers.get("cache-control")).toBe("no-store");
    expect(await response.text()).toContain('value="/desk/figures?x=1"');
  });
});

/** Addresses that any page may post to: they read no cookie. */
const openToAll = ["/api/case", "/api/counts", "/say", "/desk/say"];

describe("a request from another site", () => {
  const { app } = openFreshApp();
  const unsafe = ["POST", "PUT", "PATCH", "DELETE"];
  const paths = [...new Set(app.routes.map(({ path }) => path))].map((path) =>
    path.replaceAll(/:\w+(\{[^}]*\})?/g, "1").replaceAll("*", "x"),
  );

  test.each(paths.filter((path) => !openToAll.includes(path)))("changes nothing at %s", async (path) => {
    const { ask, clock } = openFreshApp();
    const { key } = await makePerson("Ada", clock.now);
    const cookie = await signIn(ask, key);
    for (const method of unsafe) {
      for (const headers of [
        { "sec-fetch-site": "cross-site" },
        { "sec-fetch-site": "same-site" },
        { "sec-fetch-site": "none" },
        { origin: "https://evil.example" },
        { origin: "null" },
        {},
      ]) {
        const body = method === "DELETE" ? null : '{"a":1}';
        const all = { ...headers, cookie, "content-type": "application/json" };
        const { status } = await ask(path, { method, headers: all as Record<string, string>, body });
        expect([403, 404, 405], `${method} ${JSON.stringify(headers)}`).toContain(status);
        if (path.startsWith("/desk/")) expect(status).toBe(403);
      }
    }
  });

  test("of an older browser is known by its origin", async () => {
    const { ask, clock } = openFreshApp();
    const { key } = await makePerson("Ada", clock.now);
    const headers = { origin: "https://shop.example" };
    const body = new URLSearchParams({ key });
    expect((await ask("/desk/sign-in", { method: "POST", headers, body })).status).toBe(303);
  });
});
