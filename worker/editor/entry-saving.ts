/** Saves what a form changed: field by field, over whatever the file is by now. */
import type { Files } from "../../flows/content/read-files.ts";
import { type DraftFile, findDraft, readDraftFile, saveDraftFile } from "./drafts.ts";
import { type Clash, type Entry, layChanges, readTexts, type Texts } from "./entry-changes.ts";
import { listFields } from "./entry-fields.ts";
import { type FormKind, listFormFiles, locateForm } from "./form-kinds.ts";
import { isContentPath } from "./paths.ts";
import { databaseOf, makeId, type RoomContext } from "./room.tsx";

export interface Sent {
  kind: FormKind;
  id: string;
  /** The fields as the sender saw them, and as they are to be: those that differ are saved. */
  was: Texts;
  now: Texts;
}

export type FormSaved =
  /** `clashes`: fields that someone else changed meanwhile; the others are saved. `texts`: every field as it stands now. */
  | { ok: true; clashes: Clash[]; refused: string[]; texts: Texts }
  | { ok: false; because: "gone" | "closed" | "too-long" | "busy" };

/** Someone who saves other fields of the file in between is no reason to stop. */
const MOST_TRIES = 5;

export async function saveForm(c: RoomContext, sent: Sent): Promise<FormSaved> {
  const database = databaseOf(c);
  const id = c.req.param("id") ?? "";
  for (let turn = 0; turn < MOST_TRIES; turn++) {
    const found = await findEntry(c, sent);
    if (found === null) return { ok: false, because: "gone" };
    const { file, entry } = found;
    const laid = layChanges({ [file.path]: file.text ?? "" }, entry, sent.was, sent.now);
    const text = laid.files[file.path] ?? null;
    const { clashes, refused } = laid;
    const done = { ok: true as const, clashes, refused, texts: readTexts(laid.files, entry, listTold(sent)) };
    if (text === file.text) return (await isClosed(database, id)) ? { ok: false, because: "closed" } : done;
    const saved = await saveDraftFile(database, {
      ...{ draft: id, seen: file, text, token: makeId(c), who: c.var.person, now: c.var.now },
    });
    if (saved.ok) return done;
    if (saved.because !== "changed") return { ok: false, because: saved.because };
  }
  return { ok: false, because: "busy" };
}

async function isClosed(database: D1Database, id: string): Promise<boolean> {
  const draft = await findDraft(database, id);
  return draft === null || draft.closedAt !== null;
}

/** The findings that a form of a condition holds. */
function listTold({ now }: Sent): string[] {
  const prefix = "evidence.";
  return Object.keys(now).flatMap((name) => (name.startsWith(prefix) ? [name.slice(prefix.length)] : []));
}

/** The entry, from no more files than it stands in. */
async function findEntry(
  c: RoomContext,
  { kind, id }: Sent,
): Promise<{ file: DraftFile; entry: Entry } | null> {
  const paths = listFormFiles(kind, id) ?? [];
  if (paths.length === 0 || !paths.every(isContentPath)) return null;
  const draft = c.req.param("id") ?? "";
  const read = await Promise.all(paths.map((path) => readDraftFile(databaseOf(c), draft, path)));
  const [file] = read;
  const files: Files = Object.fromEntries(
    read.flatMap((one) => (one && one.text !== null ? [[one.path, one.text] as const] : [])),
  );
  const address = locateForm(files, kind, id);
  if (!file || file.text === null || address === null) return null;
  return { file, entry: { kind, id, address, fields: listFields(files, kind, id, address) } };
}
