/** The form of an entry: previews while one types, and saving while one types. */
import "./room.ts";
import { openPreviews } from "./live-preview.tsx";
import { saveFormWhileTyping } from "./save-form.ts";

const form = document.querySelector<HTMLFormElement>("form[data-entry]");
if (form) {
  saveFormWhileTyping(form, openPreviews(form));
  // What the button would show is there already.
  form.querySelector("[data-show]")?.remove();
}
