import type { Question } from "../../flows/edition.ts";
import type { Showing } from "./book.tsx";

/** The query that a form of the check would send, with the case in hand added; null when it is not a form. */
export function readForm(event: Event, query: string): string | null {
  if (!(event.currentTarget instanceof HTMLFormElement)) return null;
  const data = new FormData(event.currentTarget);
  const pairs = [...data].map(
    ([name, value]) => `${encodeURIComponent(name)}=${encodeURIComponent(String(value))}`,
  );
  // What the form says of a name counts, not what was said before.
  const names = new Set([...data].map(([name]) => name));
  const kept = query.split("&").filter((part) => !names.has(part.replace(/=.*$/s, "")));
  return [...kept, ...pairs].join("&");
}

/** The query of a link that was pressed; null when it is to open elsewhere. */
export function readFollowed(event: Event): string | null {
  const link = event.currentTarget;
  if (!(link instanceof HTMLAnchorElement) || !(event instanceof MouseEvent)) return null;
  if (event.button !== 0 || event.ctrlKey || event.metaKey || event.shiftKey || event.altKey) return null;
  return new URL(link.href).search.slice(1);
}

/**
 * Moves the focus to where the conversation goes on, which is also what a screen reader then reads: the question or the
 * verdict. `kept`: the question whose answer was reopened and left alone; then the focus goes back to its line.
 */
export function moveTo(root: ShadowRoot, { ways }: Showing, kept: Question | null): void {
  const change = [...root.querySelectorAll<HTMLElement>('[data-lt="change"][data-to]')];
  const line = kept === null ? undefined : change.find(({ dataset }) => dataset.to === kept.id);
  const now = line ?? root.getElementById(ways.id("now"));
  if (now === null) return;
  now.focus({ preventScroll: true });
  bringUp(now.closest(".lt-card, .lt-verdict, .lt-line") ?? now);
}

/**
 * Moves the focus to the first question. The check comes up from its top, with the field for one's own words, and what
 * follows it on the page is out of sight before and after; only where the question would be out of sight too, it goes first.
 */
export function moveToOpening(root: ShadowRoot, frame: HTMLElement, { ways }: Showing): void {
  const now = root.getElementById(ways.id("now"));
  now?.focus({ preventScroll: true });
  bringUp(frame);
  if (now && now.getBoundingClientRect().bottom > window.innerHeight) now.scrollIntoView({ block: "start" });
}

function bringUp(target: Element): void {
  const { top } = target.getBoundingClientRect();
  if (top < 0 || top > window.innerHeight * 0.4) target.scrollIntoView({ block: "start" });
}

/**
 * Backspace, outside text fields and without a modifier: no browser of today and no screen reader has another use for
 * it there.
 */
export function isBackKey(event: KeyboardEvent): boolean {
  const modified = event.altKey || event.ctrlKey || event.metaKey || event.shiftKey;
  const typing =
    event.target instanceof Element && event.target.matches('input:not([type="radio"]), select, textarea');
  return event.key === "Backspace" && !modified && !typing;
}
