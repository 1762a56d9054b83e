import type { LiveDesk } from "../views/desk/desk-ways.ts";
import * as words from "../views/desk/desk-words.ts";
import * as checkWords from "../views/words.ts";

/** What the browser can do with a link, as far as it can. `say`: tells what came of it. */
export function makeTools(link: string, say: (sentence: string) => void): Pick<LiveDesk, "copy" | "share"> {
  const { clipboard, share } = navigator as Partial<Navigator>;
  const copy = (text: string) => {
    clipboard?.writeText(text).then(
      () => say(words.copied),
      () => say(words.notCopied),
    );
  };
  return {
    ...(clipboard && { copy }),
    // Closing the sheet without sharing is no failure.
    ...(share && {
      share: () => void share.call(navigator, { title: checkWords.check, url: link }).catch(() => {}),
    }),
  };
}

/** What a form of the desk holds under a name. It is not sent. */
export function readForm(event: Event, name: string): string {
  event.preventDefault();
  const form = event.currentTarget;
  return form instanceof HTMLFormElement ? String(new FormData(form).get(name) ?? "") : "";
}
