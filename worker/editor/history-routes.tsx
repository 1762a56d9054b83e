import { Hono } from "hono";
import { sayChange, sayCount } from "../../widget/views/editor/study-report.ts";
import { makeToken } from "../people/token.ts";
import type { PrivateSetting } from "../setting.ts";
import { hrefTo } from "./draft-frame.tsx";
import { sayTime } from "./editor-words.ts";
import { type Deed, type HistoryRow, listHistory } from "./history.ts";
import {
  type Listed,
  LONGEST_NOTE,
  listEditions,
  listPublications,
  type Publication,
  takeBack,
} from "./publish.ts";
import type { Summary } from "./publish-routes.tsx";
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

const HISTORY = `${ROOM}/history`;
const ROWS = 100;

export function makeHistoryRoutes() {
  const routes = new Hono<PrivateSetting>();
  routes.get("/history", showHistory);
  routes.post("/take-back", takeItBack);
  return routes;
}

async function showHistory(c: RoomContext): Promise<Response> {
  const database = databaseOf(c);
  const before = Number(c.req.query("before") ?? "");
  const [editions, publications, rows] = await Promise.all([
    listEditions(database),
    listPublications(database),
    listHistory(database, Number.isSafeInteger(before) && before > 0 ? before : undefined, ROWS),
  ]);
  const live = editions.find(({ isLive }) => isLive);
  return showPage(c, {
    title: "History",
    children: (
      <>
        <section>
          <h2 class="lt-prompt">Editions</h2>
          <ul class="ed-list">
            {editions.map((edition) => (
              <EditionRow {...{ edition, publications }} live={live?.number ?? 0} mayTake={mayPublish(c)} />
            ))}
          </ul>
        </section>
        <section class="lt-section">
          <h3>Everything that was done</h3>
          <section class="ed-scroll" tabindex={0} aria-label="Everything that was done">
            <table class="ed-table">
              <thead>
                <tr>
                  <th scope="col">When</th>
                  <th scope="col">Who</th>
                  <th scope="col">What</th>
                  <th scope="col">Why</th>
                </tr>
              </thead>
              <tbody>
                {rows.map((row) => (
                  <Row row={row} />
                ))}
              </tbody>
            </table>
          </section>
          {rows.length === ROWS && (
            <p class="lt-actions">
              <a class="lt-link" href={`${HISTORY}?before=${rows.at(-1)?.id ?? 0}`}>
                Earlier
              </a>
            </p>
          )}
        </section>
      </>
    ),
  });
}

interface EditionRowProps {
  edition: Listed;
  publications: readonly Publication[];
  live: number;
  mayTake: boolean;
}

function EditionRow({ edition, publications, live, mayTake }: EditionRowProps) {
  const { number, note, publishedAt, isLive, hasFiles } = edition;
  const publication = publications.find((one) => one.kind === "publish" && one.edition === number);
  return (
    <li id={`edition-${number}`}>
      <div class="ed-row">
        <h3 class="ed-sum">{`Edition ${number}`}</h3>
        {isLive && <span class="ed-mark">live</span>}
      </div>
      <p>{note}</p>
      <p class="ed-faint">
        {[publication?.whoName, `${publishedAt.slice(0, 16).replace("T", " ")} UTC`]
          .filter(Boolean)
          .join(", ")}
      </p>
      {publication && <SummaryView summary={publication.summary} />}
      {hasFiles && (
        <a class="lt-link" href={`${ROOM}/editions/${number}/folder.zip`}>
          Take its folder out (zip)
        </a>
      )}
      {!isLive && mayTake && (
        <details class="lt-aside">
          <summary>{`Make edition ${number} live again`}</summary>
          <form method="post" action={`${ROOM}/take-back`}>
            <input type="hidden" name="to" value={String(number)} />
            <input type="hidden" name="seen" value={String(live)} />
            <label class="lt-label" for={`why-${number}`}>
              Why?
            </label>
            <input class="lt-input" id={`why-${number}`} name="why" required maxlength={LONGEST_NOTE} />
            <p class="lt-actions">
              <button class="lt-button" type="submit">
                {`Take back to edition ${number}`}
              </button>
            </p>
          </form>
        </details>
      )}
    </li>
  );
}

function SummaryView({ summary }: { summary: string }) {
  const read = JSON.parse(summary) as Summary;
  return (
    <details class="lt-aside">
      <summary>{read.changed === 1 ? "One change" : `${read.changed} changes`}</summary>
      <ul>
        {read.changes.map((sentence) => (
          <li>{sentence}</li>
        ))}
      </ul>
      <ConversationsView read={read} />
      {read.brokenCases.length > 0 && (
        <p class="ed-faint">{`Kept cases that end in another way: ${read.brokenCases.join(" ")} Why: ${read.unkept}`}</p>
      )}
    </details>
  );
}

/** What was known about the conversations when it was published. */
function ConversationsView({ read: { walk, change, same, unwalked } }: { read: Summary }) {
  return (
    <>
      {same && <p>No conversation changed.</p>}
      {change && !same && <p>{sayChange(change, walk?.longest ?? change.longestBefore)}</p>}
      {change && change.groups.length > 0 && (
        <ul>
          {change.groups.map((sentence) => (
            <li>{sentence}</li>
          ))}
        </ul>
      )}
      <p class="ed-faint">
        {walk
          ? `The publisher's browser checked ${sayCount(walk.conversations)} conversations; the longest has ${walk.longest} questions.`
          : same
            ? ""
            : `Not every conversation was checked. ${unwalked}`}
      </p>
    </>
  );
}

const deedWords: Record<Deed, string> = {
  "draft-made": "began a draft",
  "draft-closed": "closed a draft",
  "draft-opened": "opened a draft again",
  "draft-moved": "brought a draft up to date",
  published: "published",
  "taken-back": "took back to",
  "preview-made": "made a preview address",
  "preview-ended": "ended a preview address",
  "device-registered": "registered a device",
  "signed-in": "signed in",
  "case-kept": "kept a case",
  "case-dropped": "dropped a kept case",
};

function Row({ row: { at, whoName, what, subject, why } }: { row: HistoryRow }) {
  const isDraft = what.startsWith("draft-") || what.startsWith("preview-");
  const isEdition = what === "published" || what === "taken-back";
  return (
    <tr>
      <td>{sayTime(at)}</td>
      <td>{whoName}</td>
      <td>
        {isDraft ? (
          <a class="lt-link" href={hrefTo(subject)}>
            {deedWords[what]}
          </a>
        ) : (
          `${deedWords[what]}${isEdition ? ` edition ${subject}` : ""}`
        )}
      </td>
      <td>{why}</td>
    </tr>
  );
}

async function takeItBack(c: RoomContext): Promise<Response> {
  const back = [HISTORY, "History"] as const;
  const form = await readForm(c);
  if (!mayPublish(c))
    return showSentence(c, 403, "Nothing was taken back", "Only a publisher can do this.", back);
  const [to, seen] = [Number(textOf(form, "to")), Number(textOf(form, "seen"))];
  const note = textOf(form, "why").trim().slice(0, LONGEST_NOTE);
  if (note === "")
    return showSentence(c, 422, "Nothing was taken back", "Please say why, and try again.", back);
  const done =
    Number.isSafeInteger(to) &&
    Number.isSafeInteger(seen) &&
    (await takeBack(databaseOf(c), {
      ...{ to, seen, note, token: makeToken(c.var.randomBytes), who: c.var.person, now: c.var.now },
    }));
  if (done) return c.redirect(HISTORY, 303);
  const sentence =
    "Another edition is live than the one you saw, or there is no such edition. Please look again.";
  return showSentence(c, 409, "Nothing was taken back", sentence, back);
}
