import { flushSync, render, useState } from "hono/jsx/dom";
import { readLink } from "../../flows/case-link.ts";
import { makeDeskWays } from "../check/desk-ways.ts";
import { makeReport } from "../check/make-report.ts";
import { readCheckRequest, readRemarks } from "../check/read-request.ts";
import { readToday } from "../element/today.ts";
import { DeskScreen } from "../views/desk/desk-screen.tsx";
import { type DeskState, type FailedTakeOver, makeDeskState } from "../views/desk/desk-state.ts";
import type { DeskWays, LiveDesk, Panel } from "../views/desk/desk-ways.ts";
import * as words from "../views/desk/desk-words.ts";
import type { Call } from "./call.ts";
import { CallersWords, isNothing } from "./callers-words.ts";
import { guardPresses } from "./guard-presses.ts";
import { makeSayLoader } from "./load-say.ts";
import { makeTools, readForm } from "./make-tools.ts";
import { emptyField, type FieldState, looksSame, readField } from "./read-field.ts";
import { sayHeard, sayState } from "./say-state.ts";
import { StillLists } from "./still-lists.ts";
import { takeOver } from "./take-over.ts";

/** Milliseconds after which waiting is told. */
const SLOW = 300;

interface Showing {
  state: DeskState;
  ways: DeskWays;
}

/** Shows a call, and carries every press and key to it. Nothing that is answered or typed leaves the browser. */
export class LiveScreen {
  readonly #base: string;
  readonly #call: Call;
  readonly #root: HTMLElement;
  readonly #lists = new StillLists();
  readonly #words: CallersWords;
  readonly #guard: () => void;
  #show: (next: Showing) => void = () => {};
  #state: DeskState;
  #field: FieldState = emptyField;
  #panel: Panel | null = null;
  #failed: FailedTakeOver | null = null;
  #said = "";
  #phone = "";

  constructor(base: string, call: Call, root: HTMLElement) {
    this.#base = base;
    this.#call = call;
    this.#root = root;
    this.#words = new CallersWords(makeSayLoader(base, call.flow));
    this.#guard = guardPresses(root, () => this.#say(words.stillSettling));
    this.#state = this.#makeState();
    this.#lists.place(this.#state.desk);
  }

  open(): void {
    const first = this.#look();
    const Screen = () => {
      const [showing, show] = useState(first);
      this.#show = show;
      return <DeskScreen state={showing.state} ways={showing.ways} />;
    };
    this.#root.replaceChildren();
    render(<Screen />, this.#root);
    this.#input?.focus();
    addEventListener("popstate", () => this.#revisit());
    this.#carryLinks();
  }

  get #input(): HTMLInputElement | null {
    const found = this.#root.ownerDocument.getElementById("desk-keys");
    return found instanceof HTMLInputElement ? found : null;
  }

  #makeState(): DeskState {
    const { flow, case: kase, notices, remarks } = this.#call;
    const report = makeReport(flow, kase, { base: this.#base, today: readToday(), remarks });
    return makeDeskState(report, kase, { notices, takeOver: this.#failed, remarks });
  }

  #look(): Showing {
    const { flow, case: kase, remarks } = this.#call;
    const ways = makeDeskWays(flow, kase, remarks);
    return { state: { ...this.#state, heard: this.#words.heard }, ways: { ...ways, live: this.#makeLive() } };
  }

  #makeLive(): LiveDesk {
    const { chosen, found, at, hint } = this.#field;
    const { questions, rows } = this.#lists;
    return {
      ...{ chosen, found, at, hint, questions, rows },
      ...{ panel: this.#panel, said: this.#said, phone: this.#phone },
      show: (panel) => this.#open(panel),
      answer: (to, is) => this.#answer(to, is),
      takeBack: (to) => this.#step(() => this.#call.takeBack(to), words.undone),
      takeBackRemark: (name, id) => this.#step(() => this.#call.takeBackRemark(name, id), words.undone),
      undo: () => this.#undo(),
      onType: () => this.#type(),
      onKey: (event) => {
        if (event instanceof KeyboardEvent) this.#press(event);
      },
      beginWords: () => this.#putIntoField("/"),
      onPiece: (piece, { target }) => {
        if (target instanceof HTMLInputElement) this.#words.set(piece, target.checked);
        this.#refresh();
      },
      leaveOut: (piece) => {
        this.#words.set(piece, false);
        this.#refresh();
      },
      onTake: (event) => {
        event.preventDefault();
        this.#take();
      },
      backToWords: () => this.#backToWords(),
      hold: (list, isHeld) => {
        if (!this.#lists.hold(list, isHeld)) return;
        this.#lists.place(this.#state.desk);
        this.#refresh();
      },
      onPlant: (event) => this.#typePlant(readForm(event, "plant")),
      onCode: (event) => void this.#takeOver(readForm(event, "code")),
      openCode: (code) => void this.#takeOver(code),
      onPhone: ({ target }) => {
        if (target instanceof HTMLInputElement) this.#phone = target.value;
        this.#refresh();
      },
      ...makeTools(this.#state.report.link, (said) => this.#say(said)),
    };
  }

  #refresh(): void {
    const showing = this.#look();
    flushSync(() => this.#show(showing));
  }

  #say(sentence: string): void {
    this.#said = sentence;
    this.#refresh();
  }

  /** A step of the call: everything is worked out anew and said in one sentence. */
  #step(act: () => void, said: string | null): void {
    act();
    this.#failed = null;
    this.#words.settle(this.#call.case);
    this.#field = emptyField;
    if (this.#input) this.#input.value = "";
    this.#state = this.#makeState();
    this.#lists.place(this.#state.desk);
    const { search } = this.#call;
    if (search !== location.search) history.pushState(null, "", search);
    this.#say([said, sayState(this.#state)].filter(Boolean).join(" "));
    this.#carryLinks();
  }

  #answer(to: string, is: string): void {
    let said: string | null = null;
    this.#step(() => {
      said = this.#call.answer(to, is);
    }, null);
    if (said !== null) this.#say(`${said}. ${this.#said}`);
    this.#focusAgain();
  }

  /** What was pressed may be gone: then the field takes over, and nobody is lost at the top of the page. */
  #focusAgain(): void {
    const { activeElement, body } = this.#root.ownerDocument;
    if (activeElement === null || activeElement === body) this.#input?.focus({ preventScroll: true });
  }

  #undo(): void {
    let isDone = false;
    this.#step(() => {
      isDone = this.#call.undo();
    }, "");
    this.#say(isDone ? `${words.undone} ${this.#said}` : words.nothingToUndo);
    this.#focusAgain();
  }

  #type(): void {
    const input = this.#input;
    if (!input) return;
    const typed = input.value;
    const field = readField(this.#call.flow, this.#state.desk, typed);
    if (field.words !== null) this.#words.prepare();
    else if (this.#words.heard !== null && typed !== "" && !(field.act && "command" in field.act)) {
      input.value = "";
      this.#say(this.#words.press(this.#state, typed));
      return;
    }
    if (field.act !== null || field.isUnknown) input.value = "";
    const before = this.#field;
    this.#field = field.act === null && !field.isUnknown ? field : emptyField;
    // A long sentence changes nothing on the screen from one letter to the next.
    if (field.words !== null && looksSame(before, field)) return;
    if (field.isUnknown) this.#say(words.unknownKey(typed));
    else if (field.act === null) this.#refresh();
    else if ("answer" in field.act) this.#answer(field.act.answer.to, field.act.answer.is);
    else this.#open(field.act.command === this.#panel ? null : field.act.command);
  }

  /** Keys that are no characters. Those held with Ctrl, Alt or Meta belong to the browser and to the screen reader. */
  #press(event: KeyboardEvent): void {
    // Enter and Backspace also end a word that is put together by an input method.
    if (event.ctrlKey || event.altKey || event.metaKey || event.isComposing) return;
    const isEmpty = this.#input?.value === "";
    this.#lists.free();
    if (event.key === "Backspace" && isEmpty && !event.repeat) {
      event.preventDefault();
      if (this.#words.heard !== null) this.#backToWords();
      else this.#undo();
    } else if (event.key === "Escape") {
      if (this.#words.heard !== null && isEmpty) this.#backToWords();
      else this.#escape();
    } else if (event.key === "Enter") {
      event.preventDefault();
      // A key that is held down must not agree to what it has just asked for.
      if (!event.repeat) this.#enter(isEmpty);
    } else if (event.key === "ArrowDown" || event.key === "ArrowUp") {
      this.#move(event);
    }
  }

  #enter(isEmpty: boolean): void {
    const { found, at, words: typed } = this.#field;
    const answer = found[at];
    if (answer) this.#answer(answer.to, answer.is);
    else if (typed !== null && typed.trim() !== "") void this.#read(typed);
    else if (isEmpty && this.#words.heard !== null) this.#take();
  }

  #move(event: KeyboardEvent): void {
    const { found, at } = this.#field;
    if (found.length === 0) return;
    event.preventDefault();
    const last = found.length - 1;
    const next = event.key === "ArrowDown" ? (at === last ? 0 : at + 1) : at <= 0 ? last : at - 1;
    this.#field = { ...this.#field, at: next };
    this.#refresh();
  }

  /** Reads the caller's own words. What was understood waits to be agreed to; nothing counts before. */
  async #read(typed: string): Promise<void> {
    const before = this.#input?.value;
    const timer = setTimeout(() => this.#say(words.reading), SLOW);
    const heard = await this.#words.read(this.#state, typed);
    clearTimeout(timer);
    // Who has typed on, or answered, means something else by now.
    if (this.#input?.value !== before) return;
    if (heard === null || isNothing(heard)) {
      const other = heard !== null && this.#field.found.length > 0 ? ` ${words.orByWords}` : "";
      this.#say(heard === null ? words.cannotRead : `${words.notUnderstood}${other}`);
      return;
    }
    this.#words.heard = heard;
    this.#field = emptyField;
    if (this.#input) this.#input.value = "";
    this.#guard();
    this.#say(sayHeard(this.#state, heard));
  }

  #take(): void {
    const pieces = this.#words.take();
    if (pieces.length === 0) this.#say(words.noneTaken);
    else this.#step(() => this.#call.take(pieces), words.taken(pieces.length));
    this.#input?.focus({ preventScroll: true });
  }

  /** What was understood is put away; the words are in the field again, to be mended. */
  #backToWords(): void {
    this.#putIntoField(`/${this.#words.putAway()}`);
  }

  #putIntoField(text: string): void {
    const input = this.#input;
    if (!input) return;
    input.value = text;
    input.focus();
    this.#type();
  }

  #escape(): void {
    if (this.#input) this.#input.value = "";
    this.#field = emptyField;
    this.#open(null);
  }

  #open(panel: Panel | null): void {
    this.#panel = panel;
    if (panel !== "take-over" && this.#failed !== null) {
      this.#failed = null;
      this.#state = this.#makeState();
    }
    this.#refresh();
    if (panel === "take-over") this.#root.ownerDocument.getElementById("desk-open-code")?.focus();
    else if (panel === null) this.#input?.focus();
  }

  #typePlant(name: string): void {
    if (name.trim() === "") return;
    const key = this.#state.desk.keys.keyOf.get(this.#call.flow.hostQuestion?.id ?? "") ?? "";
    this.#putIntoField(`${key}${name.trim()}`);
  }

  async #takeOver(code: string): Promise<void> {
    const taken = await takeOver(this.#call.flow, this.#base, code);
    if ("failed" in taken) {
      this.#failed = taken.failed;
      this.#state = this.#makeState();
      this.#say(`${taken.failed.sentences.join(" ")} ${words.codeKept}`);
      return;
    }
    this.#panel = null;
    this.#words.heard = null;
    this.#step(() => this.#call.open(taken.case, taken.notices), words.opened(taken.case.answers.length));
    this.#input?.focus();
  }

  #revisit(): void {
    const { query, typed } = readCheckRequest(location.search);
    this.#call.revisit(readLink(this.#call.flow, query).case, readRemarks(typed));
    this.#words.heard = null;
    this.#state = this.#makeState();
    this.#lists.place(this.#state.desk);
    this.#say(sayState(this.#state));
    this.#carryLinks();
  }

  /** The links at the head of the page lead to the case in hand. */
  #carryLinks(): void {
    const { flow, case: kase, remarks } = this.#call;
    const { hrefToCheck, hrefToSlip } = makeDeskWays(flow, kase, remarks);
    const document = this.#root.ownerDocument;
    document.getElementById("desk-check")?.setAttribute("href", hrefToCheck);
    document.getElementById("desk-slip")?.setAttribute("href", hrefToSlip);
  }
}
