import { env } from "cloudflare:test";
import type { Edition } from "../../flows/edition.ts";
import { makeApp } from "../../worker/app.tsx";
import { keepEditions } from "../../worker/editions.ts";
import files from "../../worker/generated/content.json";
import bundled from "../../worker/generated/edition.json";
import editorScripts from "../../worker/generated/editor.json";
import widget from "../../worker/generated/embed.json";

export { bundled };

/** A server that remembers nothing from other tests, with a clock that only the test moves. */
export function openFreshApp(bindings: { DB?: D1Database } = { DB: env.DB }) {
  const clock = { now: 1_000_000 };
  const app = makeApp({
    widget,
    bundled: { edition: bundled, files },
    editorScripts,
    shelf: keepEditions(bundled),
    now: () => clock.now,
    randomBytes: (count) => crypto.getRandomValues(new Uint8Array(count)),
  });
  const ask = async (path: string, init?: RequestInit) =>
    app.request(`https://shop.example${path}`, init, bindings);
  return { app, clock, ask };
}

/** Sends a JSON body. */
export function post(body: unknown): RequestInit {
  return { method: "POST", headers: { "content-type": "application/json" }, body: JSON.stringify(body) };
}

/** Stores an edition and makes it live, as publishing does. */
export async function publish(edition: Edition): Promise<void> {
  const { number, hash } = edition;
  await env.DB.batch([
    env.DB.prepare(
      "INSERT INTO editions (number, hash, body, note, published_at) VALUES (?1, ?2, ?3, '', '2026-01-01T00:00:00Z')",
    ).bind(number, hash, JSON.stringify(edition)),
    env.DB.prepare(
      "INSERT INTO live (one, number) VALUES (1, ?1) ON CONFLICT (one) DO UPDATE SET number = ?1",
    ).bind(number),
  ]);
}

/** The bundled edition under another number, with another shop's name so that pages tell them apart. */
export function renumber(number: number, change: Partial<Edition> = {}): Edition {
  return {
    ...bundled,
    number,
    hash: `hash-of-${number}`,
    shop: { ...bundled.shop, name: `Shop ${number}` },
    ...change,
  };
}

/** A database that records what it is asked. */
export function watchDatabase(database: D1Database): { database: D1Database; reads: () => number } {
  let reads = 0;
  const watched = new Proxy(database, {
    get(target, name) {
      if (name === "prepare") reads++;
      const value: unknown = Reflect.get(target, name);
      return typeof value === "function" ? value.bind(target) : value;
    },
  });
  return { database: watched, reads: () => reads };
}
