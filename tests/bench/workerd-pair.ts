import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { readD1Migrations } from "@cloudflare/vitest-pool-workers";
import { build } from "esbuild";
import { Miniflare } from "miniflare";

const worker = join(import.meta.dirname, "..", "..", "worker");
const compatibilityDate = "2026-04-01";

/** The floor: what the framework and the runtime cost by themselves, and what the smallest read of a database adds. */
const BARE = `import { Hono } from "hono";
const app = new Hono();
app.get("/", (c) => c.text("hello"));
app.get("/read", async (c) => c.text(String(await c.env.DB.prepare("SELECT 1").first("1"))));
export default app;`;

export interface WorkerdPair {
  /** Where the shipped server listens. */
  ours: URL;
  /** Where a bare Hono "hello" listens, in the same process of the runtime; under `/read` it reads its database first. */
  bare: URL;
  /** Size of the shipped server in bytes, minified. */
  script: Buffer;
  stop(): Promise<void>;
}

/** One workerd with two servers in it: the shipped one on a database of its own, and a bare one. */
export async function startPair(): Promise<WorkerdPair> {
  const [shipped, bare] = await Promise.all([
    bundleShipped(),
    bundle({ stdin: { contents: BARE, resolveDir: worker } }),
  ]);
  const direct = [{ host: "127.0.0.1", port: 0 }];
  const shared = { modules: true as const, compatibilityDate, unsafeDirectSockets: direct };
  const runtime = new Miniflare({
    workers: [
      { name: "ours", script: shipped, d1Databases: { DB: "bench" }, ...shared },
      { name: "bare", script: bare, d1Databases: { DB: "bare" }, ...shared },
    ],
  });
  await runtime.ready;
  await fillDatabase(await runtime.getD1Database("DB", "ours"));
  return {
    ours: await runtime.unsafeGetDirectURL("ours"),
    bare: await runtime.unsafeGetDirectURL("bare"),
    script: Buffer.from(shipped),
    stop: () => runtime.dispose(),
  };
}

/** The server as it is shipped, in one file. */
export function bundleShipped(): Promise<string> {
  return bundle({ entryPoints: [join(worker, "index.ts")] });
}

async function bundle(what: Parameters<typeof build>[0]): Promise<string> {
  const { outputFiles } = await build({
    ...what,
    bundle: true,
    write: false,
    minify: true,
    format: "esm",
    target: "es2022",
    conditions: ["workerd", "worker", "browser"],
    external: ["node:*", "cloudflare:*"],
  });
  const text = outputFiles?.[0]?.text;
  if (text === undefined) throw new Error("esbuild wrote nothing.");
  return text;
}

/** Makes the tables, and the built edition the live one. */
export async function fillDatabase(database: Awaited<ReturnType<Miniflare["getD1Database"]>>): Promise<void> {
  const migrations = await readD1Migrations(join(worker, "migrations"));
  await database.batch(migrations.flatMap(({ queries }) => queries.map((query) => database.prepare(query))));
  const edition = JSON.parse(await readFile(join(worker, "generated", "edition.json"), "utf8")) as {
    number: number;
    hash: string;
  };
  await database.batch([
    database
      .prepare(
        "INSERT INTO editions (number, hash, body, note, published_at) VALUES (?1, ?2, ?3, '', '2026-01-01T00:00:00Z')",
      )
      .bind(edition.number, edition.hash, JSON.stringify(edition)),
    database.prepare("INSERT INTO live (one, number) VALUES (1, ?1)").bind(edition.number),
  ]);
}
