import { printSheet } from "../views/print-sheet.ts";
import * as words from "../views/words.ts";
import { adoptSheets } from "./adopt-sheet.ts";

/**
 * Prints the check without the page around it: a copy of what is shown, in a frame of its own that comes from no address,
 * dressed with the sheets of the shadow root. Nothing is fetched, so it works offline and under the strictest policy.
 * Where the browser has no printing the link is followed.
 */
export function printCheck(event: Event, root: ShadowRoot, frame: HTMLElement): void {
  const view = root.ownerDocument.defaultView;
  if (typeof view?.print !== "function") return;
  for (const earlier of root.querySelectorAll(".lt-paper")) earlier.remove();
  const paper = root.ownerDocument.createElement("iframe");
  paper.className = "lt-paper";
  paper.tabIndex = -1;
  paper.setAttribute("aria-hidden", "true");
  root.append(paper);
  const { contentDocument: page, contentWindow: window } = paper;
  if (page === null || window === null) return;
  const copy = page.importNode(frame, true);
  for (const step of copy.querySelectorAll<HTMLDetailsElement>(".lt-fold, details:has(.lt-result)")) {
    step.open = true;
  }
  page.title = words.check;
  page.documentElement.lang = frame.lang;
  page.body.replaceChildren(copy);
  const rules = root.adoptedStyleSheets.flatMap(({ cssRules }) => [...cssRules]);
  // Only here is the frame the whole page.
  const whole = ".lt { container-type: normal; padding: 0; } body { margin: 0; }";
  adoptSheets(page, rules.map(({ cssText }) => cssText).join("\n"), `${printSheet}@media print { ${whole} }`);
  window.print();
  event.preventDefault();
}
