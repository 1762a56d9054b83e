/** What a draft does: its problems, kept cases, and an address for a colleague. */
import { Hono } from "hono";
import { openFlow } from "../../flows/flow.ts";
import { makeToken } from "../people/token.ts";
import type { PrivateSetting } from "../setting.ts";
import { compile, endOf, type JudgedCase, judgeCases } from "./compile.ts";
import { DraftFrame, hrefTo } from "./draft-frame.tsx";
import { findDraft, readWholeDraft, type WholeDraft } from "./drafts.ts";
import { editorWords, sayTime } from "./editor-words.ts";
import { dropCase, type KeptCase, keepCase, listKeptCases } from "./kept-cases.ts";
import { endPreview, listPreviews, makePreview, PREVIEW_DAYS, type Preview } from "./previews.ts";
import { ProblemList } from "./problem-list.tsx";
import { sayOutcome } from "./publish-routes.tsx";
import { databaseOf, makeId, type RoomContext, readForm, showPage, showSentence, textOf } from "./room.tsx";
import { isSame, StudyPart } from "./study-part.tsx";

const LONGEST_REASON = 500;
const LONGEST_CASE = 4000;

export function makeCheckRoutes() {
  const routes = new Hono<PrivateSetting>();
  routes.get("/:id/check", (c) => showCheck(c, { status: 200 }));
  routes.post("/:id/previews", begin);
  routes.post("/:id/previews/end", end);
  routes.post("/:id/cases", keep);
  routes.post("/:id/cases/drop", drop);
  return routes;
}

interface Showing {
  status: 200 | 422;
  sentence?: string;
  /** A preview's address, which is shown this once. */
  address?: string;
  typed?: { link: string; reason: string };
}

async function showCheck(c: RoomContext, showing: Showing): Promise<Response> {
  const database = databaseOf(c);
  const whole = await readWholeDraft(database, c.req.param("id") ?? "");
  if (whole === null) return showSentence(c, 404, "Draft", editorWords.gone);
  const [kept, previews, { edition, problems }] = await Promise.all([
    listKeptCases(database),
    listPreviews(database, whole.draft.id, c.var.now),
    compile(whole.files),
  ]);
  const judged = edition ? judgeCases(edition, kept) : [];
  const { live } = await c.var.openEditions();
  return showPage(c, {
    title: whole.draft.title,
    status: showing.status,
    script: "/assets/editor/study.js",
    children: (
      <DraftFrame draft={whole.draft} part="check">
        {showing.sentence && (
          <p class="lt-problem" role="alert">
            {showing.sentence}
          </p>
        )}
        {problems.length === 0 && <p role="status">Nothing is wrong with the content.</p>}
        <ProblemList draft={whole.draft.id} files={whole.files} problems={problems} />
        <StudyPart {...{ draft: whole.draft, edition }} same={isSame(live.edition, whole.draft, edition)} />
        <PreviewPart draft={whole.draft.id} previews={previews} address={showing.address} />
        <CasePart {...{ whole, kept, judged }} typed={showing.typed} />
      </DraftFrame>
    ),
  });
}

interface PreviewPartProps {
  draft: string;
  previews: readonly Preview[];
  address: string | undefined;
}

function PreviewPart({ draft, previews, address }: PreviewPartProps) {
  return (
    <section class="lt-section">
      <h2 class="lt-prompt">Let a colleague look at it</h2>
      <p>{`A preview shows the whole check as this draft makes it. Whoever has the address can see it, for ${PREVIEW_DAYS} days. It is marked as not live.`}</p>
      {address && (
        <div class="lt-notices" role="status">
          <p class="lt-label">The address. It is shown only now.</p>
          <p>
            <a class="lt-link" href={address}>
              {address}
            </a>
          </p>
        </div>
      )}
      <form method="post" action={hrefTo(draft, "previews")}>
        <p class="lt-actions">
          <button class="lt-button lt-button-plain" type="submit">
            Make an address
          </button>
        </p>
      </form>
      <ul class="ed-list">
        {previews.map(({ id, madeBy, madeAt, expiresAt }) => (
          <li>
            <form class="ed-row" method="post" action={hrefTo(draft, "previews/end")}>
              <input type="hidden" name="id" value={id} />
              <span>{`Made by ${madeBy ?? "someone"}, ${sayTime(madeAt)}; ends ${sayTime(expiresAt)}`}</span>
              <button
                class="lt-button lt-button-plain"
                type="submit"
                aria-label={`End the address of ${sayTime(madeAt)}`}
              >
                End it now
              </button>
            </form>
          </li>
        ))}
      </ul>
    </section>
  );
}

interface CasePartProps {
  whole: WholeDraft;
  kept: readonly KeptCase[];
  judged: readonly JudgedCase[];
  typed: Showing["typed"];
}

function CasePart({ whole: { draft }, kept, judged, typed }: CasePartProps) {
  return (
    <section class="lt-section" id="cases">
      <h2 class="lt-prompt">Keep a case</h2>
      <p>
        A kept case is a conversation that should always end as it does. Whoever publishes is told of each one
        that breaks.
      </p>
      <ul class="ed-list">
        {kept.map(({ id, query, reason, madeBy, ...end }) => (
          <li>
            <p>
              <CaseMark now={judged.find((one) => one.kept.id === id)?.now} /> {reason}
            </p>
            <p class="ed-faint">{`Should end ${sayOutcome(end)}. Kept by ${madeBy ?? "someone"}.`}</p>
            <div class="ed-row">
              <a class="lt-link" href={`/check?${query}`}>
                Open the conversation
              </a>
              <form class="lt-actions" method="post" action={hrefTo(draft.id, "cases/drop")}>
                <input type="hidden" name="id" value={id} />
                <label class="lt-label" for={`why-${id}`}>
                  Why drop it?
                </label>
                <input class="lt-input" id={`why-${id}`} name="why" required maxlength={LONGEST_REASON} />
                <button class="lt-button lt-button-plain" type="submit">
                  Drop
                </button>
              </form>
            </div>
          </li>
        ))}
      </ul>
      <form class="lt-card" method="post" action={hrefTo(draft.id, "cases")}>
        <h3 class="lt-label">Another one</h3>
        <div class="lt-field">
          <label class="lt-label" for="link">
            Link of the conversation, to its end
          </label>
          <input
            class="lt-input ed-wide"
            id="link"
            name="link"
            required
            maxlength={LONGEST_CASE}
            value={typed?.link ?? ""}
          />
        </div>
        <div class="lt-field">
          <label class="lt-label" for="reason">
            Why should it end as it does in this draft?
          </label>
          <input
            class="lt-input ed-wide"
            id="reason"
            name="reason"
            required
            maxlength={LONGEST_REASON}
            value={typed?.reason ?? ""}
          />
        </div>
        <p class="lt-actions">
          <button class="lt-button lt-button-plain" type="submit">
            Keep it
          </button>
        </p>
      </form>
    </section>
  );
}

/** Breaking is ending otherwise; a further question alone breaks nothing. */
function CaseMark({ now }: { now: JudgedCase["now"] | undefined }) {
  const word = now && (!now.passes ? "breaks" : now.asksNew.length > 0 ? "asks something new" : "");
  return word ? <span class="ed-mark">{word}</span> : null;
}

async function begin(c: RoomContext): Promise<Response> {
  const draft = await findDraft(databaseOf(c), c.req.param("id") ?? "");
  if (draft === null) return showSentence(c, 404, "Draft", editorWords.gone);
  const token = makeToken(c.var.randomBytes);
  await makePreview(databaseOf(c), {
    ...{ id: makeId(c), draft: draft.id, token, who: c.var.person, now: c.var.now },
  });
  return showCheck(c, { status: 200, address: `${new URL(c.req.url).origin}/preview/${token}/check` });
}

async function end(c: RoomContext): Promise<Response> {
  const draft = c.req.param("id") ?? "";
  const id = textOf(await readForm(c), "id");
  await endPreview(databaseOf(c), { id, draft, who: c.var.person, now: c.var.now });
  return c.redirect(hrefTo(draft, "check"), 303);
}

/** Keeps a conversation as it ends in this draft. */
async function keep(c: RoomContext): Promise<Response> {
  const form = await readForm(c);
  const typed = { link: textOf(form, "link").trim(), reason: textOf(form, "reason").trim() };
  const refuse = (sentence: string) => showCheck(c, { status: 422, sentence, typed });
  const query = typed.link
    .replace(/^[^?]*\?/, "")
    .split("#", 1)
    .join();
  if (typed.reason === "" || typed.reason.length > LONGEST_REASON)
    return refuse("Please say in a sentence why it should end so.");
  if (query === "" || query.length > LONGEST_CASE) return refuse("Please paste the link of a conversation.");
  const whole = await readWholeDraft(databaseOf(c), c.req.param("id") ?? "");
  const { edition } = whole ? await compile(whole.files) : { edition: null };
  if (edition === null) return refuse("The draft has problems; a case can be kept when they are mended.");
  const outcome = endOf(openFlow(edition), query);
  if (outcome === null)
    return refuse("This conversation has not come to its end. Answer all questions first.");
  await keepCase(
    databaseOf(c),
    { id: makeId(c), query, reason: typed.reason, ...outcome },
    c.var.person,
    c.var.now,
  );
  return c.redirect(`${hrefTo(c.req.param("id") ?? "", "check")}#cases`, 303);
}

async function drop(c: RoomContext): Promise<Response> {
  const form = await readForm(c);
  const why = textOf(form, "why").trim().slice(0, LONGEST_REASON);
  if (why === "") return showCheck(c, { status: 422, sentence: "Please say why the case is dropped." });
  await dropCase(databaseOf(c), textOf(form, "id"), why, c.var.person, c.var.now);
  return c.redirect(`${hrefTo(c.req.param("id") ?? "", "check")}#cases`, 303);
}
