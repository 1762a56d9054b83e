import type { CivilDate } from "../../flows/calendar/civil-date.ts";
import { answerTo, type Case, type Change, giveAnswer, isAnswer, takeBack } from "../../flows/case.ts";
import type { Branch, Host, Question } from "../../flows/edition.ts";
import { findHosts } from "../../flows/find-host.ts";
import { type Flow, NOT_SURE } from "../../flows/flow.ts";
import { nextQuestion } from "../../flows/next-question.ts";
import { lookDue } from "../../flows/second-look-due.ts";
import { questionFor } from "../views/describe-answer.ts";
import type { HostSearch } from "../views/host-question.tsx";
import type { Pair } from "../views/ways.ts";
import * as words from "../views/words.ts";
import { hrefToCheck, makeAside } from "./page-ways.ts";
import type { CheckRequest, Typed } from "./read-request.ts";
import type { Replay } from "./replay.ts";

/** What a page of the check shows. */
export interface CheckState {
  flow: Flow;
  case: Case;
  notices: string[];
  /** The answered question that is open for a change. */
  reopened: Question | null;
  /** The question to ask next; null when the verdict is due. */
  next: Question | null;
  /** What came of a plant's name, for whichever host question is on the page. */
  search: HostSearch | undefined;
  /** The day on which `next` looks at the plant again; null when `next` is any other question. */
  looking: CivilDate | null;
  /** That look is asked because a code was opened. */
  byCode: boolean;
  typed: Typed;
  branch: Branch | null;
  /** The day at the shopper's. */
  today: CivilDate;
  /** What every link takes along beside the case: numbers, branch, and today as the day it was made. */
  aside: readonly Pair[];
}

/** Either another address to go to, or a page to show. */
export type Decision = { goTo: string } | { show: CheckState };

/** `today` is the day at the shopper's. */
export function decide(flow: Flow, request: CheckRequest, replayed: Replay, today: CivilDate): Decision {
  const kase = replayed.case;
  const changing = request.change !== undefined && answerTo(kase, request.change) !== undefined;
  const reopened = changing ? (questionFor(flow, request.change ?? "") ?? null) : null;
  const branch = branchOf(flow, request.branch);
  const look = reopened ? null : lookToTake(flow, kase, request, today);
  const next = look ?? nextQuestion(flow, kase);
  const looking = look === null ? null : today;
  const asked = reopened ?? next;
  const notices = collectNotices(flow, request, replayed, asked?.kind === "host");
  const state: CheckState = {
    flow,
    case: kase,
    notices,
    reopened,
    next,
    looking,
    byCode: looking !== null && request.look === "code",
    typed: request.typed,
    branch,
    today,
    aside: makeAside(request.typed, branch, today),
    search: undefined,
  };

  if (asked?.kind === "host") return decideHost(state, asked, typedPlant(request, replayed), request.to);
  if (reopened && request.to !== undefined) return change(state, reopened, request.to);
  return { show: state };
}

/** A look is asked when it is due, when the shopper wants it, and when nothing says how long ago a code was given. */
function lookToTake(flow: Flow, kase: Case, { look, made }: CheckRequest, today: CivilDate): Question | null {
  const { question, due, days } = lookDue(flow, kase, today, made);
  return due || look === "ask" || (look === "code" && days === null) ? question : null;
}

/** The branch of that id; null when the shop has none such, and then all of them are shown. */
export function branchOf(flow: Flow, id: string | undefined): Branch | null {
  return flow.edition.shop.branches.find((branch) => branch.id === id) ?? null;
}

function decideHost(
  state: CheckState,
  question: Question,
  typed: string | undefined,
  to: string | undefined,
): Decision {
  if (state.reopened && to) return change(state, question, to);
  if (!typed) return { show: state };
  const found = findHosts(state.flow, typed);
  const [exact, ...others] = found.filter((host) => isNameOf(host, typed));
  if (exact && others.length === 0) return change(state, question, exact.id);
  return { show: { ...state, search: { typed, found } } };
}

/** Gives the answer and goes to the page that results, which names the answers set aside. */
function change(state: CheckState, question: Question, is: string): Decision {
  const changed = apply(state.flow, state.case, question.id, is);
  if (changed === null) return { show: { ...state, notices: [...state.notices, words.answerUnknown] } };
  const dropped = changed.dropped.map(({ to }) => ["dropped", to] as const);
  return { goTo: hrefToCheck(state.flow, changed.case, [...dropped, ...state.aside]) };
}

function apply(flow: Flow, kase: Case, to: string, is: string): Change | null {
  if (isAnswer(flow, { to, is })) return giveAnswer(flow, kase, to, is);
  // "Not sure" about a finding that was told unasked is the same as never having told it.
  return is === NOT_SURE && flow.finding(to) ? takeBack(flow, kase, to) : null;
}

/** The name to look for: typed into the field, or written into a link by hand. */
function typedPlant({ plant }: CheckRequest, { problems }: Replay): string | undefined {
  return plant ?? problems.find(({ code }) => code === "UNKNOWN_PLANT")?.part;
}

function isNameOf(host: Host, typed: string): boolean {
  const sought = typed.toLowerCase();
  return [host.name, host.botanical, ...host.alsoCalled].some((name) => name?.toLowerCase() === sought);
}

/** An unknown plant needs no notice where the host question is on the page: it says so itself. */
function collectNotices(flow: Flow, request: CheckRequest, replayed: Replay, asksHost: boolean): string[] {
  const notices: string[] = [];
  if (replayed.edition?.sentence) notices.push(replayed.edition.sentence);
  const problems = replayed.problems.filter(({ code }) => !(asksHost && code === "UNKNOWN_PLANT"));
  if (problems.length > 0)
    notices.push(words.linkProblems, ...new Set(problems.map(({ sentence }) => sentence)));
  notices.push(...replayed.contradictions.map(({ sentence }) => sentence));
  const dropped = request.dropped.flatMap((id) => questionFor(flow, id)?.prompt ?? []);
  if (dropped.length > 0) notices.push(words.dropped(dropped.map((prompt) => `“${prompt}”`).join(" ")));
  return notices;
}
