/** The files of a draft as they are: the floor under all forms, and the resource that scripts save to. */
import { Hono } from "hono";
import { bodyLimit } from "hono/body-limit";
import type { PrivateSetting } from "../setting.ts";
import { isKnown, judgeConditions, tagOf } from "./conditional.ts";
import { DraftFrame, hrefTo, hrefToFile } from "./draft-frame.tsx";
import {
  type Draft,
  type DraftFile,
  findDraft,
  listDraftPaths,
  readDraftFile,
  type Saved,
  saveDraftFile,
} from "./drafts.ts";
import { editorWords, sayTime } from "./editor-words.ts";
import { isContentPath } from "./paths.ts";
import { databaseOf, makeId, type RoomContext, readForm, showPage, showSentence, textOf } from "./room.tsx";

/** A text of the greatest length in the widest script, written as a form writes it. */
const LONGEST_BODY = 3_000_000;

export function makeFileRoutes() {
  const routes = new Hono<PrivateSetting>();
  const limit = bodyLimit({
    maxSize: LONGEST_BODY,
    onError: (c) => c.json({ sentence: editorWords.tooLong }, 413),
  });
  routes.get("/:id/files", listFiles);
  routes.get("/:id/file", showFile);
  routes.post("/:id/file", limit, saveForm);
  routes.get("/:id/files/:path{.+}", sendFile);
  routes.put("/:id/files/:path{.+}", limit, putFile);
  routes.delete("/:id/files/:path{.+}", putFile);
  return routes;
}

async function listFiles(c: RoomContext): Promise<Response> {
  const [draft, paths] = await Promise.all([
    findDraft(databaseOf(c), c.req.param("id") ?? ""),
    listDraftPaths(databaseOf(c), c.req.param("id") ?? ""),
  ]);
  if (draft === null) return showSentence(c, 404, "Files", editorWords.gone);
  const sought = (c.req.query("q") ?? "").trim().toLowerCase().slice(0, 80);
  const found = paths.filter(({ path }) => path.includes(sought));
  return showPage(c, {
    title: draft.title,
    children: (
      <DraftFrame draft={draft} part="files">
        <section>
          <h2 class="lt-prompt">Files</h2>
          <SearchForm label="Find a file by its name" value={sought} />
          <p class="ed-faint" role="status">{`${found.length} of ${paths.length} files`}</p>
          <ul class="ed-list">
            {found.map(({ path, isChanged, isOut }) => (
              <li class="ed-row">
                <a class="lt-link" href={hrefToFile(draft.id, path)}>
                  {path}
                </a>
                {isChanged && <span class="ed-mark">{isOut ? "taken out" : "changed"}</span>}
              </li>
            ))}
          </ul>
        </section>
        {draft.closedAt === null && (
          <section class="lt-section">
            <h3>A new file</h3>
            <form method="get" action={hrefTo(draft.id, "file")}>
              <label class="lt-label" for="path">
                Its path, such as questions/leaf-smell.md
              </label>
              <input class="lt-input" id="path" name="path" required maxlength={120} />
              <p class="lt-actions">
                <button class="lt-button lt-button-plain" type="submit">
                  Begin the file
                </button>
              </p>
            </form>
          </section>
        )}
      </DraftFrame>
    ),
  });
}

export function SearchForm({
  label,
  value,
  carried = [],
}: {
  label: string;
  value: string;
  carried?: [string, string][];
}) {
  return (
    <form method="get">
      {carried.map(([name, text]) => (
        <input type="hidden" name={name} value={text} />
      ))}
      <label class="lt-label" for="q">
        {label}
      </label>
      <div class="lt-actions">
        <input class="lt-input" id="q" type="search" name="q" value={value} maxlength={80} />
        <button class="lt-button lt-button-plain" type="submit">
          Find
        </button>
      </div>
    </form>
  );
}

async function showFile(c: RoomContext): Promise<Response> {
  const found = await findFile(c, c.req.query("path") ?? "");
  if ("refused" in found) return found.refused;
  return showEditor(c, found.draft, found.file, { text: found.file.text ?? "", status: 200 });
}

type Found = { draft: Draft; file: DraftFile } | { refused: Response };

async function findFile(c: RoomContext, path: string): Promise<Found> {
  const database = databaseOf(c);
  const id = c.req.param("id") ?? "";
  if (!isContentPath(path)) {
    const sentence = "A file's path is small letters, digits and dashes, and ends in .md, .yaml or .svg.";
    return { refused: await showSentence(c, 404, "No such file", sentence, [hrefTo(id, "files"), "Files"]) };
  }
  const [draft, file] = await Promise.all([findDraft(database, id), readDraftFile(database, id, path)]);
  if (draft === null || file === null)
    return { refused: await showSentence(c, 404, "Draft", editorWords.gone) };
  return { draft, file };
}

interface Editing {
  /** What stands in the field: what was typed, whatever became of it. */
  text: string;
  status: 200 | 409 | 412 | 413;
  sentence?: string;
  /** What someone else saved meanwhile. */
  other?: DraftFile;
}

function showEditor(c: RoomContext, draft: Draft, file: DraftFile, editing: Editing): Promise<Response> {
  const isOpen = draft.closedAt === null;
  return showPage(c, {
    title: file.path,
    status: editing.status,
    script: "/assets/editor/room.js",
    children: (
      <DraftFrame draft={draft} part="files">
        {editing.sentence && (
          <p class="lt-problem" role="alert">
            {editing.sentence}
          </p>
        )}
        <section>
          <form
            method="post"
            action={hrefTo(draft.id, "file")}
            data-file={`${hrefTo(draft.id, "files")}/${file.path}`}
            data-tag={tagOf(file) ?? ""}
            data-watch={hrefTo(draft.id)}
            data-watched={JSON.stringify({ file: file.path, fields: null })}
          >
            <input type="hidden" name="path" value={file.path} />
            <input type="hidden" name="tag" value={tagOf(editing.other ?? file) ?? ""} />
            <div class="ed-both">
              <div>
                <label class="lt-label" for="text">
                  {editing.other ? "Your text" : "Text of the file"}
                </label>
                <textarea class="ed-area" id="text" name="text" spellcheck={false} readonly={!isOpen}>
                  {`\n${editing.text}`}
                </textarea>
              </div>
              {editing.other && <OtherText file={editing.other} />}
            </div>
            <p class="ed-status" id="status" role="status" />
            <p class="ed-faint">
              {file.savedBy === null || file.savedAt === null
                ? "As in the base."
                : `Last saved by ${file.savedBy}, ${sayTime(file.savedAt)}.`}
            </p>
            {isOpen && (
              <p class="lt-actions">
                <button class="lt-button" type="submit">
                  {editing.other ? "Save my text over it" : "Save"}
                </button>
                {file.text !== null && (
                  <button class="lt-button lt-button-plain" type="submit" name="take-out" value="yes">
                    Take this file out
                  </button>
                )}
              </p>
            )}
          </form>
        </section>
        {file.baseText !== null && file.baseText !== file.text && (
          <details class="lt-aside">
            <summary>{`As in edition ${draft.base}`}</summary>
            <pre class="ed-pre" tabindex={0}>
              {file.baseText}
            </pre>
          </details>
        )}
      </DraftFrame>
    ),
  });
}

function OtherText({ file }: { file: DraftFile }) {
  return (
    <div>
      <p class="lt-label">{`Saved meanwhile by ${file.savedBy ?? "someone"}`}</p>
      <pre class="ed-pre" tabindex={0} id="other">
        {file.text ?? "The file was taken out."}
      </pre>
    </div>
  );
}

/** Saves from the form. What was typed comes back whatever happens. */
async function saveForm(c: RoomContext): Promise<Response> {
  const form = await readForm(c);
  const found = await findFile(c, textOf(form, "path"));
  if ("refused" in found) return found.refused;
  const { draft, file } = found;
  const typed = textOf(form, "text");
  const text = form["take-out"] === "yes" ? null : keepLineEnds(typed, file.text);
  const tag = textOf(form, "tag");
  const sees = judgeConditions(
    tagOf(file),
    tag === "" ? { ifMatch: undefined, ifNoneMatch: "*" } : { ifMatch: tag, ifNoneMatch: undefined },
  );
  const saved: Saved =
    sees === "go"
      ? await saveDraftFile(databaseOf(c), {
          ...{ draft: draft.id, seen: file, text, token: makeId(c), who: c.var.person, now: c.var.now },
        })
      : { ok: false, because: "changed", current: file };
  if (saved.ok) return c.redirect(hrefToFile(draft.id, file.path), 303);
  if (saved.because === "changed") {
    const sentence = `Someone else saved this file since you opened it. Nothing of yours is lost: both texts stand below.`;
    return showEditor(c, draft, file, { text: typed, status: 412, sentence, other: saved.current });
  }
  const [status, sentence] =
    saved.because === "too-long" ? [413 as const, editorWords.tooLong] : [409 as const, editorWords.closed];
  return showEditor(c, draft, file, { text: typed, status, sentence });
}

/** A form sends its own line ends; a file keeps the ones it has. */
function keepLineEnds(text: string, before: string | null): string {
  return before?.includes("\r\n") ? text.replaceAll("\n", "\r\n") : text;
}

async function sendFile(c: RoomContext): Promise<Response> {
  const file = await readDraftFile(databaseOf(c), c.req.param("id") ?? "", c.req.param("path") ?? "");
  const tag = file && tagOf(file);
  if (file === null || file.text === null || tag === null)
    return c.json({ sentence: "There is no such file." }, 404);
  c.header("ETag", tag);
  c.header("Cache-Control", "private, no-cache");
  if (isKnown(tag, c.req.header("if-none-match"))) return c.body(null, 304);
  return c.body(file.text, 200, { "Content-Type": "text/plain; charset=utf-8" });
}

/**
 * PUT saves a file and DELETE takes it out, on the condition that the sender saw the latest state: If-Match with its tag,
 * or If-None-Match: * for a new file. Else 412 with what stands there now, or 428 without a condition.
 */
async function putFile(c: RoomContext): Promise<Response> {
  const path = c.req.param("path") ?? "";
  const id = c.req.param("id") ?? "";
  if (!isContentPath(path)) return c.json({ sentence: "A file cannot have this path." }, 404);
  const file = await readDraftFile(databaseOf(c), id, path);
  if (file === null) return c.json({ sentence: editorWords.gone }, 404);
  const conditions = { ifMatch: c.req.header("if-match"), ifNoneMatch: c.req.header("if-none-match") };
  const sees = judgeConditions(tagOf(file), conditions);
  if (sees === 428) return c.json({ sentence: "Say with If-Match which state you saw." }, 428);
  if (sees === 412) return sendConflict(c, file);
  if (c.req.method === "DELETE" && file.text === null)
    return c.json({ sentence: "There is no such file." }, 404);
  const text = c.req.method === "DELETE" ? null : await c.req.text();
  const saved = await saveDraftFile(databaseOf(c), {
    ...{ draft: id, seen: file, text, token: makeId(c), who: c.var.person, now: c.var.now },
  });
  if (!saved.ok) {
    if (saved.because === "changed") return sendConflict(c, saved.current);
    if (saved.because === "too-long") return c.json({ sentence: editorWords.tooLong }, 413);
    return c.json({ sentence: editorWords.closed }, 409);
  }
  const tag = tagOf(saved.file);
  if (tag !== null) c.header("ETag", tag);
  return c.body(null, file.text === null ? 201 : 204);
}

/** The other version; the sender has his own. */
function sendConflict(c: RoomContext, file: DraftFile): Response {
  const tag = tagOf(file);
  if (tag !== null) c.header("ETag", tag);
  const { text, savedBy, savedAt } = file;
  return c.json(
    { sentence: "Someone else saved this meanwhile.", current: { text, tag, savedBy, savedAt } },
    412,
  );
}
