import { flushSync, render, useState } from "hono/jsx/dom";
import { readLink } from "../../flows/case-link.ts";
import { keepPlaces, type Place } from "../../flows/desk/places.ts";
import { makeDeskWays } from "../check/desk-ways.ts";
import { makeReport } from "../check/make-report.ts";
import { readToday } from "../element/today.ts";
import { DeskScreen } from "../views/desk/desk-screen.tsx";
import { type DeskState, type FailedTakeOver, makeDeskState } from "../views/desk/desk-state.ts";
import type { DeskWays, LiveDesk, Panel } from "../views/desk/desk-ways.ts";
import * as words from "../views/desk/desk-words.ts";
import { sayVerdict } from "../views/report.ts";
import * as checkWords from "../views/words.ts";
import type { Call } from "./call.ts";
import { emptyField, type FieldState, readField } from "./read-field.ts";
import { takeOver } from "./take-over.ts";

interface Showing {
  state: DeskState;
  ways: DeskWays;
}

type ListName = "questions" | "rows";

/** Shows a call, and carries every press and key to it. Nothing that is answered leaves the browser. */
export class LiveScreen {
  readonly #base: string;
  readonly #call: Call;
  readonly #root: HTMLElement;
  #show: (next: Showing) => void = () => {};
  #state: DeskState;
  #field: FieldState = emptyField;
  #panel: Panel | null = null;
  #failed: FailedTakeOver | null = null;
  #said = "";
  #phone = "";
  readonly #places: Record<ListName, Place[]> = { questions: [], rows: [] };
  readonly #held: Record<ListName, boolean> = { questions: false, rows: false };

  constructor(base: string, call: Call, root: HTMLElement) {
    this.#base = base;
    this.#call = call;
    this.#root = root;
    this.#state = this.#makeState();
    this.#place();
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
    const { flow, case: kase, notices } = this.#call;
    return makeDeskState(
      makeReport(flow, kase, { base: this.#base, today: readToday() }),
      kase,
      notices,
      this.#failed,
    );
  }

  #look(): Showing {
    const { flow, case: kase } = this.#call;
    const ways = makeDeskWays(flow, kase);
    return { state: this.#state, ways: { ...ways, live: this.#makeLive() } };
  }

  #makeLive(): LiveDesk {
    const { clipboard, share } = navigator as Partial<Navigator>;
    const { chosen, found, at, hint } = this.#field;
    const { link } = this.#state.report;
    return {
      ...{ chosen, found, at, hint },
      panel: this.#panel,
      said: this.#said,
      phone: this.#phone,
      questions: this.#places.questions,
      rows: this.#places.rows,
      show: (panel) => this.#open(panel),
      answer: (to, is) => this.#answer(to, is),
      takeBack: (to) => this.#step(() => this.#call.takeBack(to), words.undone),
      undo: () => this.#undo(),
      onType: () => this.#type(),
      onKey: (event) => {
        if (event instanceof KeyboardEvent) this.#press(event);
      },
      hold: (list, isHeld) => this.#hold(list, isHeld),
      onPlant: (event) => this.#typePlant(readForm(event, "plant")),
      onCode: (event) => void this.#takeOver(readForm(event, "code")),
      openCode: (code) => void this.#takeOver(code),
      onPhone: ({ target }) => {
        if (target instanceof HTMLInputElement) this.#phone = target.value;
        this.#refresh();
      },
      copy:
        clipboard &&
        ((text) => {
          clipboard.writeText(text).then(
            () => this.#say(words.copied),
            () => this.#say(words.notCopied),
          );
        }),
      share:
        share &&
        (() => {
          // Closing the sheet without sharing is no failure.
          share.call(navigator, { title: checkWords.check, url: link }).catch(() => {});
        }),
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
    this.#field = emptyField;
    if (this.#input) this.#input.value = "";
    this.#state = this.#makeState();
    this.#place();
    const query = `?${this.#call.query}`;
    if (query !== location.search) history.pushState(null, "", query);
    this.#say([said, this.#sayState()].filter(Boolean).join(" "));
    this.#carryLinks();
  }

  #sayState(): string {
    const { desk, flow, report } = this.#state;
    if (desk.best === null) return `${words.due} ${sayVerdict(flow, report.verdict)}`;
    const [first] = desk.rows;
    const name = first && (flow.condition(first.condition)?.name ?? first.condition);
    const leads = name ? `${words.leads(name, words.standings[first.standing ?? "undetermined"])} ` : "";
    return `${leads}${words.nextIs(desk.best.question.prompt)}`;
  }

  #place(): void {
    const { desk } = this.#state;
    const open = desk.open.flatMap(({ questions }) => questions.map(({ id }) => id));
    const { questions, rows } = this.#places;
    this.#places.questions = keepPlaces(questions, open, this.#held.questions);
    const ids = desk.rows.map(({ condition }) => condition);
    this.#places.rows = keepPlaces(rows, ids, this.#held.rows);
  }

  #hold(list: ListName, isHeld: boolean): void {
    if (this.#held[list] === isHeld) return;
    this.#held[list] = isHeld;
    if (isHeld) return;
    this.#place();
    this.#refresh();
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
    const { flow } = this.#call;
    const field = readField(flow, this.#state.desk, input.value);
    const typed = input.value;
    if (field.act !== null || field.isUnknown) input.value = "";
    if (field.isUnknown) {
      this.#field = emptyField;
      this.#say(words.unknownKey(typed));
      return;
    }
    this.#field = field.act === null ? field : emptyField;
    if (field.act === null) this.#refresh();
    else if ("answer" in field.act) this.#answer(field.act.answer.to, field.act.answer.is);
    else this.#open(field.act.command === this.#panel ? null : field.act.command);
  }

  /** Keys that are no characters. Those held with Ctrl, Alt or Meta belong to the browser and to the screen reader. */
  #press(event: KeyboardEvent): void {
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    const { found, at } = this.#field;
    // Who types does not point: the lists are free to order themselves.
    this.#held.questions = false;
    this.#held.rows = false;
    if (event.key === "Backspace" && this.#input?.value === "" && !event.repeat) {
      event.preventDefault();
      this.#undo();
    } else if (event.key === "Escape") {
      this.#escape();
    } else if (event.key === "Enter" && found.length > 0) {
      event.preventDefault();
      const answer = found[at];
      if (answer) this.#answer(answer.to, answer.is);
    } else if ((event.key === "ArrowDown" || event.key === "ArrowUp") && found.length > 0) {
      event.preventDefault();
      const step = event.key === "ArrowDown" ? 1 : found.length - 1;
      this.#field = { ...this.#field, at: (at + step) % found.length };
      this.#refresh();
    }
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
    const input = this.#input;
    if (!input || name.trim() === "") return;
    const key = this.#state.desk.keys.keyOf.get(this.#call.flow.hostQuestion?.id ?? "") ?? "";
    input.value = `${key}${name.trim()}`;
    input.focus();
    this.#type();
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
    this.#step(() => this.#call.open(taken.case, taken.notices), words.opened(taken.case.answers.length));
    this.#input?.focus();
  }

  #revisit(): void {
    const { case: kase } = readLink(this.#call.flow, location.search.slice(1));
    this.#call.revisit(kase);
    this.#state = this.#makeState();
    this.#place();
    this.#say(this.#sayState());
    this.#carryLinks();
  }

  /** The links at the head of the page lead to the case in hand. */
  #carryLinks(): void {
    const { flow, case: kase } = this.#call;
    const { hrefToCheck, hrefToSlip } = makeDeskWays(flow, kase);
    const document = this.#root.ownerDocument;
    document.getElementById("desk-check")?.setAttribute("href", hrefToCheck);
    document.getElementById("desk-slip")?.setAttribute("href", hrefToSlip);
  }
}

/** What a form of the desk holds under a name. It is not sent. */
function readForm(event: Event, name: string): string {
  event.preventDefault();
  const form = event.currentTarget;
  return form instanceof HTMLFormElement ? String(new FormData(form).get(name) ?? "") : "";
}
