/**
 * The shipped server in workerd with its database in a folder, for `endure.ts`, which kills it. Arguments: the bundle, the
 * folder, the port. On an empty folder it makes the tables and prints the cookie of someone who may publish.
 */
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { Miniflare } from "miniflare";
import { addPerson } from "../../worker/people/people-sql.ts";
import { hashToken, makeToken } from "../../worker/people/token.ts";

const [bundle = "", folder = "", port = ""] = process.argv.slice(2);
const isNew = !existsSync(join(folder, "d1"));
const runtime = new Miniflare({
  modules: true,
  script: readFileSync(bundle, "utf8"),
  compatibilityDate: "2026-04-01",
  d1Databases: { DB: "endure" },
  d1Persist: join(folder, "d1"),
  host: "127.0.0.1",
  port: Number(port),
});
await runtime.ready;
if (isNew) {
  // Only the first start needs the tools that this brings along; the others shall be quick.
  const { fillDatabase } = await import("./workerd-pair.ts");
  const database = await runtime.getD1Database("DB");
  await fillDatabase(database);
  const now = Date.now();
  const token = makeToken((count) => crypto.getRandomValues(new Uint8Array(count)));
  const day = 86_400_000;
  await database.batch([
    database.prepare(addPerson({ id: "ada", name: "Ada", roles: ["staff", "editor", "publisher"], now })),
    database
      .prepare(
        "INSERT INTO sessions (hash, person, proof, created_at, seen_at, idle, expires_at) VALUES (?1, 'ada', 'passkey', ?2, ?2, ?3, ?4)",
      )
      .bind(await hashToken(token), now, day, now + day),
  ]);
  console.log(`cookie leafturn=${token}`);
}
console.log("ready");
