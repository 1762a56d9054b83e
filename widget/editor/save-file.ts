/** Saves the text of a file while it is typed. What cannot be saved stays in the field, and in this tab. */

import { forget, recall, remember } from "./tab-memory.ts";

/** Milliseconds without a key after which a text is saved. */
const PAUSE = 700;
const RETRY = 5_000;

interface Conflict {
  sentence: string;
  current: { text: string | null; tag: string | null; savedBy: string | null };
}

interface Parts {
  form: HTMLFormElement;
  field: HTMLTextAreaElement;
  status: HTMLElement;
  address: string;
}

export function saveWhileTyping(form: HTMLFormElement): void {
  const field = form.querySelector("textarea");
  const status = document.getElementById("status");
  const address = form.dataset.file;
  if (field === null || field.readOnly || status === null || address === undefined) return;
  follow({ form, field, status, address });
}

function follow({ form, field, status, address }: Parts): void {
  let tag = form.dataset.tag ?? "";
  let saved = field.value;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let isSaving = false;
  const memory = `leafturn ${address}`;

  field.addEventListener("input", () => {
    remember(memory, field.value);
    if (!form.dataset.conflict) wait(PAUSE);
  });
  window.addEventListener("beforeunload", (event) => {
    if (field.value !== saved) event.preventDefault();
  });
  form.addEventListener("submit", () => {
    saved = field.value;
    forget(memory);
  });
  const kept = recall(memory);
  if (kept !== null && kept !== field.value) offer(form, field, kept, () => wait(0));

  function wait(time: number): void {
    clearTimeout(timer);
    timer = setTimeout(save, time);
  }

  async function save(): Promise<void> {
    if (isSaving) return wait(PAUSE);
    const text = field.value;
    if (text === saved) return;
    isSaving = true;
    status.textContent = "Saving…";
    try {
      const response = await fetch(address, {
        method: "PUT",
        headers: {
          "content-type": "text/plain; charset=utf-8",
          ...(tag === "" ? { "if-none-match": "*" } : { "if-match": tag }),
        },
        body: text,
      });
      if (response.ok) {
        tag = response.headers.get("etag") ?? tag;
        form.dataset.tag = tag;
        setTag(form, tag);
        saved = text;
        forget(memory);
        status.textContent = "Saved.";
      } else if (response.status === 412) {
        showConflict(form, (await response.json()) as Conflict);
        status.textContent = "Someone else saved this meanwhile. Both texts are here; nothing is lost.";
      } else {
        const { sentence } = (await response.json()) as { sentence: string };
        status.textContent = `Not saved. ${sentence}`;
      }
    } catch {
      status.textContent = "Not saved: no connection. Your text is kept in this tab, and is tried again.";
      wait(RETRY);
    } finally {
      isSaving = false;
    }
    if (field.value !== text && !form.dataset.conflict) wait(PAUSE);
  }
}

function setTag(form: HTMLFormElement, tag: string): void {
  const hidden = form.querySelector<HTMLInputElement>('input[name="tag"]');
  if (hidden) hidden.value = tag;
}

/** The other text beside one's own. From here on only the button saves, so that it is done with open eyes. */
function showConflict(form: HTMLFormElement, { current }: Conflict): void {
  form.dataset.conflict = "yes";
  setTag(form, current.tag ?? "");
  const place = form.querySelector(".ed-both");
  const label = document.createElement("p");
  label.className = "lt-label";
  label.textContent = `Saved meanwhile by ${current.savedBy ?? "someone"}`;
  const other = document.createElement("pre");
  other.className = "ed-pre";
  other.id = "other";
  other.tabIndex = 0;
  other.textContent = current.text ?? "The file was taken out.";
  const box = document.createElement("div");
  box.append(label, other);
  place?.append(box);
  const button = form.querySelector('button[type="submit"]');
  if (button) button.textContent = "Save my text over it";
}

/** Text that this tab kept from before, when it could not be saved. */
function offer(form: HTMLFormElement, field: HTMLTextAreaElement, kept: string, then: () => void): void {
  const button = document.createElement("button");
  button.type = "button";
  button.className = "lt-button lt-button-plain";
  button.textContent = "Bring back the text that was not saved";
  button.addEventListener("click", () => {
    field.value = kept;
    button.remove();
    field.focus();
    then();
  });
  form.prepend(button);
}
