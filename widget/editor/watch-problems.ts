/**
 * Says what is wrong with a draft while it is typed: reads it anew in the checker after each pause, and shows each problem at
 * its field. Works on any form that says what it edits: `data-watch` holds the address of the draft, `data-watched` the file
 * and how its fields are written. Nothing is loaded before the first key.
 */
import type { Files } from "../../flows/content/read-files.ts";
import type { Step } from "../../flows/editing/edit.ts";
import type { FieldAs } from "../../flows/editing/field-text.ts";
import type { FieldProblem } from "../../flows/editing/place-problem.ts";
import { type Checker, startChecker } from "./checker-client.ts";
import { loadContents } from "./contents.ts";
import { layForm } from "./lay-form.ts";
import { showProblems } from "./show-problems.ts";

/** Milliseconds without a key after which the draft is read anew. */
const PAUSE = 350;

/** A field of a form: its name there, and where it stands in the file. */
export interface WatchedField extends FieldAs {
  name: string;
  path: readonly Step[];
}

export interface Watched {
  file: string;
  /** Without fields the form holds the text of the file itself. */
  fields: readonly WatchedField[] | null;
  /** The condition whose evidence stands in the form as well. */
  condition?: string;
}

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
  #opened: Promise<{ checker: Checker; files: Files } | null> | undefined;
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
  async #open(): Promise<{ checker: Checker; files: Files } | null> {
    try {
      const { live, draft, liveNumber } = await loadContents(this.#draft);
      const checker = startChecker();
      await checker.ask("open", { live, draft, liveNumber });
      return { checker, files: draft };
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
    const opened = await this.#opened;
    if (opened) {
      const { file } = this.#watched;
      const text = layForm(this.#form, this.#watched, opened.files);
      const outcome = await opened.checker.ask("edit", { file, text });
      if ("gives" in outcome) this.#show(outcome.gives.problems, text);
    }
    this.#isReading = false;
    if (!this.#isStale) return;
    this.#isStale = false;
    this.touch();
  }

  #show(problems: readonly FieldProblem[], text: string): void {
    showProblems(this.#form, this.#watched, problems, text);
  }
}
