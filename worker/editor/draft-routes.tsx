/** The list of drafts, beginning and closing them, and what one changes. */
import { Hono } from "hono";
import type { PrivateSetting } from "../setting.ts";
import { ChangeList } from "./change-list.tsx";
import { DraftFrame, hrefTo } from "./draft-frame.tsx";
import { closeDraft, type Draft, listDrafts, makeDraft, readTitle, readWholeDraft } from "./drafts.ts";
import { editorWords, sayTime } from "./editor-words.ts";
import { readFolder } from "./folders.ts";
import { prepareFirst, readLiveNumber } from "./publish.ts";
import {
  databaseOf,
  makeId,
  ROOM,
  type RoomContext,
  type RoomParts,
  readForm,
  showPage,
  showSentence,
  textOf,
} from "./room.tsx";

export function makeDraftRoutes({ bundled }: RoomParts) {
  const routes = new Hono<PrivateSetting>();
  routes.get("/", async (c) => {
    await prepareFirst(databaseOf(c), bundled, c.var.now);
    return showDrafts(c);
  });
  routes.post("/drafts", begin);
  routes.get("/drafts/:id", showDraft);
  routes.post("/drafts/:id/close", (c) => close(c, false));
  routes.post("/drafts/:id/open", (c) => close(c, true));
  return routes;
}

/** `title` is what was typed, when something was wrong with it. */
export async function showDrafts(
  c: RoomContext,
  problem?: { sentence: string; title?: string; status: 409 | 422 | 413 },
): Promise<Response> {
  const database = databaseOf(c);
  const [drafts, live] = await Promise.all([listDrafts(database), readLiveNumber(database)]);
  const folder = await hasFolder(database, live);
  return showPage(c, {
    title: editorWords.drafts,
    status: problem?.status ?? 200,
    children: (
      <>
        {problem && (
          <p class="lt-problem" id="problem" role="alert">
            {problem.sentence}
          </p>
        )}
        <section>
          <p class="lt-lead">{editorWords.draftsLead}</p>
          {drafts.length === 0 ? <p>{editorWords.noDrafts}</p> : <DraftList drafts={drafts} />}
        </section>
        <div class="ed-columns">
          <BeginForm live={live} hasFiles={folder} title={problem?.title ?? c.req.query("title") ?? ""} />
          <ImportForm live={live} hasFiles={folder} />
        </div>
      </>
    ),
  });
}

async function hasFolder(database: D1Database, edition: number): Promise<boolean> {
  const found = await database
    .prepare("SELECT 1 FROM edition_files WHERE edition = ?1 LIMIT 1")
    .bind(edition)
    .first();
  return found !== null;
}

function DraftList({ drafts }: { drafts: readonly Draft[] }) {
  return (
    <ul class="ed-list">
      {drafts.map((draft) => (
        <li>
          <div class="ed-row">
            <a class="lt-link" href={hrefTo(draft.id)}>
              {draft.title}
            </a>
            {draft.closedAt !== null && (
              <span class="ed-mark">
                {draft.publishedAs === null ? "closed" : `edition ${draft.publishedAs}`}
              </span>
            )}
          </div>
          <p class="ed-faint">
            {`${draft.madeBy ?? "Someone"}, from edition ${draft.base}, changed ${sayTime(draft.changedAt)}`}
          </p>
        </li>
      ))}
    </ul>
  );
}

function BeginForm({ live, hasFiles, title }: { live: number; hasFiles: boolean; title: string }) {
  if (!hasFiles) return <p class="lt-hint">{editorWords.noFiles}</p>;
  return (
    <form class="lt-card" method="post" action={`${ROOM}/drafts`}>
      <h2 class="lt-prompt">{editorWords.newDraft}</h2>
      <p class="lt-hint">{`It begins as the live guide, edition ${live}.`}</p>
      <label class="lt-label" for="title">
        {editorWords.titleField}
      </label>
      <input class="lt-input" id="title" name="title" required maxlength={120} value={title} />
      <p class="lt-actions">
        <button class="lt-button" type="submit">
          {editorWords.begin}
        </button>
      </p>
    </form>
  );
}

function ImportForm({ live, hasFiles }: { live: number; hasFiles: boolean }) {
  return (
    <form class="lt-card" method="post" action={`${ROOM}/import`} enctype="multipart/form-data">
      <h2 class="lt-prompt">{editorWords.importTitle}</h2>
      <p class="lt-hint">{editorWords.importLead}</p>
      <div class="lt-field">
        <label class="lt-label" for="zip-title">
          {editorWords.titleField}
        </label>
        <input class="lt-input" id="zip-title" name="title" required maxlength={120} />
      </div>
      <div class="lt-field">
        <label class="lt-label" for="zip">
          {editorWords.importField}
        </label>
        <input class="lt-input" id="zip" name="zip" type="file" accept=".zip,application/zip" required />
      </div>
      <p class="lt-actions">
        <button class="lt-button lt-button-plain" type="submit">
          {editorWords.importButton}
        </button>
        {hasFiles && (
          <a class="lt-link" href={`${ROOM}/editions/${live}/folder.zip`}>
            Take the live folder out (zip)
          </a>
        )}
      </p>
    </form>
  );
}

async function begin(c: RoomContext): Promise<Response> {
  const form = await readForm(c);
  const typed = textOf(form, "title");
  const title = readTitle(typed);
  if (title === null) return showDrafts(c, { status: 422, sentence: editorWords.titleBad, title: typed });
  const database = databaseOf(c);
  const base = await readLiveNumber(database);
  if ((await readFolder(database, base)) === null)
    return showDrafts(c, { status: 409, sentence: editorWords.noFiles, title });
  const id = makeId(c);
  await makeDraft(database, { id, title, base, who: c.var.person, now: c.var.now, why: title });
  return c.redirect(hrefTo(id), 303);
}

async function close(c: RoomContext, isOpen: boolean): Promise<Response> {
  const form = await readForm(c);
  const id = c.req.param("id") ?? "";
  const why = textOf(form, "why").trim().slice(0, 2000);
  await closeDraft(databaseOf(c), { id, isOpen, who: c.var.person, now: c.var.now, why });
  return c.redirect(hrefTo(id), 303);
}

async function showDraft(c: RoomContext): Promise<Response> {
  const whole = await readWholeDraft(databaseOf(c), c.req.param("id") ?? "");
  if (whole === null) return showSentence(c, 404, "Draft", editorWords.gone);
  const live = await readLiveNumber(databaseOf(c));
  return showPage(c, {
    title: whole.draft.title,
    children: (
      <DraftFrame draft={whole.draft} part="">
        {live !== whole.draft.base && whole.draft.closedAt === null && (
          <section class="lt-notices">
            <p>{`Edition ${live} is live by now; this draft was begun from edition ${whole.draft.base}.`}</p>
            <p class="lt-actions">
              <a class="lt-link" href={hrefTo(whole.draft.id, "move")}>
                Bring it up to date
              </a>
            </p>
          </section>
        )}
        <ChangeList whole={whole} />
        <DraftActions draft={whole.draft} />
      </DraftFrame>
    ),
  });
}

function DraftActions({ draft }: { draft: Draft }) {
  if (draft.publishedAs !== null) {
    return (
      <p class="lt-actions">
        <a class="lt-link" href={hrefTo(draft.id, "folder.zip")}>
          Take it out as a folder (zip)
        </a>
      </p>
    );
  }
  const isOpen = draft.closedAt === null;
  return (
    <section class="lt-section">
      <h3>{isOpen ? "Close or take out" : "This draft is closed"}</h3>
      <form method="post" action={hrefTo(draft.id, isOpen ? "close" : "open")}>
        <label class="lt-label" for="why">
          Why?
        </label>
        <input class="lt-input" id="why" name="why" maxlength={2000} />
        <p class="lt-actions">
          <button class="lt-button lt-button-plain" type="submit">
            {isOpen ? "Close the draft" : "Open it again"}
          </button>
          <a class="lt-link" href={hrefTo(draft.id, "folder.zip")}>
            Take it out as a folder (zip)
          </a>
        </p>
      </form>
    </section>
  );
}
