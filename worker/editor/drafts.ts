/** Drafts: an edition's files with changes laid over them, saved as they are typed. */
import type { Files } from "../../flows/content/read-files.ts";
import { noteHistory, type Who } from "./history.ts";
import { findSplice } from "./splice.ts";

/** Longest text of one file, in characters: what the reader of content takes, and well below what a row may hold. */
export const LONGEST_TEXT = 262_144;
const LONGEST_TITLE = 120;

export interface Draft {
  id: string;
  title: string;
  /** The edition that it changes. */
  base: number;
  /** Counts every change. */
  revision: number;
  madeBy: string;
  /** Milliseconds. */
  madeAt: number;
  changedAt: number;
  closedAt: number | null;
  publishedAs: number | null;
}

/** One file as it stands in a draft. */
export interface DraftFile {
  path: string;
  /** Null when the draft has no such file. */
  text: string | null;
  /** Saves of it in this draft; 0 while it is as in the base. */
  version: number;
  /** The text in the base, and which edition that is. */
  base: number;
  baseText: string | null;
  savedBy: string | null;
  savedAt: number | null;
}

const COLUMNS = `id, title, base, revision, (SELECT name FROM people WHERE people.id = made_by) AS madeBy, made_at AS madeAt,
  changed_at AS changedAt, closed_at AS closedAt, published_as AS publishedAs`;

/** A title as it may be stored. */
export function readTitle(text: string): string | null {
  const title = text.toWellFormed().normalize("NFC").replace(/\s+/g, " ").trim();
  return title === "" || title.length > LONGEST_TITLE || /\p{Cc}/u.test(title) ? null : title;
}

interface NewDraft {
  id: string;
  title: string;
  base: number;
  /** Files that differ from the base from the start, as after an import; null takes one out. */
  changes?: Readonly<Record<string, string | null>>;
  who: Who;
  now: number;
  why: string;
}

export async function makeDraft(database: D1Database, draft: NewDraft): Promise<void> {
  const { id, title, base, changes = {}, who, now, why } = draft;
  await database.batch([
    database
      .prepare(
        "INSERT INTO drafts (id, title, base, made_by, made_at, changed_at) VALUES (?1, ?2, ?3, ?4, ?5, ?5)",
      )
      .bind(id, title, base, who.id, now),
    ...Object.entries(changes).map(([path, text]) =>
      database
        .prepare(
          "INSERT INTO draft_files (draft, path, text, version, saved_by, saved_at) VALUES (?1, ?2, ?3, 1, ?4, ?5)",
        )
        .bind(id, path, text, who.id, now),
    ),
    noteHistory(database, { at: now, who, what: "draft-made", subject: id, why }),
  ]);
}

export async function listDrafts(database: D1Database): Promise<Draft[]> {
  const { results } = await database
    .prepare(`SELECT ${COLUMNS} FROM drafts ORDER BY closed_at IS NOT NULL, changed_at DESC, id LIMIT 200`)
    .all<Draft>();
  return results;
}

export async function findDraft(database: D1Database, id: string): Promise<Draft | null> {
  return database.prepare(`SELECT ${COLUMNS} FROM drafts WHERE id = ?1`).bind(id).first<Draft>();
}

const FILE = `SELECT ?2 AS path, d.base AS base, COALESCE(f.version, 0) AS version, t.text AS baseText,
  CASE WHEN f.version IS NULL THEN t.text ELSE f.text END AS text,
  (SELECT name FROM people WHERE people.id = f.saved_by) AS savedBy, f.saved_at AS savedAt
  FROM drafts d LEFT JOIN draft_files f ON f.draft = d.id AND f.path = ?2
  LEFT JOIN edition_files e ON e.edition = d.base AND e.path = ?2 LEFT JOIN texts t ON t.hash = e.hash
  WHERE d.id = ?1`;

/** Null when there is no such draft. */
export async function readDraftFile(
  database: D1Database,
  draft: string,
  path: string,
): Promise<DraftFile | null> {
  return database.prepare(FILE).bind(draft, path).first<DraftFile>();
}

/** A draft with all that it holds, from one moment. */
export interface WholeDraft {
  draft: Draft;
  base: Files;
  files: Files;
  /** The files that were saved in the draft, with their versions. */
  versions: Readonly<Record<string, number>>;
}

export async function readWholeDraft(database: D1Database, id: string): Promise<WholeDraft | null> {
  const [drafts, bases, laid] = await database.batch([
    database.prepare(`SELECT ${COLUMNS} FROM drafts WHERE id = ?1`).bind(id),
    database
      .prepare(
        "SELECT e.path, t.text FROM drafts d JOIN edition_files e ON e.edition = d.base JOIN texts t ON t.hash = e.hash WHERE d.id = ?1",
      )
      .bind(id),
    database.prepare("SELECT path, text, version FROM draft_files WHERE draft = ?1").bind(id),
  ]);
  const draft = (drafts?.results as Draft[] | undefined)?.[0];
  if (draft === undefined) return null;
  const base = Object.fromEntries(
    ((bases?.results ?? []) as { path: string; text: string }[]).map(({ path, text }) => [path, text]),
  );
  const changed = (laid?.results ?? []) as { path: string; text: string | null; version: number }[];
  return {
    draft,
    base,
    files: layOver(base, Object.fromEntries(changed.map(({ path, text }) => [path, text]))),
    versions: Object.fromEntries(changed.map(({ path, version }) => [path, version])),
  };
}

/** Files with others laid over them; null takes one out. */
function layOver(base: Files, changes: Readonly<Record<string, string | null>>): Files {
  const all = Object.entries({ ...base, ...changes });
  return Object.fromEntries(all.flatMap(([path, text]) => (text === null ? [] : [[path, text]])));
}

/** The paths that a draft holds, and which of them it changed. */
export async function listDraftPaths(
  database: D1Database,
  draft: string,
): Promise<{ path: string; isChanged: boolean; isOut: boolean }[]> {
  const { results } = await database
    .prepare(
      `SELECT path, MAX(changed) AS changed, MAX(out) AS out FROM (
        SELECT e.path, 0 AS changed, 0 AS out FROM drafts d JOIN edition_files e ON e.edition = d.base WHERE d.id = ?1
        UNION ALL SELECT path, 1, text IS NULL FROM draft_files WHERE draft = ?1
      ) GROUP BY path ORDER BY path`,
    )
    .bind(draft)
    .all<{ path: string; changed: number; out: number }>();
  return results.map(({ path, changed, out }) => ({ path, isChanged: changed === 1, isOut: out === 1 }));
}

interface Save {
  draft: string;
  /** The file as the writer saw it. */
  seen: DraftFile;
  /** Null takes the file out. */
  text: string | null;
  /** Unlike any other save's. */
  token: string;
  who: Who;
  now: number;
}

export type Saved =
  | { ok: true; file: DraftFile }
  /** Someone saved in between. */
  | { ok: false; because: "changed"; current: DraftFile }
  | { ok: false; because: "closed" | "gone" | "too-long" };

/** Holds only while the draft is open and the file is as the writer saw it. */
const STILL = `FROM drafts d WHERE d.id = ?1 AND d.closed_at IS NULL AND d.base = ?4
  AND COALESCE((SELECT version FROM draft_files WHERE draft = ?1 AND path = ?2), 0) = ?3`;
const TAKEN = "EXISTS (SELECT 1 FROM saves WHERE token = ?1)";

/** Saves one file, unless someone else saved it since the writer saw it. A save is taken whole or not at all. */
export async function saveDraftFile(database: D1Database, save: Save): Promise<Saved> {
  const { draft, seen, token, who, now } = save;
  const text = save.text?.toWellFormed() ?? null;
  if (text !== null && text.length > LONGEST_TEXT) return { ok: false, because: "too-long" };
  const { start, removed, added } = findSplice(seen.text ?? "", text ?? "");
  const [taken] = await database.batch([
    database
      .prepare(
        `INSERT INTO saves (draft, path, version, token, start, removed, added, was, "is", who, at)
         SELECT ?1, ?2, ?3 + 1, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12 ${STILL}`,
      )
      .bind(
        ...[draft, seen.path, seen.version, seen.base, token, start, removed, added],
        ...[Number(seen.text !== null), Number(text !== null), who.id, now],
      ),
    database
      .prepare(
        `INSERT INTO draft_files (draft, path, text, version, saved_by, saved_at)
         SELECT draft, path, ?2, version, who, at FROM saves WHERE token = ?1
         ON CONFLICT (draft, path) DO UPDATE SET text = excluded.text, version = excluded.version,
           saved_by = excluded.saved_by, saved_at = excluded.saved_at`,
      )
      .bind(token, text),
    database
      .prepare(`UPDATE drafts SET revision = revision + 1, changed_at = ?3 WHERE id = ?2 AND ${TAKEN}`)
      .bind(token, draft, now),
  ]);
  if (taken?.meta.changes === 1) {
    const version = seen.version + 1;
    return { ok: true, file: { ...seen, text, version, savedBy: who.name, savedAt: now } };
  }
  return explainRefusal(database, draft, seen.path);
}

async function explainRefusal(database: D1Database, id: string, path: string): Promise<Saved> {
  const draft = await findDraft(database, id);
  if (draft === null) return { ok: false, because: "gone" };
  if (draft.closedAt !== null) return { ok: false, because: "closed" };
  const current = await readDraftFile(database, id, path);
  return current ? { ok: false, because: "changed", current } : { ok: false, because: "gone" };
}

/** Closes a draft or opens it again; one that was published stays closed. Gives whether anything changed. */
export async function closeDraft(
  database: D1Database,
  { id, isOpen, who, now, why }: { id: string; isOpen: boolean; who: Who; now: number; why: string },
): Promise<boolean> {
  const [closed] = await database.batch([
    database
      .prepare(
        `UPDATE drafts SET closed_at = ?2, revision = revision + 1, changed_at = ?3
         WHERE id = ?1 AND published_as IS NULL AND (closed_at IS NULL) <> ?4`,
      )
      .bind(id, isOpen ? null : now, now, Number(isOpen)),
    noteHistory(database, {
      ...{ at: now, who, subject: id, why },
      what: isOpen ? "draft-opened" : "draft-closed",
      ifChanged: true,
    }),
  ]);
  return closed?.meta.changes === 1;
}

interface Move {
  draft: Draft;
  /** The edition that is live now. */
  to: number;
  who: Who;
  now: number;
}

/** Lays the draft's changes over another edition, if neither the draft nor the live edition moved meanwhile. */
export async function moveDraft(database: D1Database, { draft, to, who, now }: Move): Promise<boolean> {
  const [moved] = await database.batch([
    database
      .prepare(
        `UPDATE drafts SET base = ?2, revision = revision + 1, changed_at = ?3
         WHERE id = ?1 AND revision = ?4 AND closed_at IS NULL AND (SELECT number FROM live) = ?2`,
      )
      .bind(draft.id, to, now, draft.revision),
    noteHistory(database, {
      ...{ at: now, who, what: "draft-moved", subject: draft.id, ifChanged: true },
      why: `From edition ${draft.base} to edition ${to}.`,
    }),
  ]);
  return moved?.meta.changes === 1;
}
