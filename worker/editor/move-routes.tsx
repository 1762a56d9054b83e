/** Bringing a draft up to date with the live edition. */
import { Hono } from "hono";
import type { Files } from "../../flows/content/read-files.ts";
import type { PrivateSetting } from "../setting.ts";
import { DraftFrame, hrefTo } from "./draft-frame.tsx";
import {
  findDraft,
  moveDraft,
  readDraftFile,
  readWholeDraft,
  saveDraftFile,
  type WholeDraft,
} from "./drafts.ts";
import { editorWords } from "./editor-words.ts";
import { readFolder } from "./folders.ts";
import { readLiveNumber } from "./publish.ts";
import { databaseOf, makeId, type RoomContext, readForm, showPage, showSentence } from "./room.tsx";

const TITLE = "Bring the draft up to date";

export function makeMoveRoutes() {
  const routes = new Hono<PrivateSetting>();
  routes.get("/:id/move", async (c) => {
    const found = await find(c);
    return "refused" in found ? found.refused : showMove(c, found, 200);
  });
  routes.post("/:id/move", move);
  return routes;
}

interface Found {
  whole: WholeDraft;
  live: number;
  folder: Files;
  /** Files that were changed both here and in the live edition, in different ways. */
  both: string[];
}

async function find(c: RoomContext): Promise<Found | { refused: Response }> {
  const database = databaseOf(c);
  const whole = await readWholeDraft(database, c.req.param("id") ?? "");
  if (whole === null) return { refused: await showSentence(c, 404, TITLE, editorWords.gone) };
  const live = await readLiveNumber(database);
  const folder = await readFolder(database, live);
  if (folder === null) return { refused: await showSentence(c, 409, TITLE, editorWords.noFiles) };
  const both = Object.keys(whole.versions).filter(
    (path) =>
      folder[path] !== whole.base[path] &&
      whole.files[path] !== whole.base[path] &&
      folder[path] !== whole.files[path],
  );
  return { whole, live, folder, both: both.sort() };
}

function showMove(c: RoomContext, { whole, live, folder, both }: Found, status: 200 | 409, sentence = "") {
  const { draft, files } = whole;
  return showPage(c, {
    title: TITLE,
    status,
    children: (
      <DraftFrame draft={draft} part="">
        {sentence && (
          <p class="lt-problem" role="alert">
            {sentence}
          </p>
        )}
        {draft.base === live ? (
          <p>{`The draft is up to date: edition ${live} is live.`}</p>
        ) : (
          <form method="post" action={hrefTo(draft.id, "move")}>
            <p>
              {both.length === 0
                ? `Edition ${live} and this draft changed different files. Both changes stay.`
                : `Both edition ${live} and this draft changed these files. Choose which text goes on; the other stays in the history, and you can go on editing.`}
            </p>
            {both.map((path) => (
              <fieldset class="ed-field-set">
                <legend class="lt-label">{path}</legend>
                <div class="ed-both">
                  <Side path={path} name="mine" label="This draft's text" text={files[path]} checked />
                  <Side path={path} name="theirs" label={`Edition ${live}'s text`} text={folder[path]} />
                </div>
              </fieldset>
            ))}
            <p class="lt-actions">
              <button class="lt-button" type="submit">
                {`Go on from edition ${live}`}
              </button>
            </p>
          </form>
        )}
      </DraftFrame>
    ),
  });
}

interface SideProps {
  path: string;
  name: "mine" | "theirs";
  label: string;
  text: string | undefined;
  checked?: boolean;
}

function Side({ path, name, label, text, checked = false }: SideProps) {
  return (
    <div>
      <div class="ed-choice">
        <label>
          <input type="radio" name={`choice ${path}`} value={name} checked={checked} />
          <span>{label}</span>
        </label>
      </div>
      <pre class="ed-pre" tabindex={0}>
        {text ?? "(no such file)"}
      </pre>
    </div>
  );
}

async function move(c: RoomContext): Promise<Response> {
  const form = await readForm(c);
  const found = await find(c);
  if ("refused" in found) return found.refused;
  const { whole, live, folder, both } = found;
  const database = databaseOf(c);
  const again = "Someone changed the draft or published meanwhile. Please look again; nothing is lost.";
  for (const path of both.filter((path) => form[`choice ${path}`] === "theirs")) {
    const seen = await readDraftFile(database, whole.draft.id, path);
    const saved =
      seen !== null &&
      seen.version === whole.versions[path] &&
      (await saveDraftFile(database, {
        ...{ draft: whole.draft.id, seen, text: folder[path] ?? null, token: makeId(c) },
        ...{ who: c.var.person, now: c.var.now },
      }));
    if (!saved || saved.ok === false) return showMove(c, found, 409, again);
  }
  const draft = await findDraft(database, whole.draft.id);
  const moved =
    draft !== null && (await moveDraft(database, { draft, to: live, who: c.var.person, now: c.var.now }));
  return moved ? c.redirect(hrefTo(whole.draft.id), 303) : showMove(c, found, 409, again);
}
