import { adoptSheets } from "./adopt-sheet.ts";
import { importWhole } from "./import-whole.ts";
import { type Memory, openMemory } from "./memory.ts";
import type { Opened, openCheck } from "./open-check.ts";
import { readSettings } from "./settings.ts";
import { startSheet } from "./start-sheet.ts";
import { startWords } from "./start-words.ts";

type Rest = { openCheck: typeof openCheck };

/**
 * The plant check inside a shop's page. Until it is started it shows its own content, a plain link to the check, just
 * where it is: nothing on the page moves. The link then opens the check in place; an element without a link gets a button.
 */
export class LeafturnCheck extends HTMLElement {
  readonly #root = this.attachShadow({ mode: "open" });
  readonly #button = this.#make("button", startWords.start);
  #memory: Memory | undefined;
  #started = false;
  #failed = false;
  #opened: Opened | undefined;

  constructor() {
    super();
    this.#button.setAttribute("part", "start");
    this.#button.addEventListener("click", () => void this.start());
    this.addEventListener("click", (event) => this.#followLink(event));
    this.#showLink();
  }

  connectedCallback(): void {
    this.#button.hidden = this.querySelector("a[href]") !== null;
    if (this.#started) return;
    this.#memory ??= openMemory(`leafturn ${location.pathname} ${this.id || this.#place()}`);
    if (this.#memory.load() !== null) void this.start();
  }

  adoptedCallback(): void {
    if (this.#opened) this.#opened.dress();
    else adoptSheets(this.#root, startSheet);
  }

  /** Opens the check in place. The second call does nothing. */
  async start(): Promise<void> {
    if (this.#started) return;
    this.#started = true;
    const settings = readSettings(this, import.meta.url);
    this.#root.replaceChildren(this.#frame("", startWords.opening));
    try {
      const editions = fetch(`${settings.base}embed/live.json`);
      editions.catch(() => {});
      const rest = await importWhole<Rest>(import.meta.url, REST, this.#failed);
      this.#opened = await rest.openCheck({
        element: this,
        root: this.#root,
        settings,
        editions,
        memory: this.#memory ?? openMemory("leafturn"),
      });
    } catch {
      this.#fail(settings.branch);
    }
  }

  /** Two elements of a page remember apart, by their id or their place. */
  #place(): number {
    return [...this.ownerDocument.querySelectorAll(this.localName)].indexOf(this);
  }

  #showLink(...more: Node[]): void {
    adoptSheets(this.#root, startSheet);
    this.#root.replaceChildren(this.ownerDocument.createElement("slot"), this.#button, ...more);
  }

  #followLink(event: MouseEvent): void {
    const link = event.target instanceof Element ? event.target.closest("a[href]") : null;
    const plain = event.button === 0 && !(event.ctrlKey || event.metaKey || event.shiftKey || event.altKey);
    if (link === null || !plain || this.#started || this.#failed || event.defaultPrevented) return;
    event.preventDefault();
    void this.start();
  }

  /** The link works again, as a link; the button tries once more; the phone always works. */
  #fail(branch: string | undefined): void {
    this.#started = false;
    this.#failed = true;
    this.#opened = undefined;
    const frame = this.#frame(" failed", startWords.failed);
    const wanted = PHONES.filter(({ id }) => id === branch);
    for (const { name, phone } of wanted.length > 0 ? wanted : PHONES) {
      const call = this.#make("a", `${name}: ${phone}`);
      call.href = `tel:${phone}`;
      const line = this.#make("p", "");
      line.append(call);
      frame.append(line);
    }
    this.#button.textContent = startWords.again;
    this.#button.hidden = false;
    this.#showLink(frame);
    frame.append(this.#button);
  }

  #frame(state: string, said: string): HTMLElement {
    const frame = this.#make("div", "");
    frame.className = `frame${state}`;
    const line = this.#make("p", said);
    line.setAttribute("role", "status");
    frame.append(line);
    return frame;
  }

  #make<K extends keyof HTMLElementTagNameMap>(tag: K, text: string): HTMLElementTagNameMap[K] {
    const node = this.ownerDocument.createElement(tag);
    node.textContent = text;
    return node;
  }
}
