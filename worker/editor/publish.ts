/** Publishing: a draft becomes the next edition, and an earlier edition becomes the live one again. */
import type { Edition } from "../../flows/edition.ts";
import type { WholeDraft } from "./drafts.ts";
import { storeTexts } from "./folders.ts";
import type { Who } from "./history.ts";

/** Characters of a body in one row; a row may have 2,000,000 bytes, and a character takes up to three. */
const PART = 600_000;
export const LONGEST_NOTE = 2_000;

/** The live edition's number, also while the database names none. */
const LIVE = "COALESCE((SELECT number FROM live), 0)";

export interface Publication {
  id: number;
  kind: "publish" | "take-back";
  edition: number;
  /** What was live until then. */
  before: number;
  draft: string | null;
  whoName: string;
  /** Milliseconds. */
  at: number;
  note: string;
  /** JSON, as it was given. */
  summary: string;
}

interface Publishing {
  whole: WholeDraft;
  /** Compiled from the files of the draft. */
  edition: Edition;
  note: string;
  summary: string;
  /** Unlike that of any other move of the pointer. */
  token: string;
  who: Who;
  now: number;
}

export type Published =
  | { ok: true; number: number }
  /** Another edition went live, or the draft was changed, since they were looked at. */
  | { ok: false; because: "live-moved" | "draft-moved" };

/**
 * Everything or nothing: the edition, its files, the live pointer and the records are one transaction. It happens only if
 * the live edition is still the draft's base, and the draft is as it was when it was compiled.
 */
export async function publishDraft(database: D1Database, publishing: Publishing): Promise<Published> {
  const { whole, edition, note, summary, token, who, now } = publishing;
  const { id, base, revision } = whole.draft;
  const folder = await storeTexts(database, whole.files);
  const [moved] = await database.batch<{ edition: number }>([
    database
      .prepare(
        `INSERT INTO publications (token, kind, edition, before, draft, who, at, note, summary)
         SELECT ?1, 'publish', (SELECT MAX(number) + 1 FROM editions), ${LIVE}, ?2, ?5, ?6, ?7, ?8
         FROM drafts WHERE id = ?2 AND revision = ?3 AND closed_at IS NULL AND ${LIVE} = ?4
         RETURNING edition`,
      )
      .bind(token, id, revision, base, who.id, now, note, summary),
    ...storeEdition(database, token, edition, new Date(now).toISOString(), note),
    database
      .prepare(
        `INSERT INTO edition_files (edition, path, hash)
         SELECT p.edition, f.key, f.value FROM publications p, json_each(?2) f WHERE p.token = ?1`,
      )
      .bind(token, JSON.stringify(folder)),
    pointLive(database, token),
    database
      .prepare(
        `UPDATE drafts SET closed_at = ?2, changed_at = ?2, published_as = (SELECT edition FROM publications WHERE token = ?1)
         WHERE id = (SELECT draft FROM publications WHERE token = ?1)`,
      )
      .bind(token, now),
    notePublication(database, token, "published", who, now, note),
  ]);
  const number = moved?.results[0]?.edition;
  if (number !== undefined) return { ok: true, number };
  return { ok: false, because: (await readLiveNumber(database)) === base ? "draft-moved" : "live-moved" };
}

function storeEdition(
  database: D1Database,
  token: string,
  edition: Edition,
  publishedAt: string,
  note: string,
): D1PreparedStatement[] {
  const parts = cutBody(JSON.stringify({ ...edition, number: 0, hash: "" }));
  const body = parts.length === 1 ? (parts[0] ?? "") : "";
  return [
    database
      .prepare(
        `INSERT INTO editions (number, hash, body, note, published_at)
         SELECT edition, ?2, ?3, ?4, ?5 FROM publications WHERE token = ?1`,
      )
      .bind(token, edition.hash, body, note, publishedAt),
    ...(parts.length === 1 ? [] : parts).map((part, index) =>
      database
        .prepare(
          "INSERT INTO edition_parts (edition, part, body) SELECT edition, ?2, ?3 FROM publications WHERE token = ?1",
        )
        .bind(token, index, part),
    ),
  ];
}

/** Pieces that fit into a row; a pair of surrogates is never cut. */
export function cutBody(body: string, most = PART): string[] {
  return body.match(new RegExp(`[^]{1,${most}}`, "gu")) ?? [""];
}

function pointLive(database: D1Database, token: string): D1PreparedStatement {
  return database
    .prepare(
      `INSERT INTO live (one, number) SELECT 1, edition FROM publications WHERE token = ?1
       ON CONFLICT (one) DO UPDATE SET number = excluded.number`,
    )
    .bind(token);
}

function notePublication(
  database: D1Database,
  token: string,
  what: "published" | "taken-back",
  who: Who,
  now: number,
  why: string,
): D1PreparedStatement {
  return database
    .prepare(
      `INSERT INTO history (at, who, who_name, what, subject, why)
       SELECT ?2, ?3, ?4, ?5, CAST(edition AS TEXT), ?6 FROM publications WHERE token = ?1`,
    )
    .bind(token, now, who.id, who.name, what, why);
}

interface TakingBack {
  /** The edition that shall be live again. */
  to: number;
  /** The one that was live when this was decided. */
  seen: number;
  note: string;
  token: string;
  who: Who;
  now: number;
}

/** One move of the pointer; the edition itself was never touched. False when the live edition is another than was seen. */
export async function takeBack(
  database: D1Database,
  { to, seen, note, token, who, now }: TakingBack,
): Promise<boolean> {
  const [moved] = await database.batch([
    database
      .prepare(
        `INSERT INTO publications (token, kind, edition, before, draft, who, at, note, summary)
         SELECT ?1, 'take-back', number, ${LIVE}, NULL, ?4, ?5, ?6, '{}'
         FROM editions WHERE number = ?2 AND number <> ${LIVE} AND ${LIVE} = ?3`,
      )
      .bind(token, to, seen, who.id, now, note),
    pointLive(database, token),
    notePublication(database, token, "taken-back", who, now, note),
  ]);
  return moved?.meta.changes === 1;
}

/** 0 while the database names none. */
export async function readLiveNumber(database: D1Database): Promise<number> {
  return (await database.prepare(`SELECT ${LIVE} AS number`).first<number>("number")) ?? 0;
}

/** The newest first. */
export async function listPublications(database: D1Database): Promise<Publication[]> {
  const { results } = await database
    .prepare(
      `SELECT id, kind, edition, before, draft, (SELECT name FROM people WHERE people.id = who) AS whoName, at, note, summary
       FROM publications ORDER BY id DESC LIMIT 200`,
    )
    .all<Publication>();
  return results;
}

export interface Listed {
  number: number;
  hash: string;
  note: string;
  publishedAt: string;
  isLive: boolean;
  hasFiles: boolean;
}

/** Every edition, the newest first. */
export async function listEditions(database: D1Database): Promise<Listed[]> {
  const { results } = await database
    .prepare(
      `SELECT number, hash, note, published_at AS publishedAt, number = ${LIVE} AS isLive,
       EXISTS (SELECT 1 FROM edition_files WHERE edition = number) AS hasFiles FROM editions ORDER BY number DESC`,
    )
    .all<Omit<Listed, "isLive" | "hasFiles"> & { isLive: number; hasFiles: number }>();
  return results.map((row) => ({ ...row, isLive: row.isLive === 1, hasFiles: row.hasFiles === 1 }));
}

/** The bundled content as it came with the program. */
export interface Bundled {
  edition: Edition;
  files: Readonly<Record<string, string>>;
}

/**
 * Makes sure that there is an edition to begin from, with its files: an empty database gets the bundled one, and the
 * bundled one gets its files. May be cut off anywhere and done again.
 */
export async function prepareFirst(
  database: D1Database,
  { edition, files }: Bundled,
  now: number,
): Promise<void> {
  const { number, hash } = edition;
  const row = await database
    .prepare(
      `SELECT (SELECT COUNT(*) FROM editions) AS editions, ${LIVE} AS live,
       EXISTS (SELECT 1 FROM editions WHERE number = ?1 AND hash = ?2) AS ours,
       EXISTS (SELECT 1 FROM edition_files WHERE edition = ?1) AS filed`,
    )
    .bind(number, hash)
    .first<{ editions: number; live: number; ours: number; filed: number }>();
  if (row === null || (row.ours === 1 && row.filed === 1 && row.live > 0)) return;
  const isEmpty = row.editions === 0;
  if (row.ours !== 1 && !isEmpty) return;
  const folder = await storeTexts(database, files);
  await database.batch([
    database
      .prepare(
        `INSERT INTO editions (number, hash, body, note, published_at)
         SELECT ?1, ?2, ?3, 'The content that came with the program.', ?4 WHERE NOT EXISTS (SELECT 1 FROM editions)`,
      )
      .bind(number, hash, JSON.stringify(edition), new Date(now).toISOString()),
    database
      .prepare("INSERT INTO live (one, number) VALUES (1, ?1) ON CONFLICT (one) DO NOTHING")
      .bind(number),
    database
      .prepare(
        `INSERT OR IGNORE INTO edition_files (edition, path, hash) SELECT ?1, key, value FROM json_each(?2)
         WHERE EXISTS (SELECT 1 FROM editions WHERE number = ?1 AND hash = ?3)`,
      )
      .bind(number, JSON.stringify(folder), hash),
  ]);
}
