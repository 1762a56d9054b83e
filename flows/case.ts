import { isCaseDay } from "./calendar/civil-date.ts";
import type { Fact } from "./edition.ts";
import { closeFindings, PRESENT } from "./finding-table.ts";
import { type Flow, NOT_SURE, type Prompt, type Reply } from "./flow.ts";

/**
 * One answer.
 * `to`: a question id, "host", or the id of a finding that was volunteered.
 * `is`: an option id, a host id, "yes" or "no" (volunteered findings), or "not-sure".
 * A case with a second look also holds days: `began` (the plan) and `looked` (the latest look), as "2026-05-04".
 */
export interface Answer {
  to: string;
  is: string;
}

/** The answers given so far, in order. That is all a case is; everything else is computed from it. */
export interface Case {
  edition: number;
  answers: readonly Answer[];
}

/** What the answers establish: closed findings, the host plant, and the household. */
export interface Knowledge {
  /** UNKNOWN, PRESENT or ABSENT per finding. */
  known: Uint8Array;
  /** `undefined`: not asked yet; `null`: the shopper does not know. */
  host: string | null | undefined;
  facts: Partial<Record<Fact, "yes" | "no">>;
  /** Ids of all questions answered, "not sure" included. */
  answered: ReadonlySet<string>;
}

export const dayIds = ["began", "looked"] as const;
export type DayId = (typeof dayIds)[number];

export function isDayId(to: string): to is DayId {
  return (dayIds as readonly string[]).includes(to);
}

export function newCase(flow: Flow): Case {
  return { edition: flow.edition.number, answers: [] };
}

export function answerTo(kase: Case, to: string): string | undefined {
  return kase.answers.find((answer) => answer.to === to)?.is;
}

/** True when the edition knows both the question (or finding, or host) and the answer. */
export function isAnswer(flow: Flow, { to, is }: Answer): boolean {
  const prompt = flow.promptById.get(to);
  if (prompt) return prompt.replies.some((reply) => reply.id === is);
  if (to === flow.hostQuestion?.id) return is === NOT_SURE || flow.host(is) !== undefined;
  if (isDayId(to)) return flow.looks !== undefined && isCaseDay(is);
  return flow.finding(to) !== undefined && (is === "yes" || is === "no");
}

/** Reads the answers of a case. The result depends on the set of answers, never on their order. */
export function know(flow: Flow, kase: Case): Knowledge {
  const present: number[] = [];
  const absent: number[] = [];
  const facts: Partial<Record<Fact, "yes" | "no">> = {};
  const answered = new Set<string>();
  let host: string | null | undefined;
  for (const { to, is } of kase.answers) {
    answered.add(to);
    if (to === flow.hostQuestion?.id) {
      host = is === NOT_SURE ? null : is;
      continue;
    }
    const reply = replyTo(flow, to, is);
    if (reply) {
      present.push(...reply.present);
      absent.push(...reply.absent);
      Object.assign(facts, reply.facts);
    } else if (flow.findings.index.has(to)) {
      (is === "yes" ? present : absent).push(flow.findings.at(to));
    }
  }
  return { known: closeFindings(flow.findings, present, absent), host, facts, answered };
}

function replyTo(flow: Flow, to: string, is: string): Reply | undefined {
  return flow.promptById.get(to)?.replies.find((reply) => reply.id === is);
}

/** Whether a question's condition for asking holds. The opening has none. */
export function applies(prompt: Prompt, known: Uint8Array): boolean {
  if (prompt.whenUnsure && !known.includes(PRESENT)) return true;
  const { gateAny, gateNone } = prompt;
  if (gateAny.length > 0 && !gateAny.some((finding) => known[finding] === PRESENT)) return false;
  return !gateNone.some((finding) => known[finding] === PRESENT);
}

/** A case after a change, and the later answers that no longer apply to it. */
export interface Change {
  case: Case;
  dropped: Answer[];
}

/**
 * Gives or changes an answer in place. Every other answer is kept as long as its question still applies, and so is what
 * was given out of turn; the rest is returned in `dropped`, so that nothing disappears unsaid.
 */
export function giveAnswer(flow: Flow, kase: Case, to: string, is: string): Change {
  const given = { to, is };
  const at = kase.answers.findIndex((answer) => answer.to === to);
  if (at < 0) return { case: { ...kase, answers: [...kase.answers, given] }, dropped: [] };
  if (kase.answers[at]?.is === is) return { case: kase, dropped: [] };
  return replaceAt(flow, kase, at, [given]);
}

/** Removes one answer, and those later ones that applied only because of it. */
export function takeBack(flow: Flow, kase: Case, to: string): Change {
  const at = kase.answers.findIndex((answer) => answer.to === to);
  return at < 0 ? { case: kase, dropped: [] } : replaceAt(flow, kase, at, []);
}

/** Puts `instead` in the place of one answer, and drops the later ones whose questions applied only because of it. */
function replaceAt(flow: Flow, kase: Case, at: number, instead: readonly Answer[]): Change {
  const later = kase.answers.slice(at + 1);
  const inTurn = applying(flow, kase.answers.slice(0, at + 1), later);
  const outOfTurn = later.filter((answer) => !inTurn.has(answer));
  const first = [...kase.answers.slice(0, at), ...instead];
  const still = applying(flow, [...first, ...outOfTurn], [...inTurn]);
  const dropped = later.filter((answer) => inTurn.has(answer) && !still.has(answer));
  const kept = later.filter((answer) => !dropped.includes(answer));
  return { case: { ...kase, answers: [...first, ...kept] }, dropped };
}

/** Those of some answers whose questions apply: because of the given ones, or of each other. */
function applying(flow: Flow, given: readonly Answer[], answers: readonly Answer[]): Set<Answer> {
  const found = new Set<Answer>();
  for (let before = -1; before < found.size; ) {
    before = found.size;
    for (const answer of answers) {
      if (!found.has(answer) && fits(flow, [...given, ...found], answer)) found.add(answer);
    }
  }
  return found;
}

function fits(flow: Flow, answers: readonly Answer[], { to }: Answer): boolean {
  const prompt = flow.promptById.get(to);
  if (prompt?.question.kind !== "finding") return true;
  return applies(prompt, know(flow, { edition: flow.edition.number, answers }).known);
}
