import { flushSync, render } from "hono/jsx/dom";
import type { CheckState } from "../check/decide.ts";
import { makeReport } from "../check/make-report.ts";
import { makePageWays } from "../check/page-ways.ts";
import { namedCondition, type Report } from "../views/report.ts";
import type { Ways } from "../views/ways.ts";
import * as words from "../views/words.ts";
import { Book, type Showing } from "./book.tsx";
import type { LoadedEdition, LoadedPictures, Whole } from "./load-editions.ts";
import type { Memory } from "./memory.ts";
import { isBackKey, moveTo, moveToOpening, readFollowed, readForm } from "./presses.ts";
import type { Session } from "./session.ts";
import type { Settings } from "./settings.ts";
import { tell } from "./tell.ts";
import { openTools } from "./tools.ts";

/** Where a conversation takes place. */
export interface Place {
  element: HTMLElement;
  root: ShadowRoot;
  settings: Settings;
  memory: Memory;
  /** Dresses it in what the verdict's views need besides. */
  addSheet(sheet: string): void;
}

/** Shows a session in the shadow root and carries every press to it. */
export class Conversation {
  readonly #place: Place;
  readonly #edition: LoadedEdition;
  readonly #session: Session;
  readonly #frame: HTMLElement;
  #whole: Whole | null = null;
  #pictures: LoadedPictures | null = null;
  #begun: [CheckState, boolean] | undefined;
  #missing = false;
  #said = "";
  #told = "";
  #heard: Showing["heard"] = null;
  #show: (next: Showing) => void = () => {};

  constructor(place: Place, edition: LoadedEdition, session: Session) {
    this.#place = place;
    this.#edition = edition;
    this.#session = session;
    this.#frame = makeFrame(place.root.ownerDocument);
    this.#frame.addEventListener("keydown", (event) => this.#goBack(event));
  }

  /** `resumed`: the tab remembered it, so the shopper may be reading elsewhere on the page by now. */
  open(resumed: boolean): void {
    const { element, root, memory } = this.#place;
    const first = this.#look();
    this.#begun = [first.state, resumed];
    memory.save(this.#session.query);
    const connect = (show: (next: Showing) => void) => {
      this.#show = show;
    };
    render(<Book first={first} connect={connect} />, this.#frame);
    root.replaceChildren(this.#frame);
    tell(element, "leafturn-started", { resumed, edition: first.state.flow.edition.number });
    this.#tellOutcome(first);
    if (!resumed) moveToOpening(root, this.#frame, first);
    this.#loadWhole();
    void this.#loadPictures();
  }

  #look(): Showing {
    const { state } = this.#session;
    const { base } = this.#place.settings;
    const due = state.reopened === null && state.next === null;
    const report = due ? makeReport(state.flow, state.case, { base, ...state }) : null;
    const retry = () => {
      this.#loadWhole();
      this.#refresh();
    };
    return {
      state,
      ways: this.#makeWays(report),
      report,
      PlannedVerdict: this.#whole?.PlannedVerdict ?? null,
      missing: this.#missing,
      heard: this.#heard,
      retry,
    };
  }

  #makeWays(report: Report | null): Ways {
    const { base } = this.#place.settings;
    const page = `${base}check`;
    const { state, query } = this.#session;
    const ways = makePageWays(state.flow, state.case, state.aside, page);
    const whole = this.#whole;
    return {
      ...ways,
      pictures: this.#pictures?.views,
      carried: [],
      hrefToPrint: `${page}?${query}`,
      onSubmit: (event) => this.#go(event, readForm(event, query)),
      onFollow: (event) => this.#go(event, readFollowed(event)),
      ...(whole && {
        saveCalendar: whole.saveCalendar,
        onPrint: (event) => whole.printCheck(event, this.#place.root, this.#frame),
      }),
      tools:
        report === null ? undefined : { ...openTools(report, (said) => this.#say(said)), said: this.#said },
    };
  }

  #go(event: Event, search: string | null): void {
    if (search === null) return;
    event.preventDefault();
    const form = event.currentTarget;
    if (form instanceof HTMLFormElement && form.dataset.lt === "say") {
      this.#hear(form);
      return;
    }
    const session = this.#session;
    this.#heard = null;
    const before = { reopened: session.state.reopened, query: session.query };
    session.go(search);
    this.#place.memory.save(session.query);
    this.#said = "";
    this.#frame.classList.remove("lt-wait");
    if (this.#missing) this.#loadWhole();
    const showing = this.#refresh();
    if (form instanceof HTMLElement && form.dataset.lt === "numbers") {
      this.#whole?.settleAt(form);
      return;
    }
    const kept = session.state.reopened === null && session.query === before.query ? before.reopened : null;
    moveTo(this.#place.root, showing, kept);
    this.#tellOutcome(showing);
  }

  /** Reads what was typed. The words stay in this browser. */
  #hear(form: HTMLFormElement): void {
    const { state } = this.#session;
    const typed = String(new FormData(form).get("said"));
    this.#edition.loadSay().then(
      ({ flow, propose, asksAlone, SayView }) => {
        const proposal = propose(flow, state.case, state.next, typed);
        if (state.next === null && asksAlone(proposal))
          this.#session.go(`${this.#session.query}&asked=${proposal.asks.join(".")}`);
        else this.#heard = <SayView {...{ flow, proposal, state, ways: this.#look().ways }} />;
        moveTo(this.#place.root, this.#refresh(), null);
      },
      () => {
        state.notices.push(words.notRead);
        this.#refresh();
      },
    );
  }

  #goBack(event: KeyboardEvent): void {
    if (!isBackKey(event)) return;
    event.preventDefault();
    const link = this.#frame.querySelector<HTMLElement>('[data-lt="keep"]');
    (link ?? this.#frame.querySelector<HTMLElement>('[data-lt="back"]'))?.click();
  }

  #say(sentence: string): void {
    this.#said = sentence;
    this.#refresh();
  }

  #refresh(): Showing {
    const showing = this.#look();
    flushSync(() => this.#show(showing));
    return showing;
  }

  /** Fetches the prose behind the first questions. It may fail: every later step asks again. */
  #loadWhole(): void {
    this.#missing = false;
    this.#edition
      .loadWhole()
      .then((whole) => {
        this.#session.useWhole(whole.flow);
        this.#whole = whole;
        this.#place.addSheet(whole.partSheet);
        if (this.#begun) whole.startCounting(this.#place, this.#session, ...this.#begun);
      })
      .catch(() => {
        this.#missing = true;
      })
      .finally(() => {
        if (this.#session.state.next === null) this.#refresh();
      });
  }

  /** Fetches the drawings that are in view, and the rest behind everything else. Without them the words do. */
  async #loadPictures(): Promise<void> {
    try {
      this.#pictures = await this.#edition.loadPictures(() => this.#refresh());
      this.#place.addSheet(this.#pictures.pictureSheet);
      this.#refresh();
      await this.#edition.loadWhole();
      await this.#pictures.fetchRest();
    } catch {
      // Nothing depends on them.
    }
  }

  /** Each outcome is told once, however often it is looked at. */
  #tellOutcome({ report, state }: Showing): void {
    if (report === null) return;
    const { element } = this.#place;
    const condition = namedCondition(report)?.id ?? null;
    const { standing, bringSample } = report.verdict;
    const edition = state.flow.edition.number;
    const outcome = `${standing} ${condition}`;
    if (outcome === this.#told) return;
    this.#told = outcome;
    tell(element, "leafturn-verdict", { standing, condition, edition });
    if (!bringSample && condition !== null) return;
    tell(element, "leafturn-sample", { standing, branch: report.branch?.id ?? null, edition });
  }
}

function makeFrame(document: Document): HTMLElement {
  const frame = document.createElement("div");
  frame.className = "lt lt-wait";
  frame.setAttribute("part", "frame");
  // A group and no landmark: which landmarks a page has is for the page to say.
  frame.setAttribute("role", "group");
  frame.setAttribute("aria-label", words.check);
  // Direction is not reset by the sheet, and our words are English whatever the page around them.
  frame.lang = "en";
  frame.dir = "ltr";
  return frame;
}
