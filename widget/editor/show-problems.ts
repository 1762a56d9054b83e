import type { FieldProblem } from "../../flows/editing/place-problem.ts";
import type { Watched, WatchedField } from "./protocol.ts";

/** Marks that this file set, so that it takes back no one else's. */
const OURS = "data-watched-problem";
const MOST = 50;

/** Shows each problem at its field, and all of the file in a list above the form, whose links lead to the fields. */
export function showProblems(
  form: HTMLFormElement,
  watched: Watched,
  problems: readonly FieldProblem[],
  text: string,
): void {
  clear(form);
  const here = problems.filter(({ file }) => file === watched.file).slice(0, MOST);
  const elsewhere = problems.length - problems.filter(({ file }) => file === watched.file).length;
  const links = here.map((problem, i) => {
    const field = watched.fields && findField(watched.fields, problem);
    const element = elementOf(form, watched, problem, field);
    if (element) markField(element, problem, i, watched.fields !== null);
    return {
      problem,
      place: element && idOf(element, i),
      go: () => goTo(element ?? form, watched, problem, text),
    };
  });
  fillList(form, links, elsewhere);
}

interface Row {
  problem: FieldProblem;
  /** Id of its field; null when the form has none for it. */
  place: string | null;
  go(): void;
}

function idOf(element: HTMLElement, i: number): string {
  if (element.id === "") element.id = `place-${i}`;
  return element.id;
}

/** The field whose path a problem's path begins with; the longest such. */
function findField(fields: readonly WatchedField[], { path }: FieldProblem): WatchedField | null {
  const holds = fields.filter((field) => field.path.every((step, i) => step === path[i]));
  return holds.sort((a, b) => b.path.length - a.path.length)[0] ?? null;
}

function elementOf(
  form: HTMLFormElement,
  { fields }: Watched,
  { path }: FieldProblem,
  field: WatchedField | null | undefined,
): HTMLElement | null {
  if (fields === null) return form.querySelector<HTMLElement>('[name="text"]');
  if (path.includes("evidence")) return document.getElementById("f-evidence");
  const found = field ? form.querySelector<HTMLElement>(`[name="${CSS.escape(field.name)}"]`) : null;
  return found instanceof HTMLInputElement && found.type === "radio"
    ? (found.closest<HTMLElement>("fieldset") ?? found)
    : found;
}

/** A sentence and a hint below the field. In the text of a file the list above says it, for the field is all of it. */
function markField(element: HTMLElement, problem: FieldProblem, i: number, isForm: boolean): void {
  const id = isForm ? `watched-${i}` : LIST;
  const said = (element.getAttribute("aria-describedby") ?? "").split(" ").filter(Boolean);
  element.setAttribute("aria-describedby", [...said.filter((one) => one !== id), id].join(" "));
  if (element.matches("input, textarea, select")) element.setAttribute("aria-invalid", "true");
  element.setAttribute(OURS, "");
  if (!isForm) return;
  const box = document.createElement("div");
  box.className = "ed-problem";
  box.id = id;
  box.append(paragraph("", problem.sentence), paragraph("ed-faint", problem.hint));
  const last = [...(element.parentElement?.querySelectorAll(`:scope > [id^="watched-"]`) ?? [])].at(-1);
  if (element.matches("fieldset")) element.append(box);
  else (last ?? element).after(box);
}

function clear(form: HTMLFormElement): void {
  for (const element of document.querySelectorAll(`[${OURS}]`)) {
    const said = (element.getAttribute("aria-describedby") ?? "").split(" ");
    const others = said.filter((one) => one !== "" && one !== LIST && !one.startsWith("watched-"));
    if (others.length > 0) element.setAttribute("aria-describedby", others.join(" "));
    else element.removeAttribute("aria-describedby");
    element.removeAttribute("aria-invalid");
    element.removeAttribute(OURS);
  }
  for (const box of document.querySelectorAll('[id^="watched-"]:not(#watched-problems)')) box.remove();
  // What the server said about the text before is out of date by now.
  for (const old of document.querySelectorAll("[data-problems-of]")) old.remove();
  form.querySelector(`#${LIST}`)?.replaceChildren();
}

const LIST = "watched-problems";

function fillList(form: HTMLFormElement, rows: readonly Row[], elsewhere: number): void {
  const list = listOf(form);
  if (rows.length === 0 && elsewhere === 0) return;
  const count = rows.length === 1 ? "One thing is wrong here." : `${rows.length} things are wrong here.`;
  const more = elsewhere === 0 ? "" : ` Elsewhere in the draft: ${elsewhere}.`;
  list.append(paragraph("lt-label", `${rows.length === 0 ? "Nothing is wrong here." : count}${more}`));
  const items = document.createElement("ul");
  for (const { problem, place, go } of rows) {
    const item = document.createElement("li");
    if (place !== null) {
      const link = document.createElement("a");
      link.className = "lt-link";
      link.href = `#${place}`;
      link.textContent = problem.sentence;
      link.addEventListener("click", (event) => {
        event.preventDefault();
        go();
      });
      item.append(link);
    } else item.append(paragraph("", problem.sentence));
    item.append(paragraph("ed-faint", `${problem.hint} (line ${problem.line})`));
    items.append(item);
  }
  list.append(items);
}

/** A place above the form that is there from the start and says politely what comes into it. */
function listOf(form: HTMLFormElement): HTMLElement {
  const found = document.getElementById(LIST);
  if (found) return found;
  const list = document.createElement("div");
  list.id = LIST;
  list.setAttribute("role", "status");
  form.prepend(list);
  return list;
}

/** To the field; in the text of a file, to the line. */
function goTo(element: HTMLElement, { fields }: Watched, problem: FieldProblem, text: string): void {
  if (fields === null && element instanceof HTMLTextAreaElement) {
    goToLine(element, text, problem.line);
    return;
  }
  const target = element.matches("input, textarea, select")
    ? element
    : (element.querySelector<HTMLElement>("input") ?? element);
  if (target === element && element.tabIndex < 0) element.tabIndex = -1;
  target.focus();
  element.scrollIntoView({ block: "center" });
}

/** Selects a line, counted from 1, and brings it into view. */
export function goToLine(field: HTMLTextAreaElement, text: string, line: number): void {
  const lines = text.split("\n");
  const from = lines.slice(0, line - 1).reduce((sum, one) => sum + one.length + 1, 0);
  field.focus();
  field.setSelectionRange(from, from + (lines[line - 1]?.length ?? 0));
  const height = field.scrollHeight / Math.max(1, lines.length);
  field.scrollTop = Math.max(0, (line - 4) * height);
}

function paragraph(name: string, text: string): HTMLElement {
  const made = document.createElement("p");
  if (name) made.className = name;
  made.textContent = text;
  return made;
}
