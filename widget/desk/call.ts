import { answerTo, type Case, type Change, giveAnswer, isDayId, takeBack } from "../../flows/case.ts";
import { writeLink } from "../../flows/case-link.ts";
import type { Flow } from "../../flows/flow.ts";
import { describeAnswer, questionFor } from "../views/describe-answer.ts";
import * as checkWords from "../views/words.ts";

/** One call: its case, and every state it was in, so that each step can be undone. */
export class Call {
  readonly flow: Flow;
  #case: Case;
  readonly #before: Case[] = [];
  /** Sentences to read before going on. */
  notices: readonly string[] = [];

  constructor(flow: Flow, kase: Case, notices: readonly string[] = []) {
    this.flow = flow;
    this.#case = kase;
    this.notices = notices;
  }

  get case(): Case {
    return this.#case;
  }

  /** The case as a query. */
  get query(): string {
    return writeLink(this.flow, this.#case);
  }

  /** The answer in words; null when it changes nothing. */
  answer(to: string, is: string): string | null {
    if (answerTo(this.#case, to) === is) return null;
    this.#change(giveAnswer(this.flow, this.#case, to, is));
    return describeAnswer(this.flow, { to, is }).answer;
  }

  takeBack(to: string): void {
    this.#change(takeBack(this.flow, this.#case, to));
  }

  /** Back to the state before the last step; to the case without its last answer where no step is known. */
  undo(): boolean {
    const before = this.#before.pop();
    const last = this.#case.answers.findLast(({ to }) => !isDayId(to));
    if (before === undefined && last === undefined) return false;
    this.notices = [];
    this.#case = before ?? takeBack(this.flow, this.#case, last?.to ?? "").case;
    return true;
  }

  /** Goes on with another case; the one in hand can be come back to by undoing. */
  open(kase: Case, notices: readonly string[] = []): void {
    this.#before.push(this.#case);
    this.#case = kase;
    this.notices = notices;
  }

  /** What the browser's own Back and Forward lead to. */
  revisit(kase: Case): void {
    this.#case = kase;
    this.#before.length = 0;
    this.notices = [];
  }

  #change({ case: kase, dropped }: Change): void {
    this.#before.push(this.#case);
    this.#case = kase;
    const prompts = dropped.map(({ to }) => `“${questionFor(this.flow, to)?.prompt ?? to}”`);
    this.notices = prompts.length > 0 ? [checkWords.dropped(prompts.join(" "))] : [];
  }
}
