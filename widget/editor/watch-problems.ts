/**
 * Says what is wrong with a draft while it is typed: reads it anew in the checker after each pause, and shows each problem at
 * its field. Works on any form that says what it edits: `data-watch` holds the address of the draft, `data-watched` the file
 * and how its fields are written. Nothing is loaded before the first key.
 */
import { type Checker, startChecker } from "./checker-client.ts";
import { loadContents } from "./contents.ts";
import type { Watched } from "./protocol.ts";
import { showProblems } from "./show-problems.ts";

/** Milliseconds without a key after which the draft is read anew. */
const PAUSE = 350;

export function watchProblems(form: HTMLFormElement): void {
  const draft = form.dataset.watch;
  const watched = readWatched(form.dataset.watched);
  if (draft === undefined || watched === null) return;
  const watcher = new Watcher(form, draft, watched);
  form.addEventListener("input", () => watcher.touch());
  form.addEventListener("change", () => watcher.touch());
}

function readWatched(text: string | undefined): Watched | null {
  return text === undefined ? null : (JSON.parse(text) as Watched);
}

class Watcher {
  readonly #form: HTMLFormElement;
  readonly #draft: string;
  readonly #watched: Watched;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #opened: Promise<Checker | null> | undefined;
  #isReading = false;
  #isStale = false;

  constructor(form: HTMLFormElement, draft: string, watched: Watched) {
    this.#form = form;
    this.#draft = draft;
    this.#watched = watched;
  }

  touch(): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.#read(), PAUSE);
    this.#opened ??= this.#open();
  }

  /** Null where the draft or the checker cannot be had: then only the server says what is wrong. */
  async #open(): Promise<Checker | null> {
    try {
      const { live, draft, liveNumber } = await loadContents(this.#draft);
      const checker = startChecker();
      await checker.ask("open", { live, draft, liveNumber });
      return checker;
    } catch (error) {
      console.warn("The checker could not be started.", error);
      return null;
    }
  }

  async #read(): Promise<void> {
    if (this.#isReading) {
      this.#isStale = true;
      return;
    }
    this.#isReading = true;
    const checker = await this.#opened;
    if (checker) {
      const texts = readTexts(this.#form);
      const outcome = await checker.ask("fill", { watched: this.#watched, texts });
      if ("gives" in outcome)
        showProblems(this.#form, this.#watched, outcome.gives.problems, texts.text ?? "");
    }
    this.#isReading = false;
    if (!this.#isStale) return;
    this.#isStale = false;
    this.touch();
  }
}

function readTexts(form: HTMLFormElement): Record<string, string> {
  const pairs = [...new FormData(form)].flatMap(([name, value]) =>
    typeof value === "string" ? [[name, value.replace(/\r\n?/g, "\n")]] : [],
  );
  return Object.fromEntries(pairs);
}
