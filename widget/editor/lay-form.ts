import type { Files } from "../../flows/content/read-files.ts";
import type { Edit } from "../../flows/editing/edit.ts";
import { moveEvidence } from "../../flows/editing/entries.ts";
import { readField } from "../../flows/editing/field.ts";
import { toText, writeText } from "../../flows/editing/field-text.ts";
import { evidenceWords } from "../../flows/evidence-table.ts";
import type { Watched } from "./watch-problems.ts";

const EVIDENCE = "evidence.";

/** The text of the file as the form would make it: only fields that say something else than the file are written. */
export function layForm(form: HTMLFormElement, { file, fields, condition }: Watched, files: Files): string {
  const data = new FormData(form);
  const textOf = (name: string): string | null => {
    const value = data.get(name);
    return typeof value === "string" ? value.replace(/\r\n?/g, "\n") : null;
  };
  if (fields === null) return textOf("text") ?? "";
  let now: Files = { [file]: files[file] ?? "" };
  const take = (edit: Edit): void => {
    if (edit.ok) now = edit.files;
  };
  for (const { name, path, ...field } of fields) {
    const text = textOf(name);
    if (text === null || text.trim() === toText(readField(now, { file, path })).trim()) continue;
    take(writeText(now, { file, path }, text, field));
  }
  if (condition === undefined) return now[file] ?? "";
  for (const [name, word] of data) {
    if (!name.startsWith(EVIDENCE) || typeof word !== "string") continue;
    const to = evidenceWords.find((one) => one === word) ?? null;
    const finding = name.slice(EVIDENCE.length);
    if (wordOf(now, file, finding) !== to) take(moveEvidence(now, condition, finding, to));
  }
  return now[file] ?? "";
}

function wordOf(files: Files, file: string, finding: string): string | null {
  const word = evidenceWords.find((one) => {
    const ids = readField(files, { file, path: ["evidence", one] });
    return Array.isArray(ids) && ids.includes(finding);
  });
  return word ?? null;
}
