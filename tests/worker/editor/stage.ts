import { env } from "cloudflare:test";
import { readContent } from "../../../flows/content/read-content.ts";
import type { Edition } from "../../../flows/edition.ts";
import {
  type DraftFile,
  makeDraft,
  readDraftFile,
  readWholeDraft,
  saveDraftFile,
} from "../../../worker/editor/drafts.ts";
import { prepareFirst, publishDraft } from "../../../worker/editor/publish.ts";
import files from "../../../worker/generated/content.json";
import edition from "../../../worker/generated/edition.json";
import { hashEdition } from "../../../worker/hash-edition.ts";

export const ada = { id: "a1", name: "Ada Fern" };
export const ben = { id: "b2", name: "Ben Moss" };
export const bundled = { edition, files };

let count = 0;
/** Unlike any other of this run. */
export function makeId(): string {
  return `id-${++count}`;
}

/** A database with the bundled edition live and a draft of it. */
export async function openDraft(base = edition.number, database: D1Database = env.DB): Promise<string> {
  await prepareFirst(env.DB, bundled, 1_000);
  await addPeople();
  const id = makeId();
  await makeDraft(database, { id, title: "Spring", base, who: ada, now: 2_000, why: "" });
  return id;
}

async function addPeople(): Promise<void> {
  await env.DB.batch(
    [ada, ben].map(({ id, name }) =>
      env.DB.prepare(
        "INSERT OR IGNORE INTO people (id, name, roles, created_at) VALUES (?1, ?2, ' editor publisher ', 0)",
      ).bind(id, name),
    ),
  );
}

export async function seeFile(
  draft: string,
  path: string,
  database: D1Database = env.DB,
): Promise<DraftFile> {
  const file = await readDraftFile(database, draft, path);
  if (file === null) throw new Error(`No draft ${draft}.`);
  return file;
}

/** Saves and expects it to be taken. */
export async function write(draft: string, path: string, text: string | null): Promise<DraftFile> {
  const seen = await seeFile(draft, path);
  const saved = await saveDraftFile(env.DB, { draft, seen, text, token: makeId(), who: ada, now: 3_000 });
  if (!saved.ok) throw new Error(saved.because);
  return saved.file;
}

export async function compile(draft: string): Promise<Edition> {
  const whole = await readWholeDraft(env.DB, draft);
  const read = readContent(whole?.files ?? {});
  if (read.edition === null) throw new Error(JSON.stringify(read.problems));
  return { ...read.edition, hash: await hashEdition(read.edition) };
}

/** Publishes a draft as it stands. */
export async function publishNow(draft: string, database: D1Database = env.DB) {
  const whole = await readWholeDraft(env.DB, draft);
  if (whole === null) throw new Error("no draft");
  const compiled = await compile(draft);
  return publishDraft(database, {
    ...{ whole, edition: compiled, note: "a note", summary: "{}", token: makeId(), who: ada, now: 4_000 },
  });
}
