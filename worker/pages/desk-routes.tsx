import type { Context } from "hono";
import type { Case } from "../../flows/case.ts";
import { answerTo, giveAnswer } from "../../flows/case.ts";
import { editionOf } from "../../flows/case-link.ts";
import { editionsMeant } from "../../flows/desk/mishearing.ts";
import { layPieces, type Remarks } from "../../flows/desk/pieces.ts";
import { findHosts } from "../../flows/find-host.ts";
import type { Flow } from "../../flows/flow.ts";
import { placeOf } from "../../flows/place.ts";
import { propose } from "../../flows/understand/propose.ts";
import { hrefToDesk } from "../../widget/check/desk-ways.ts";
import { makeReport } from "../../widget/check/make-report.ts";
import { type CheckRequest, readCheckRequest, readRemarks } from "../../widget/check/read-request.ts";
import { type Replay, replay } from "../../widget/check/replay.ts";
import { questionFor } from "../../widget/views/describe-answer.ts";
import { makeDeskState } from "../../widget/views/desk/desk-state.ts";
import type { Report } from "../../widget/views/report.ts";
import * as words from "../../widget/views/words.ts";
import { dayAt } from "../day-at.ts";
import type { Shelved } from "../editions.ts";
import type { WidgetFiles } from "../embed/widget-files.ts";
import type { Setting } from "../setting.ts";
import { DeskPage } from "./desk-page.tsx";
import { renderPage } from "./page.tsx";
import { readSaid } from "./read-typed.tsx";
import { readCodeUnder } from "./read-typed-code.ts";

/** The phone desk as a page. An answer, a plant's name or a code comes as a query, and the address stays the case. */
export function makeDesk({ desk, files }: WidgetFiles) {
  const file = files[desk];
  if (file === undefined) throw new Error("The build has no script for the desk.");
  const script = { path: desk, file };
  return async (c: Context<Setting>): Promise<Response> => {
    const code = new URL(c.req.url).searchParams.get("code") ?? "";
    const isCode = code.trim() !== "";
    const call = await readCall(c, isCode ? editionsMeant(code) : []);
    const { flow, case: kase, remarks } = call;
    const taken = isCode ? readCodeUnder(call.shelved, code) : null;
    if (taken?.ok) return c.redirect(hrefToDesk(taken.flow, taken.case), 303);
    const plant = findPlant(flow, kase, call.request.plant);
    if (plant !== null && typeof plant !== "string") return c.redirect(hrefToDesk(flow, plant, remarks), 303);
    const notices = [...call.notices, ...(plant === null ? [] : [plant])];
    const state = makeDeskState(reportOf(c, call), kase, {
      notices,
      takeOver: taken?.failed ?? null,
      remarks,
    });
    return c.html(renderPage(<DeskPage state={state} script={script} />));
  };
}

/** To the desk with the same case. */
export function backToDesk(c: Context): Response {
  return c.redirect(`/desk${new URL(c.req.url).search}`, 303);
}

/** The caller's own words where no script reads them: like those of a shopper, they are neither kept nor logged. */
export async function readDeskWords(c: Context<Setting>): Promise<Response> {
  const typed = await readSaid(c);
  if (typed.trim() === "") return backToDesk(c);
  const call = await readCall(c);
  const { flow, case: kase, notices, remarks } = call;
  const report = reportOf(c, call);
  const state = makeDeskState(report, kase, { notices, remarks });
  const proposal = propose(flow, kase, state.desk.best?.question ?? null, typed);
  const heard = { proposal, pieces: layPieces(proposal) };
  c.header("Cache-Control", "no-store");
  // The live desk would not know what was understood here, so that its script stays away until that is agreed to.
  return c.html(renderPage(<DeskPage state={{ ...state, heard }} script={null} />));
}

interface CallRead {
  flow: Flow;
  case: Case;
  remarks: Remarks;
  request: CheckRequest;
  notices: string[];
  shelved: Shelved;
}

/** The call in the address. `others`: editions that are wanted as well, so that all come with one read. */
async function readCall(c: Context<Setting>, others: readonly number[] = []): Promise<CallRead> {
  const request = readCheckRequest(new URL(c.req.url).search);
  const number = editionOf(request.query);
  const shelved = await c.var.openAnyEditions([...(number === undefined ? [] : [number]), ...others]);
  const flow = shelved.live;
  const asked = shelved.found.find(({ edition }) => edition.number === number);
  const replayed = replay({ live: flow, asked }, request.query, number);
  const notices = collectNotices(flow, request, replayed);
  return { flow, case: replayed.case, remarks: readRemarks(request.typed), request, notices, shelved };
}

function reportOf(c: Context<Setting>, { flow, case: kase, remarks }: CallRead): Report {
  const today = dayAt(placeOf(flow.edition.shop, null).timeZone, c.var.now);
  return makeReport(flow, kase, { base: `${new URL(c.req.url).origin}/`, today, remarks });
}

/** A typed name: the case with its plant, or a sentence when it is not clear which; null when nothing was typed. */
function findPlant(flow: Flow, kase: Case, typed: string | undefined): Case | string | null {
  const question = flow.hostQuestion;
  if (!typed || !question || answerTo(kase, question.id) !== undefined) return null;
  const [best, ...others] = findHosts(flow, typed);
  if (best === undefined) return words.typedUnknown(typed);
  const isExact = [best.name, best.botanical, ...best.alsoCalled].some(
    (name) => name?.toLowerCase() === typed.toLowerCase(),
  );
  if (isExact || others.length === 0) return giveAnswer(flow, kase, question.id, best.id).case;
  return `${words.didYouMean(typed)} ${[best, ...others].map(({ name }) => name).join(", ")}`;
}

function collectNotices(flow: Flow, { dropped }: CheckRequest, { edition, problems }: Replay): string[] {
  const prompts = dropped.flatMap((id) => questionFor(flow, id)?.prompt ?? []);
  return [
    ...(edition?.sentence ? [edition.sentence] : []),
    ...new Set(problems.map(({ sentence }) => sentence)),
    ...(prompts.length > 0 ? [words.dropped(prompts.map((prompt) => `“${prompt}”`).join(" "))] : []),
  ];
}
