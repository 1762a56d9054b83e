import type { Case } from "../../../flows/case.ts";
import { findContradictions } from "../../../flows/case-link.ts";
import { cleanCode } from "../../../flows/crockford.ts";
import { type Desk, layDesk } from "../../../flows/desk/desk.ts";
import { type CodeGuess, guessCodes } from "../../../flows/desk/mishearing.ts";
import type { Piece, Remarks } from "../../../flows/desk/pieces.ts";
import type { Flow } from "../../../flows/flow.ts";
import type { Proposal } from "../../../flows/understand/propose.ts";
import { describeAnswers } from "../describe-answer.ts";
import type { Report } from "../report.ts";
import * as words from "./desk-words.ts";

/** What the desk shows of a call. */
export interface DeskState {
  flow: Flow;
  case: Case;
  report: Report;
  desk: Desk;
  /** What should be read before going on. */
  notices: readonly string[];
  takeOver: FailedTakeOver | null;
  remarks: Remarks;
  /** What was understood of the caller's words, while it waits to be agreed to. */
  heard: Heard | null;
}

/** What was understood, and which pieces of it are to be taken. */
export interface Heard {
  proposal: Proposal;
  pieces: readonly Piece[];
}

/** A code that could not be opened, and what may have been meant. */
export interface FailedTakeOver {
  typed: string;
  sentences: string[];
  guesses: GuessInWords[];
}

export interface GuessInWords {
  code: string;
  /** Which character is in question. */
  slip: string;
  /** Which case it would be. */
  about: string;
}

interface DeskStateParts {
  notices?: readonly string[];
  takeOver?: FailedTakeOver | null;
  remarks?: Remarks;
  heard?: Heard | null;
}

export function makeDeskState(report: Report, kase: Case, parts: DeskStateParts = {}): DeskState {
  const { flow, verdict } = report;
  const { notices = [], takeOver = null, remarks = {}, heard = null } = parts;
  const told = findContradictions(flow, kase).map(({ sentence }) => sentence);
  const desk = layDesk(flow, kase, verdict);
  return { flow, case: kase, report, desk, notices: [...notices, ...told], takeOver, remarks, heard };
}

const SHORT = 5;

/** Points at what may be wrong with a code. `sentence`: why it could not be read. */
export function explainCode(
  flowOf: (edition: number) => Flow | undefined,
  typed: string,
  sentence: string,
): FailedTakeOver {
  const symbols = cleanCode(typed);
  const sentences = [sentence];
  if (symbols.length > 0 && symbols.length < SHORT) sentences.push(words.halfCode);
  else if (symbols.length > 0) sentences.push(words.typedCount(symbols.length));
  const guesses = guessCodes(flowOf, typed).map((guess) => describeGuess(flowOf, symbols, guess));
  return { typed, sentences, guesses };
}

function describeGuess(
  flowOf: (edition: number) => Flow | undefined,
  symbols: readonly string[],
  { code, at, slip, case: kase }: CodeGuess,
): GuessInWords {
  const flow = flowOf(kase.edition);
  const symbol = code.charAt(at);
  const said =
    slip === "heard"
      ? words.heard(at + 1, symbols[at] ?? "", symbol)
      : slip === "swapped"
        ? words.swapped(at + 1)
        : words.missing(symbol);
  return { code, slip: said, about: flow ? describeCase(flow, kase) : "" };
}

const MOST_TOLD = 3;

/** A case in a line: the plant, and the first answers. */
export function describeCase(flow: Flow, kase: Case): string {
  const isHost = (to: string) => to === flow.hostQuestion?.id;
  const all = describeAnswers(flow, kase).sort((a, b) => Number(isHost(b.to)) - Number(isHost(a.to)));
  if (all.length === 0) return words.nothingIn;
  const told = all.slice(0, MOST_TOLD).map(({ answer }) => answer);
  const left = all.length - told.length;
  return [...told, ...(left > 0 ? [words.more(left)] : [])].join("; ");
}
