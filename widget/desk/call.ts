import { answerTo, type Case, type Change, giveAnswer, isDayId, takeBack } from "../../flows/case.ts";
import type { RemarkName } from "../../flows/case-link.ts";
import { dropRemark, type Piece, type Remarks, takePieces } from "../../flows/desk/pieces.ts";
import type { Flow } from "../../flows/flow.ts";
import { hrefToDesk } from "../check/desk-ways.ts";
import { describeAnswer, questionFor } from "../views/describe-answer.ts";
import * as checkWords from "../views/words.ts";

/** What the caller has told: the case, and what goes beside it. */
interface Told {
  case: Case;
  remarks: Remarks;
}

/** One call: what was told, and every state it was in, so that each step can be undone. */
export class Call {
  readonly flow: Flow;
  #told: Told;
  readonly #before: Told[] = [];
  /** Sentences to read before going on. */
  notices: readonly string[] = [];

  constructor(flow: Flow, kase: Case, remarks: Remarks = {}, notices: readonly string[] = []) {
    this.flow = flow;
    this.#told = { case: kase, remarks };
    this.notices = notices;
  }

  get case(): Case {
    return this.#told.case;
  }

  get remarks(): Remarks {
    return this.#told.remarks;
  }

  /** The call as a query, with its question mark. */
  get search(): string {
    return hrefToDesk(this.flow, this.case, this.remarks).replace(/^[^?]*/, "");
  }

  /** The answer in words; null when it changes nothing. */
  answer(to: string, is: string): string | null {
    if (answerTo(this.case, to) === is) return null;
    this.#change(giveAnswer(this.flow, this.case, to, is));
    return describeAnswer(this.flow, { to, is }).answer;
  }

  /** Everything that was agreed to, as one step. */
  take(pieces: readonly Piece[]): void {
    const { dropped, ...told } = takePieces(this.flow, this.case, this.remarks, pieces);
    this.#step(told, this.#sayDropped(dropped));
  }

  takeBack(to: string): void {
    this.#change(takeBack(this.flow, this.case, to));
  }

  takeBackRemark(name: RemarkName, id: string): void {
    this.#step({ case: this.case, remarks: dropRemark(this.remarks, name, id) });
  }

  /** Back to the state before the last step; to the case without its last answer where no step is known. */
  undo(): boolean {
    const before = this.#before.pop();
    const last = this.case.answers.findLast(({ to }) => !isDayId(to));
    if (before === undefined && last === undefined) return false;
    this.notices = [];
    this.#told = before ?? { ...this.#told, case: takeBack(this.flow, this.case, last?.to ?? "").case };
    return true;
  }

  /** Goes on with another case; the one in hand can be come back to by undoing. */
  open(kase: Case, notices: readonly string[] = []): void {
    this.#step({ case: kase, remarks: {} }, notices);
  }

  /** What the browser's own Back and Forward lead to. */
  revisit(kase: Case, remarks: Remarks): void {
    this.#told = { case: kase, remarks };
    this.#before.length = 0;
    this.notices = [];
  }

  #change({ case: kase, dropped }: Change): void {
    this.#step({ case: kase, remarks: this.remarks }, this.#sayDropped(dropped));
  }

  #step(told: Told, notices: readonly string[] = []): void {
    this.#before.push(this.#told);
    this.#told = told;
    this.notices = notices;
  }

  #sayDropped(dropped: Change["dropped"]): string[] {
    const prompts = dropped.map(({ to }) => `“${questionFor(this.flow, to)?.prompt ?? to}”`);
    return prompts.length > 0 ? [checkWords.dropped(prompts.join(" "))] : [];
  }
}
