/** Publishing a draft, taking an edition back, and the history of both. */
import { Hono } from "hono";
import type { Problem } from "../../flows/content/problems.ts";
import { listChanges } from "../../flows/editing/difference.ts";
import { isToken, makeToken } from "../people/token.ts";
import type { PrivateSetting } from "../setting.ts";
import { type Compiled, compile, findBroken, type Outcome } from "./compile.ts";
import { DraftFrame, hrefTo, hrefToFile } from "./draft-frame.tsx";
import { readWholeDraft, type WholeDraft } from "./drafts.ts";
import { editorWords } from "./editor-words.ts";
import { type KeptCase, listKeptCases } from "./kept-cases.ts";
import { LONGEST_NOTE, publishDraft, readLiveNumber } from "./publish.ts";
import {
  databaseOf,
  mayPublish,
  ROOM,
  type RoomContext,
  readForm,
  showPage,
  showSentence,
  textOf,
} from "./room.tsx";

/** Sentences of what changed that a publication keeps. */
const MOST_SENTENCES = 200;

/** What the browser's worker found when it walked every conversation of the draft. */
interface WalkReport {
  hash: string;
  conversations: number;
  longest: number;
  violations: number;
}

export function makePublishRoutes() {
  const routes = new Hono<PrivateSetting>();
  routes.get("/:id/publish", async (c) => {
    const ready = await prepare(c);
    return "refused" in ready ? ready.refused : showPublish(c, ready, { status: 200 });
  });
  routes.post("/:id/publish", publish);
  return routes;
}

interface Ready {
  whole: WholeDraft;
  compiled: Compiled;
  live: number;
  broken: { kept: KeptCase; now: Outcome | null }[];
  sentences: string[];
}

async function prepare(c: RoomContext): Promise<Ready | { refused: Response }> {
  const database = databaseOf(c);
  const whole = await readWholeDraft(database, c.req.param("id") ?? "");
  if (whole === null) return { refused: await showSentence(c, 404, "Publish", editorWords.gone) };
  const [live, kept] = await Promise.all([readLiveNumber(database), listKeptCases(database)]);
  const compiled = await compile(whole.files);
  return {
    ...{ whole, compiled, live },
    broken: compiled.edition ? findBroken(compiled.edition, kept) : [],
    sentences: listChanges(whole.base, whole.files).map(({ sentence }) => sentence),
  };
}

interface Asking {
  status: 200 | 403 | 409 | 422;
  sentence?: string;
  typed?: Typed;
}

interface Typed {
  note: string;
  unwalked: string;
  unkept: string;
  walk: string;
}

async function showPublish(c: RoomContext, ready: Ready, asking: Asking): Promise<Response> {
  const { whole, compiled, live, sentences } = ready;
  const { draft } = whole;
  const isStale = live !== draft.base;
  const isReady = !isStale && draft.closedAt === null && compiled.edition !== null && sentences.length > 0;
  return showPage(c, {
    title: draft.title,
    status: asking.status,
    script: "/assets/editor/room.js",
    children: (
      <DraftFrame draft={draft} part="publish">
        {asking.sentence && (
          <p class="lt-problem" role="alert">
            {asking.sentence}
          </p>
        )}
        {isStale && draft.closedAt === null && <Stale draft={draft.id} base={draft.base} live={live} />}
        {sentences.length === 0 && <p>This draft changes nothing yet.</p>}
        <ProblemList draft={draft.id} problems={compiled.problems} />
        {isReady && !mayPublish(c) && (
          <p class="lt-notices">Only a publisher can publish. Ask one of them to look at it.</p>
        )}
        {isReady && mayPublish(c) && (
          <PublishForm ready={ready} typed={asking.typed} token={makeToken(c.var.randomBytes)} />
        )}
      </DraftFrame>
    ),
  });
}

function Stale({ draft, base, live }: { draft: string; base: number; live: number }) {
  return (
    <section class="lt-notices">
      <p>{`Edition ${live} is live by now, and this draft was begun from edition ${base}. Bring the draft up to date first, so that nothing of edition ${live} is lost.`}</p>
      <p class="lt-actions">
        <a class="lt-link" href={hrefTo(draft, "move")}>
          Bring it up to date
        </a>
      </p>
    </section>
  );
}

/** Every problem of the content, each with the way to its place. */
export function ProblemList({ draft, problems }: { draft: string; problems: readonly Problem[] }) {
  if (problems.length === 0) return null;
  return (
    <section>
      <h2 class="lt-prompt">
        {problems.length === 1 ? "One thing is wrong in it" : `${problems.length} things are wrong in it`}
      </h2>
      <ul class="ed-list">
        {problems.slice(0, 300).map(({ code, file, line, column, sentence, hint }) => (
          <li>
            <p>{sentence}</p>
            <p class="ed-faint">{hint}</p>
            <a class="lt-link" href={hrefToFile(draft, file)}>
              {`${file}, line ${line}, column ${column} (${code})`}
            </a>
          </li>
        ))}
      </ul>
    </section>
  );
}

function PublishForm({ ready, typed, token }: { ready: Ready; typed: Typed | undefined; token: string }) {
  const { whole, compiled, sentences, broken } = ready;
  return (
    <section>
      <h2 class="lt-prompt">{`Publish as the next edition`}</h2>
      <p class="lt-hint">{`What it changes (${sentences.length}):`}</p>
      <ul>
        {sentences.slice(0, MOST_SENTENCES).map((sentence) => (
          <li>{sentence}</li>
        ))}
      </ul>
      <form class="lt-card" method="post" action={hrefTo(whole.draft.id, "publish")} id="publish">
        <input type="hidden" name="token" value={token} />
        <input
          type="hidden"
          name="walk"
          id="walk"
          value={typed?.walk ?? ""}
          data-hash={compiled.edition?.hash ?? ""}
        />
        <div class="lt-field">
          <label class="lt-label" for="note">
            What is new, and why? This stands in the history.
          </label>
          <textarea class="ed-area ed-area-short" id="note" name="note" required maxlength={LONGEST_NOTE}>
            {`\n${typed?.note ?? ""}`}
          </textarea>
        </div>
        {broken.length > 0 && <BrokenCases broken={broken} typed={typed?.unkept ?? ""} />}
        <div class="lt-field" id="unwalked-field">
          <label class="lt-label" for="unwalked">
            If not every conversation was checked: why is that all right?
          </label>
          <p class="lt-hint" id="unwalked-hint">
            “What it does” checks every conversation in your browser, and its result is kept here. The server
            itself checks the content and the kept cases, not every conversation.
          </p>
          <input
            class="lt-input ed-wide"
            id="unwalked"
            name="unwalked"
            maxlength={LONGEST_NOTE}
            value={typed?.unwalked ?? ""}
            aria-describedby="unwalked-hint"
          />
        </div>
        <p class="ed-status" id="status" role="status" />
        <p class="lt-actions">
          <button class="lt-button" type="submit">
            Publish now
          </button>
        </p>
      </form>
    </section>
  );
}

function BrokenCases({ broken, typed }: { broken: Ready["broken"]; typed: string }) {
  return (
    <div class="lt-field">
      <p class="lt-label">
        {broken.length === 1
          ? "One kept case ends in another way"
          : `${broken.length} kept cases end in another way`}
      </p>
      <ul>
        {broken.map(({ kept, now }) => (
          <li>
            {`${kept.reason} It should end ${sayOutcome(kept)}; now it ends ${now ? sayOutcome(now) : "with a further question"}.`}
          </li>
        ))}
      </ul>
      <label class="lt-label" for="unkept">
        Why is that right?
      </label>
      <input
        class="lt-input ed-wide"
        id="unkept"
        name="unkept"
        required
        maxlength={LONGEST_NOTE}
        value={typed}
      />
    </div>
  );
}

export function sayOutcome({ standing, leader }: { standing: string; leader: string | null }): string {
  return leader === null ? "undetermined, with a request for a sample" : `${standing}: ${leader}`;
}

async function publish(c: RoomContext): Promise<Response> {
  const form = await readForm(c);
  const ready = await prepare(c);
  if ("refused" in ready) return ready.refused;
  const { whole, compiled, live, broken, sentences } = ready;
  const typed = {
    note: textOf(form, "note").trim().slice(0, LONGEST_NOTE),
    unwalked: textOf(form, "unwalked").trim().slice(0, LONGEST_NOTE),
    unkept: textOf(form, "unkept").trim().slice(0, LONGEST_NOTE),
    walk: textOf(form, "walk").slice(0, 2000),
  };
  const say = (status: Asking["status"], sentence: string) =>
    showPublish(c, ready, { status, sentence, typed });
  if (!mayPublish(c)) return say(403, editorWords.publisherOnly);
  const token = textOf(form, "token");
  // A second press of the same form finds the edition that the first one made.
  const done = isToken(token) ? await findDone(databaseOf(c), token) : null;
  if (done !== null) return c.redirect(`${ROOM}/history`, 303);
  if (whole.draft.closedAt !== null) return say(409, editorWords.closed);
  if (live !== whole.draft.base)
    return say(
      409,
      `Nothing was published: edition ${live} went live meanwhile. Bring the draft up to date first.`,
    );
  const { edition, problems } = compiled;
  if (edition === null || problems.length > 0)
    return say(422, "Nothing was published: something in the draft is wrong.");
  if (sentences.length === 0) return say(422, "Nothing was published: the draft changes nothing.");
  if (typed.note === "") return say(422, "Please say what is new, and why.");
  const walk = readWalk(typed.walk, edition.hash);
  if (walk && walk.violations > 0)
    return say(
      422,
      `Nothing was published: ${walk.violations} rules are broken in some conversation. See “What it does”.`,
    );
  if (walk === null && typed.unwalked === "")
    return say(
      422,
      "Check every conversation first, under “What it does”, or say why it is all right without.",
    );
  if (broken.length > 0 && typed.unkept === "")
    return say(422, "Please say why the kept cases may end in another way.");
  const published = await publishDraft(databaseOf(c), {
    ...{ whole, edition, note: typed.note, token: isToken(token) ? token : makeToken(c.var.randomBytes) },
    summary: JSON.stringify(summarize(ready, typed, walk)),
    ...{ who: c.var.person, now: c.var.now },
  });
  if (!published.ok) {
    const sentence =
      published.because === "live-moved"
        ? "Nothing was published: another edition went live meanwhile. Bring the draft up to date first."
        : "Nothing was published: someone changed the draft meanwhile. Please look at it again.";
    return say(409, sentence);
  }
  return c.redirect(`${ROOM}/history`, 303);
}

async function findDone(database: D1Database, token: string): Promise<number | null> {
  return database
    .prepare("SELECT edition FROM publications WHERE token = ?1")
    .bind(token)
    .first<number>("edition");
}

/** The walk counts only if it was of exactly these contents. */
function readWalk(text: string, hash: string): WalkReport | null {
  let read: unknown;
  try {
    read = JSON.parse(text);
  } catch {
    return null;
  }
  if (typeof read !== "object" || read === null) return null;
  const report = read as Record<keyof WalkReport, unknown>;
  const [conversations, longest, violations] = [report.conversations, report.longest, report.violations].map(
    (count) => (Number.isSafeInteger(count) && Number(count) >= 0 ? Number(count) : null),
  );
  if (report.hash !== hash || conversations == null || longest == null || violations == null) return null;
  return { hash, conversations, longest, violations };
}

/** What a publication keeps for later readers. */
export interface Summary {
  changes: string[];
  /** More than are listed. */
  changed: number;
  /** Every conversation, as the publisher's browser found it; null when nobody looked. */
  walk: { conversations: number; longest: number } | null;
  unwalked: string;
  brokenCases: string[];
  unkept: string;
}

function summarize({ sentences, broken }: Ready, typed: Typed, walk: WalkReport | null): Summary {
  return {
    changes: sentences.slice(0, MOST_SENTENCES),
    changed: sentences.length,
    walk: walk && { conversations: walk.conversations, longest: walk.longest },
    unwalked: walk === null ? typed.unwalked : "",
    brokenCases: broken.map(({ kept }) => kept.reason),
    unkept: typed.unkept,
  };
}
