import { type Context, Hono, type MiddlewareHandler } from "hono";
import { etag } from "hono/etag";
import type { Child } from "hono/jsx";
import type { CivilDate } from "../flows/calendar/civil-date.ts";
import { editionOf } from "../flows/case-link.ts";
import type { Flow } from "../flows/flow.ts";
import { nextQuestion } from "../flows/next-question.ts";
import { placeOf } from "../flows/place.ts";
import { branchOf, type Decision, decide } from "../widget/check/decide.ts";
import { makeReport } from "../widget/check/make-report.ts";
import { hrefToCheck } from "../widget/check/page-ways.ts";
import { readCheckRequest } from "../widget/check/read-request.ts";
import { type Editions, replay } from "../widget/check/replay.ts";
import { writeCalendar } from "../widget/check/write-calendar.ts";
import { deskSheet } from "../widget/views/desk/desk-sheet.ts";
import { GuessesView } from "../widget/views/desk/take-over-view.tsx";
import { pictureSheet } from "../widget/views/picture-sheet.ts";
import { printSheet } from "../widget/views/print-sheet.ts";
import { sheet } from "../widget/views/sheet.ts";
import { sumsSheet } from "../widget/views/sums-sheet.ts";
import { verdictSheet } from "../widget/views/verdict-sheet.ts";
import { sendProblem } from "./api/problem.ts";
import { makeApi } from "./api/routes.ts";
import { countPage, makeCounts } from "./counts/routes.ts";
import { dayAt } from "./day-at.ts";
import { demoSheet } from "./demo/demo-sheet.ts";
import { HelpPage } from "./demo/help-page.tsx";
import { HomePage } from "./demo/home-page.tsx";
import { HouseplantsPage } from "./demo/houseplants-page.tsx";
import { icon } from "./demo/icon.ts";
import type { Shelf } from "./editions.ts";
import { editorSheet } from "./editor/editor-sheet.ts";
import { keepShown, makePreviewRoutes } from "./editor/preview-routes.tsx";
import type { Bundled } from "./editor/publish.ts";
import { makeEditorRoom } from "./editor/routes.tsx";
import { makeEmbed } from "./embed/routes.ts";
import type { WidgetFiles } from "./embed/widget-files.ts";
import { CheckPage } from "./pages/check-page.tsx";
import { backToDesk, makeDesk, readDeskWords } from "./pages/desk-routes.tsx";
import { MessagePage } from "./pages/message-page.tsx";
import { renderPage } from "./pages/page.tsx";
import { pageSheet } from "./pages/page-sheet.ts";
import { pageWords } from "./pages/page-words.ts";
import { backToCheck, limitTo, limitTyped, readTyped } from "./pages/read-typed.tsx";
import { readTypedCode } from "./pages/read-typed-code.ts";
import { limitWaits, OutOfReach } from "./patience.ts";
import { peopleWords } from "./people/people-words.ts";
import { type Gate, makeGate } from "./people/rate-limit.ts";
import { requireSameOrigin } from "./people/same-origin.ts";
import type { RandomBytes } from "./people/token.ts";
import { LONGEST_QUERY, secureAnswers } from "./security.ts";
import type { Setting } from "./setting.ts";
import { SlipPage } from "./slip/slip-page.tsx";
import { printScript, slipSheet } from "./slip/slip-sheet.ts";
import { makeStaff } from "./staff/routes.tsx";
import { signInScript } from "./staff/sign-in-page.tsx";
import { staffSheet } from "./staff/staff-sheet.ts";

interface AppParts {
  widget: WidgetFiles;
  /** The content that came with the program, and the scripts of the editor's room by name. */
  bundled: Bundled;
  editorScripts: Readonly<Record<string, string>>;
  shelf: Shelf;
  /** The time in milliseconds. */
  now: () => number;
  randomBytes: RandomBytes;
}

/** Nobody mistypes a key thirty times in ten minutes. */
const SIGN_IN_LIMIT = { most: 30, window: 600_000 };
/** As many people as may sit behind one address. */
const COUNT_LIMIT = { most: 300, window: 60_000 };

/** The whole server, apart from where its edition and its clock come from. */
export function makeApp({ shelf, widget, bundled, editorScripts, now, randomBytes }: AppParts) {
  const app = new Hono<Setting>();
  app.use(secureAnswers);
  app.use(async (c, next) => {
    let opened: Promise<Editions> | undefined;
    // A page and what is said when it fails go by the same editions, read once.
    c.set("openEditions", (asked) => {
      if (opened === undefined || asked !== undefined) opened = shelf.open(c.env?.DB, now(), asked);
      return opened;
    });
    c.set("openAnyEditions", (wanted) => {
      const shelved = shelf.openAny(c.env?.DB, now(), wanted);
      opened = shelved.then(({ live }) => ({ live, asked: undefined }));
      return shelved;
    });
    c.set("now", now());
    c.set("randomBytes", randomBytes);
    if (new URL(c.req.url).search.length <= LONGEST_QUERY) return next();
    if (isApi(c))
      return sendProblem(c, "query-too-long", `A query may have ${LONGEST_QUERY} characters at most.`);
    return sendMessage(c, 414, pageWords.tooLongTitle, pageWords.tooLong);
  });
  const countGate = makeGate(COUNT_LIMIT, randomBytes);
  app.route("/api/counts", makeCounts(countGate));
  app.route("/api", makeApi());
  app.route("/embed", makeEmbed(widget));
  app.get("/healthz", (c) => c.text("ok", 200, { "Cache-Control": "no-store" }));
  addAssets(app, editorScripts);
  app.get("/desk", makeDesk(widget));
  app.post("/desk/say", limitTo(backToDesk), readDeskWords);
  app.get("/desk/say", backToDesk);
  addPages(app, countGate);
  app.use(limitRecords);
  const shown = keepShown();
  app.route("/preview", makePreviewRoutes(shown));
  // Whatever knows a person comes after this line. What comes before reads no cookie and changes nothing of anyone's.
  app.use(requireSameOrigin((c) => sendMessage(c, 403, peopleWords.crossSiteTitle, peopleWords.crossSite)));
  app.route("/desk", makeStaff(makeGate(SIGN_IN_LIMIT, randomBytes)));
  app.route("/editor", makeEditorRoom(makeGate(SIGN_IN_LIMIT, randomBytes), { bundled, shown }));
  app.notFound((c) => sendMessage(c, 404, pageWords.notFoundTitle, pageWords.notFound));
  app.onError((error, c) => {
    console.error("A request failed.", error);
    if (error instanceof OutOfReach)
      return sendMessage(c, 503, pageWords.outOfReachTitle, pageWords.outOfReach);
    if (isApi(c)) return sendProblem(c, "internal-error", "Please try again.");
    const isBehind = /^\/(?:desk|editor|preview)\//.test(`${c.req.path}/`);
    return sendMessage(c, 500, pageWords.errorTitle, isBehind ? pageWords.errorBehind : pageWords.error);
  });
  return app;
}

/** What is asked of the records behind the shop's own pages is waited for so long, in milliseconds: publishing writes much. */
const RECORDS_PATIENCE = 20_000;

const limitRecords: MiddlewareHandler<Setting> = (c, next) => {
  if (c.env?.DB) c.env = { ...c.env, DB: limitWaits(c.env.DB, RECORDS_PATIENCE) };
  return next();
};

function isApi(c: Context): boolean {
  return c.req.path.startsWith("/api/");
}

function addAssets(app: Hono<Setting>, editorScripts: AppParts["editorScripts"]): void {
  const files = [
    [
      "/assets/leafturn.css",
      "text/css; charset=utf-8",
      sheet + pictureSheet + verdictSheet + sumsSheet + printSheet + pageSheet,
    ],
    ["/assets/slip.css", "text/css; charset=utf-8", slipSheet],
    ["/assets/staff.css", "text/css; charset=utf-8", staffSheet],
    ["/assets/sign-in.js", "text/javascript; charset=utf-8", signInScript],
    ["/assets/desk.css", "text/css; charset=utf-8", deskSheet],
    ["/assets/print.js", "text/javascript; charset=utf-8", printScript],
    ["/assets/demo.css", "text/css; charset=utf-8", demoSheet],
    ["/assets/icon.svg", "image/svg+xml", icon],
    ["/assets/editor.css", "text/css; charset=utf-8", editorSheet],
    ...Object.entries(editorScripts).map(
      ([name, text]) => [`/assets/editor/${name}.js`, "text/javascript; charset=utf-8", text] as const,
    ),
  ] as const;
  app.use("/assets/*", etag());
  for (const [path, type, text] of files) {
    app.get(path, (c) => c.body(text, 200, { "Content-Type": type, "Cache-Control": "public, max-age=300" }));
  }
}

function addPages(app: Hono<Setting>, countGate: Gate): void {
  for (const [path, ShopPage] of [
    ["/", HomePage],
    ["/houseplants", HouseplantsPage],
    ["/help", HelpPage],
  ] as const) {
    app.get(path, async (c) => {
      const { live } = await c.var.openEditions();
      return c.html(renderPage(<ShopPage shop={live.edition.shop} />));
    });
  }
  app.get("/check", (c) => showCheck(c, countGate));
  app.post("/say", limitTyped, async (c) => readTyped(c, await decideCheck(c)));
  app.get("/say", backToCheck);
  for (const path of ["/say", "/desk/say"]) {
    app.all(path, (c) => {
      c.header("Allow", "GET, HEAD, POST");
      return sendMessage(c, 405, pageWords.methodTitle, pageWords.method);
    });
  }
  app.get("/slip", showSlip);
  app.get("/calendar.ics", sendCalendar);
  app.get("/c", (c) => openCode(c, c.req.query("code") ?? ""));
  app.get("/c/:code", (c) => openCode(c, c.req.param("code")));
  for (const path of [
    "/",
    "/houseplants",
    "/help",
    "/check",
    "/desk",
    "/c",
    "/slip",
    "/calendar.ics",
    "/c/:code",
    "/healthz",
    "/assets/*",
    "/embed/*",
  ]) {
    app.all(path, (c, next) => {
      if (["GET", "HEAD"].includes(c.req.method)) return next();
      c.header("Allow", "GET, HEAD");
      return sendMessage(c, 405, pageWords.methodTitle, pageWords.method);
    });
  }
}

async function decideCheck(c: Context<Setting>): Promise<Decision> {
  const { search } = new URL(c.req.url);
  const request = readCheckRequest(search);
  const asked = editionOf(request.query);
  const editions = await c.var.openEditions(asked);
  const today = readToday(c, editions.live, request.branch);
  return decide(editions.live, request, replay(editions, request.query, asked), today);
}

async function showCheck(c: Context<Setting>, countGate: Gate): Promise<Response> {
  const { origin, search } = new URL(c.req.url);
  const decision = await decideCheck(c);
  if ("goTo" in decision) return c.redirect(decision.goTo, 303);
  await countPage(c, countGate, decision.show, readCheckRequest(search));
  return c.html(renderPage(<CheckPage origin={origin} state={decision.show} />));
}

async function showSlip(c: Context<Setting>): Promise<Response> {
  const { origin, search } = new URL(c.req.url);
  const { query, branch: branchId } = readCheckRequest(search);
  const asked = editionOf(query);
  const editions = await c.var.openEditions(asked);
  const { case: kase, problems } = replay(editions, query, asked);
  const flow = editions.live;
  const branch = branchOf(flow, branchId);
  const today = readToday(c, flow, branchId);
  const notices = problems.map(({ sentence }) => sentence);
  return c.html(renderPage(<SlipPage {...{ flow, branch, origin, notices, today }} case={kase} />));
}

async function sendCalendar(c: Context<Setting>): Promise<Response> {
  const { origin, search } = new URL(c.req.url);
  const { query, typed, replace, branch: branchId } = readCheckRequest(search);
  const asked = editionOf(query);
  const editions = await c.var.openEditions(asked);
  const { case: kase } = replay(editions, query, asked);
  const flow = editions.live;
  if (nextQuestion(flow, kase) !== null)
    return sendMessage(c, 404, pageWords.calendarTitle, pageWords.calendar);
  const today = readToday(c, flow, branchId);
  const report = makeReport(flow, kase, { base: `${origin}/`, branch: branchOf(flow, branchId), today });
  const file = writeCalendar({ report, case: kase, typed, today, replace, now: c.var.now });
  if (!file.ok) return sendMessage(c, 404, pageWords.calendarTitle, file.sentence);
  return c.body(file.text, 200, {
    "Content-Type": "text/calendar; charset=utf-8",
    "Content-Disposition": 'attachment; filename="plant-check.ics"',
  });
}

async function openCode(c: Context<Setting>, code: string): Promise<Response> {
  if (code.trim() === "") return sendMessage(c, 200, pageWords.haveCode, pageWords.codeEmpty);
  const read = await readTypedCode(c, code);
  if (read.ok) return c.redirect(hrefToCheck(read.flow, read.case, [["look", "code"]]), 303);
  const { sentences, guesses } = read.failed;
  const may = guesses.length > 0 && (
    <>
      <p>{pageWords.codeGuesses}</p>
      <GuessesView guesses={guesses} hrefTo={(one) => `/c/${encodeURIComponent(one)}`} />
    </>
  );
  return sendMessage(c, 404, pageWords.codeTitle, sentences.join(" "), may);
}

/** The day at the branch, which is where the shopper most likely is. */
function readToday(c: Context<Setting>, flow: Flow, branch: string | undefined): CivilDate {
  return dayAt(placeOf(flow.edition.shop, branchOf(flow, branch)).timeZone, c.var.now);
}

async function sendMessage(
  c: Context<Setting>,
  status: 200 | 403 | 404 | 405 | 414 | 500 | 503,
  title: string,
  sentence: string,
  more?: Child,
) {
  const { live } = await c.var.openEditions();
  const { shop } = live.edition;
  return c.html(renderPage(<MessagePage {...{ shop, title, sentence, more }} />), status);
}
