/** Publishing a draft, taking an edition back, and the history of both. */
import { Hono } from "hono";
import { listChanges } from "../../flows/editing/difference.ts";
import {
  readStudyReport,
  type StudyChange,
  type StudyReport,
} from "../../widget/views/editor/study-report.ts";
import { isToken, makeToken } from "../people/token.ts";
import type { PrivateSetting } from "../setting.ts";
import { type Compiled, compile, type JudgedCase, judgeCases } from "./compile.ts";
import { DraftFrame, hrefTo } from "./draft-frame.tsx";
import { readWholeDraft, type WholeDraft } from "./drafts.ts";
import { editorWords } from "./editor-words.ts";
import { listKeptCases } from "./kept-cases.ts";
import { ProblemList } from "./problem-list.tsx";
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
import { isSame, StudyPart } from "./study-part.tsx";

/** Sentences of what changed that a publication keeps. */
const MOST_SENTENCES = 200;

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
  /** Kept cases that end in another way. */
  broken: JudgedCase[];
  /** Kept cases that end as they should after a question that they do not answer. */
  asking: JudgedCase[];
  /** Whether every conversation is as in the live edition. */
  same: boolean;
  sentences: string[];
}

async function prepare(c: RoomContext): Promise<Ready | { refused: Response }> {
  const database = databaseOf(c);
  const whole = await readWholeDraft(database, c.req.param("id") ?? "");
  if (whole === null) return { refused: await showSentence(c, 404, "Publish", editorWords.gone) };
  const [live, kept] = await Promise.all([readLiveNumber(database), listKeptCases(database)]);
  const compiled = await compile(whole.files);
  const judged = compiled.edition ? judgeCases(compiled.edition, kept) : [];
  const current = (await c.var.openEditions()).live.edition;
  return {
    ...{ whole, compiled, live },
    broken: judged.filter(({ now }) => !now.passes),
    asking: judged.filter(({ now }) => now.passes && now.asksNew.length > 0),
    same: isSame(current, whole.draft, compiled.edition) === true,
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
    script: "/assets/editor/study.js",
    children: (
      <DraftFrame draft={draft} part="publish">
        {asking.sentence && (
          <p class="lt-problem" role="alert">
            {asking.sentence}
          </p>
        )}
        {isStale && draft.closedAt === null && <Stale draft={draft.id} base={draft.base} live={live} />}
        {sentences.length === 0 && <p>This draft changes nothing yet.</p>}
        <ProblemList draft={draft.id} files={whole.files} problems={compiled.problems} />
        {isReady && !mayPublish(c) && (
          <p class="lt-notices">Only a publisher can publish. Ask one of them to look at it.</p>
        )}
        {isReady && mayPublish(c) && (
          <StudyPart draft={draft} edition={compiled.edition} same={ready.same} isBrief />
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

function PublishForm({ ready, typed, token }: { ready: Ready; typed: Typed | undefined; token: string }) {
  const { whole, compiled, sentences, broken, asking, same } = ready;
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
        {asking.length > 0 && <AskingCases asking={asking} />}
        {!same && <UnwalkedField typed={typed?.unwalked ?? ""} />}
        <p class="lt-actions">
          <button class="lt-button" type="submit">
            Publish now
          </button>
        </p>
      </form>
    </section>
  );
}

function UnwalkedField({ typed }: { typed: string }) {
  return (
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
        value={typed}
        aria-describedby="unwalked-hint"
      />
    </div>
  );
}

function AskingCases({ asking }: { asking: readonly JudgedCase[] }) {
  return (
    <div class="lt-field">
      <p class="lt-label">
        {asking.length === 1
          ? "One kept case ends as it should, after a further question"
          : `${asking.length} kept cases end as they should, after further questions`}
      </p>
      <ul>
        {asking.map(({ kept }) => (
          <li>{kept.reason}</li>
        ))}
      </ul>
    </div>
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
          <li>{`${kept.reason} It should end ${sayOutcome(kept)}; now it ends ${sayOutcome(now)}.`}</li>
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
  const { whole, compiled, live, broken, sentences, same } = ready;
  const typed = {
    note: textOf(form, "note").trim().slice(0, LONGEST_NOTE),
    unwalked: textOf(form, "unwalked").trim().slice(0, LONGEST_NOTE),
    unkept: textOf(form, "unkept").trim().slice(0, LONGEST_NOTE),
    walk: textOf(form, "walk"),
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
  const walk = readStudyReport(typed.walk, edition.hash);
  if (walk && walk.violations > 0)
    return say(
      422,
      `Nothing was published: ${walk.violations} rules are broken in some conversation. See “What it does”.`,
    );
  if (walk === null && !same && typed.unwalked === "")
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

/** What a publication keeps for later readers. */
export interface Summary {
  changes: string[];
  /** More than are listed. */
  changed: number;
  /** Every conversation, as the publisher's browser found it; null when nobody looked. */
  walk: Pick<StudyReport, "conversations" | "longest"> | null;
  /** What it did to the conversations of the edition before, as that browser found. Older summaries have none. */
  change?: StudyChange | null;
  /** The server found nothing in it that bears on a conversation. */
  same?: boolean;
  unwalked: string;
  brokenCases: string[];
  unkept: string;
}

function summarize({ sentences, broken, same }: Ready, typed: Typed, walk: StudyReport | null): Summary {
  return {
    changes: sentences.slice(0, MOST_SENTENCES),
    changed: sentences.length,
    walk: walk && { conversations: walk.conversations, longest: walk.longest },
    change: walk?.change ?? null,
    same,
    unwalked: walk === null && !same ? typed.unwalked : "",
    brokenCases: broken.map(({ kept }) => kept.reason),
    unkept: typed.unkept,
  };
}
