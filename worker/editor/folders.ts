/** The files that editions were made from. */
import type { Files } from "../../flows/content/read-files.ts";

/** Characters of JSON in one bound value; a value or row may have 2,000,000 bytes, and a character takes up to three. */
const PIECE = 500_000;

export async function hashText(text: string): Promise<string> {
  const digest = await crypto.subtle.digest("SHA-256", new TextEncoder().encode(text));
  return [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** A folder as the database holds it: path → hash of its text. */
export type Folder = Readonly<Record<string, string>>;

/**
 * Stores the texts that are not there yet. They mean nothing until an edition names them, so this may be cut off
 * anywhere and done again.
 */
export async function storeTexts(database: D1Database, files: Files): Promise<Folder> {
  const hashed = await Promise.all(
    Object.entries(files).map(async ([path, text]) => ({ path, text, hash: await hashText(text) })),
  );
  const texts = new Map(hashed.map(({ hash, text }) => [hash, text]));
  const { results } = await database
    .prepare("SELECT hash FROM texts WHERE hash IN (SELECT value FROM json_each(?1))")
    .bind(JSON.stringify([...texts.keys()]))
    .all<{ hash: string }>();
  for (const { hash } of results) texts.delete(hash);
  const statements = cutIntoPieces([...texts]).map((piece) =>
    database
      .prepare("INSERT OR IGNORE INTO texts (hash, text) SELECT value ->> 0, value ->> 1 FROM json_each(?1)")
      .bind(JSON.stringify(piece)),
  );
  if (statements.length > 0) await database.batch(statements);
  return Object.fromEntries(hashed.map(({ path, hash }) => [path, hash]));
}

function cutIntoPieces(texts: readonly [hash: string, text: string][]): [string, string][][] {
  const pieces: [string, string][][] = [];
  let size = Number.POSITIVE_INFINITY;
  for (const pair of texts) {
    const length = JSON.stringify(pair).length;
    if (size + length > PIECE) {
      pieces.push([]);
      size = 0;
    }
    pieces.at(-1)?.push(pair);
    size += length;
  }
  return pieces;
}

/** The files of an edition; null when it was stored without them. */
export async function readFolder(database: D1Database, edition: number): Promise<Files | null> {
  const { results } = await database
    .prepare(
      "SELECT e.path, t.text FROM edition_files e JOIN texts t ON t.hash = e.hash WHERE e.edition = ?1 ORDER BY e.path",
    )
    .bind(edition)
    .all<{ path: string; text: string }>();
  if (results.length === 0) return null;
  return Object.fromEntries(results.map(({ path, text }) => [path, text]));
}
