import { type Report, sayVerdict } from "../views/report.ts";
import type { Tools } from "../views/ways.ts";
import * as words from "../views/words.ts";

/** What this browser can do with the link of a case. `say` tells how it went. */
export function openTools(
  { flow, verdict, link }: Report,
  say: (sentence: string) => void,
): Pick<Tools, "copy" | "share"> {
  // Both are missing on pages without TLS, and sharing on most desktops.
  const { clipboard, share } = navigator as Partial<Navigator>;
  const copy = (text: string) => {
    clipboard?.writeText(text).then(
      () => say(words.copied),
      () => say(words.notCopied),
    );
  };
  const open = () => {
    // Closing the sheet without sharing is no failure.
    share
      ?.call(navigator, { title: words.check, text: sayVerdict(flow, verdict), url: link })
      .catch(() => {});
  };
  return { copy: clipboard && copy, share: share && open };
}
