/**
 * Saves the fields of an entry while they are typed. Each save states what the fields were; where someone else changed one of
 * them meanwhile, both versions stand at the field until one is chosen. What cannot be saved is kept in this tab.
 */
import { isHeld, partOf, readFields, type Texts, writeFieldText } from "./form-fields.ts";
import { forget, recall, remember } from "./tab-memory.ts";

/** Milliseconds without a key after which the form is saved. */
const PAUSE = 700;
const RETRY = 5_000;

interface Clash {
  name: string;
  label: string;
  mine: string;
  theirs: string;
}

interface Told {
  sentence?: string;
  texts?: Texts;
  clashes?: Clash[];
  refused?: string[];
}

export function saveFormWhileTyping(form: HTMLFormElement, onChange: () => void): void {
  const address = form.dataset.entry;
  const status = document.getElementById("status");
  if (address !== undefined && status !== null) new SavedForm(form, address, status, onChange).follow();
}

class SavedForm {
  readonly #form: HTMLFormElement;
  readonly #address: string;
  readonly #status: HTMLElement;
  readonly #onChange: () => void;
  readonly #memory: string;
  /** The fields as the server last told them. */
  #was: Texts;
  /** Fields that wait for a choice between two versions. */
  readonly #clashing = new Set<string>();
  #timer: ReturnType<typeof setTimeout> | undefined;
  #isSaving = false;

  constructor(form: HTMLFormElement, address: string, status: HTMLElement, onChange: () => void) {
    this.#form = form;
    this.#address = address;
    this.#status = status;
    this.#onChange = onChange;
    this.#was = JSON.parse(readHidden(form, "was")) as Texts;
    this.#memory = `leafturn ${address} ${readHidden(form, "entry-kind")} ${readHidden(form, "entry-id")}`;
  }

  follow(): void {
    this.#form.addEventListener("input", () => {
      remember(this.#memory, JSON.stringify(this.#changed()));
      this.#wait(PAUSE);
    });
    // Whoever leaves in the pause loses nothing: it is sent as the page goes, and kept in the tab until it is known to be saved.
    window.addEventListener("pagehide", () => void this.#save());
    this.#form.addEventListener("submit", () => {
      this.#was = readFields(this.#form);
      forget(this.#memory);
    });
    this.#offerKept();
  }

  /** The fields that differ from what the server has. */
  #changed(): Texts {
    return Object.fromEntries(
      Object.entries(readFields(this.#form)).filter(([name, text]) => text !== (this.#was[name] ?? "")),
    );
  }

  #wait(time: number): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.#save(), time);
  }

  async #save(): Promise<void> {
    if (this.#isSaving) return this.#wait(PAUSE);
    const now = Object.fromEntries(
      Object.entries(this.#changed()).filter(([name]) => !this.#clashing.has(name)),
    );
    const names = Object.keys(now);
    if (names.length === 0) return;
    this.#isSaving = true;
    this.#status.textContent = "Saving…";
    try {
      const was = Object.fromEntries(names.map((name) => [name, this.#was[name] ?? ""]));
      await this.#take(await this.#send(was, now), now);
    } catch {
      this.#status.textContent =
        "Not saved: no connection. What you typed is kept in this tab, and is tried again.";
      this.#wait(RETRY);
    } finally {
      this.#isSaving = false;
    }
  }

  #send(was: Texts, now: Texts): Promise<Response> {
    const [kind, id] = [readHidden(this.#form, "entry-kind"), readHidden(this.#form, "entry-id")];
    return fetch(this.#address, {
      method: "PUT",
      keepalive: document.visibilityState === "hidden",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ kind, id, was, now }),
    });
  }

  async #take(response: Response, sent: Texts): Promise<void> {
    const { sentence, texts, clashes = [], refused = [] } = (await response.json()) as Told;
    if (texts === undefined) {
      this.#status.textContent = `Not saved. ${sentence ?? ""}`;
      return;
    }
    this.#learn(texts, refused.length > 0 ? {} : sent, new Set(clashes.map(({ name }) => name)));
    for (const clash of clashes) this.#showClash(clash);
    const left = Object.keys(this.#changed());
    if (left.length === 0) forget(this.#memory);
    this.#status.textContent =
      clashes.length > 0
        ? "Someone else changed the same field meanwhile. Both versions stand at the field; nothing is lost."
        : refused.length > 0
          ? `Not all is saved. ${refused.join(" ")}`
          : "Saved.";
    if (refused.length === 0 && left.some((name) => !this.#clashing.has(name))) this.#wait(PAUSE);
  }

  /** What others changed comes into fields that nobody touches here. */
  #learn(texts: Texts, sent: Texts, clashing: ReadonlySet<string>): void {
    const fields = readFields(this.#form);
    for (const [name, text] of Object.entries(texts)) {
      if (clashing.has(name)) continue;
      const isOurs = Object.hasOwn(sent, name);
      const isUntouched = fields[name] === (this.#was[name] ?? "");
      // A file may hold what was typed in another way, such as without blanks at the end: what is in the field stays.
      this.#was[name] = isOurs ? (sent[name] ?? "") : text;
      if (!isOurs && isUntouched && fields[name] !== text && !isHeld(name))
        writeFieldText(this.#form, name, text);
      else if (!isOurs && isUntouched && isHeld(name)) this.#was[name] = fields[name] ?? text;
    }
    const hidden = this.#form.querySelector<HTMLInputElement>('input[name="was"]');
    if (hidden) hidden.value = JSON.stringify({ ...this.#was, ...texts });
    this.#onChange();
  }

  #showClash({ name, label, mine, theirs }: Clash): void {
    this.#clashing.add(name);
    const box = document.createElement("section");
    box.className = "lt-notices ed-clash";
    box.setAttribute("aria-label", `${label}: two versions`);
    const said = makeText("p", "", `${label}: someone else changed this meanwhile.`);
    const both = document.createElement("div");
    both.className = "ed-both";
    const choose = (text: string) => {
      this.#clashing.delete(name);
      this.#was[name] = theirs;
      writeFieldText(this.#form, name, text);
      box.remove();
      this.#onChange();
      this.#wait(0);
      if (text === theirs) this.#status.textContent = "Theirs stands in the field.";
    };
    // What is typed by then counts, not what it was when the two met.
    const typed = () => readFields(this.#form)[name] ?? mine;
    both.append(
      makeVersion("Yours", mine, "Keep mine", () => choose(typed())),
      makeVersion("Theirs", theirs, "Take theirs", () => choose(theirs)),
    );
    box.append(said, both);
    partOf(this.#form, name)?.before(box);
  }

  /** Fields that this tab kept from before, when they could not be saved. */
  #offerKept(): void {
    const kept = readKept(recall(this.#memory));
    if (!Object.entries(kept).some(([name, text]) => readFields(this.#form)[name] !== text)) return;
    const button = document.createElement("button");
    button.type = "button";
    button.className = "lt-button lt-button-plain";
    button.textContent = "Bring back what was not saved";
    button.addEventListener("click", () => {
      for (const [name, text] of Object.entries(kept)) writeFieldText(this.#form, name, text);
      button.remove();
      this.#onChange();
      this.#wait(0);
    });
    this.#form.prepend(button);
  }
}

function readHidden(form: HTMLFormElement, name: string): string {
  return form.querySelector<HTMLInputElement>(`input[name="${name}"]`)?.value ?? "";
}

function readKept(json: string | null): Texts {
  try {
    return json === null ? {} : (JSON.parse(json) as Texts);
  } catch {
    return {};
  }
}

function makeText(tag: string, className: string, text: string): HTMLElement {
  const element = document.createElement(tag);
  element.className = className;
  element.textContent = text;
  return element;
}

function makeVersion(label: string, text: string, action: string, onClick: () => void): HTMLElement {
  const box = document.createElement("div");
  const words = makeText("pre", "ed-pre", text);
  words.tabIndex = 0;
  const button = document.createElement("button");
  button.type = "button";
  button.className = "lt-button lt-button-plain";
  button.textContent = action;
  button.addEventListener("click", onClick);
  box.append(makeText("p", "lt-label", label), words, button);
  return box;
}
