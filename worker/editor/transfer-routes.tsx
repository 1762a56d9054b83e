/** Folders in and out, as zips. */
import { Hono } from "hono";
import { bodyLimit } from "hono/body-limit";
import { packFolder, unpackFolder } from "../../flows/editing/folder-zip.ts";
import type { PrivateSetting } from "../setting.ts";
import { hrefTo } from "./draft-frame.tsx";
import { showDrafts } from "./draft-routes.tsx";
import { LONGEST_TEXT, makeDraft, readTitle, readWholeDraft } from "./drafts.ts";
import { editorWords } from "./editor-words.ts";
import { readFolder } from "./folders.ts";
import { isContentPath } from "./paths.ts";
import { readLiveNumber } from "./publish.ts";
import { databaseOf, makeId, type RoomContext, readForm, showSentence, textOf } from "./room.tsx";

const LARGEST_ZIP = 8 * 1024 * 1024;

export function makeTransferRoutes() {
  const routes = new Hono<PrivateSetting>();
  const limit = bodyLimit({
    maxSize: LARGEST_ZIP,
    onError: (c) =>
      showDrafts(c as RoomContext, { status: 413, sentence: "This file is larger than any folder of ours." }),
  });
  routes.get("/editions/:number{[0-9]{1,6}}/folder.zip", async (c) => {
    const files = await readFolder(databaseOf(c), Number(c.req.param("number")));
    if (files === null) return showSentence(c, 404, "Folder", "This edition was stored without its files.");
    return sendZip(c, files, `edition-${c.req.param("number")}`);
  });
  routes.get("/drafts/:id/folder.zip", async (c) => {
    const whole = await readWholeDraft(databaseOf(c), c.req.param("id"));
    if (whole === null) return showSentence(c, 404, "Draft", editorWords.gone);
    return sendZip(c, whole.files, `draft-${whole.draft.id}`);
  });
  routes.post("/import", limit, takeIn);
  return routes;
}

function sendZip(c: RoomContext, files: Readonly<Record<string, string>>, name: string): Response {
  return c.body(new Uint8Array(packFolder(files)), 200, {
    "Content-Type": "application/zip",
    "Content-Disposition": `attachment; filename="leafturn-${name}.zip"`,
  });
}

/** A zip becomes a draft of the live edition, in which everything is as in the zip. */
async function takeIn(c: RoomContext): Promise<Response> {
  const form = await readForm(c);
  const title = readTitle(textOf(form, "title"));
  if (title === null) return showDrafts(c, { status: 422, sentence: editorWords.titleBad });
  if (!(form.zip instanceof File))
    return showDrafts(c, { status: 422, sentence: "Please choose a zip file.", title });
  const { files, problems } = unpackFolder(new Uint8Array(await form.zip.arrayBuffer()));
  const [problem] = problems;
  if (problem) return showDrafts(c, { status: 422, sentence: sayProblem(problem), title });
  const strange = Object.keys(files).find((path) => !isContentPath(path));
  if (strange !== undefined)
    return showDrafts(c, {
      status: 422,
      sentence: `The zip holds a file that has no place here: ${strange}`,
      title,
    });
  if (Object.values(files).some((text) => text.length > LONGEST_TEXT))
    return showDrafts(c, { status: 422, sentence: editorWords.tooLong, title });
  const database = databaseOf(c);
  const base = await readLiveNumber(database);
  const before = (await readFolder(database, base)) ?? {};
  const changes: Record<string, string | null> = Object.fromEntries(
    Object.entries(files).filter(([path, text]) => before[path] !== text),
  );
  for (const path of Object.keys(before)) if (!Object.hasOwn(files, path)) changes[path] = null;
  const id = makeId(c);
  await makeDraft(database, {
    id,
    title,
    base,
    changes,
    who: c.var.person,
    now: c.var.now,
    why: `${title} (from a zip)`,
  });
  return c.redirect(hrefTo(id), 303);
}

function sayProblem({ path, sentence }: { path: string; sentence: string }): string {
  return path === "" ? sentence : `${path}: ${sentence}`;
}
