/** Writes worker/generated/seed.sql, which stores the bundled edition as the first one. Run after the build. */
import { readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Edition } from "../../flows/edition.ts";

const generatedFolder = join(import.meta.dirname, "..", "generated");
/** The database takes statements of up to 100 kB; a body is written in pieces that stay well below. */
const PIECE = 20_000;
const UNFINISHED = "unfinished";

/**
 * SQL that can be run again at any time. The first edition is replaced only while it is the only one: as soon as
 * another was published, links depend on it.
 */
export function writeSeed(edition: Edition): string {
  const { number, hash } = edition;
  const pieces = JSON.stringify(edition).match(new RegExp(`[^]{1,${PIECE}}`, "gu")) ?? [];
  const unfinished = `number = ${number} AND hash = ${quote(UNFINISHED)}`;
  return [
    `DELETE FROM live WHERE number = ${number} AND NOT EXISTS (SELECT 1 FROM editions WHERE number <> ${number});`,
    `DELETE FROM editions WHERE number = ${number} AND hash <> ${quote(hash)} AND NOT EXISTS (SELECT 1 FROM editions WHERE number <> ${number});`,
    `INSERT INTO editions (number, hash, body, note, published_at) SELECT ${number}, ${quote(UNFINISHED)}, '', 'The content that came with the program.', strftime('%Y-%m-%dT%H:%M:%SZ', 'now') WHERE NOT EXISTS (SELECT 1 FROM editions WHERE number = ${number});`,
    ...pieces.map((piece) => `UPDATE editions SET body = body || ${quote(piece)} WHERE ${unfinished};`),
    `UPDATE editions SET hash = ${quote(hash)} WHERE ${unfinished};`,
    `INSERT INTO live (one, number) VALUES (1, ${number}) ON CONFLICT (one) DO NOTHING;`,
    "",
  ].join("\n");
}

function quote(text: string): string {
  return `'${text.replaceAll("'", "''")}'`;
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) {
  const edition = JSON.parse(await readFile(join(generatedFolder, "edition.json"), "utf8")) as Edition;
  await writeFile(join(generatedFolder, "seed.sql"), writeSeed(edition));
}
