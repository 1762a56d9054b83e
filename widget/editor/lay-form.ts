import type { Files } from "../../flows/content/read-files.ts";
import type { Edit } from "../../flows/editing/edit.ts";
import { moveEvidence } from "../../flows/editing/entries.ts";
import { readField } from "../../flows/editing/field.ts";
import { toText, writeText } from "../../flows/editing/field-text.ts";
import { evidenceWords } from "../../flows/evidence-table.ts";
import type { Watched } from "./protocol.ts";

const EVIDENCE = "evidence.";

/** The text of a file as a form would make it: only fields that say something else than the file are written. */
export function layForm(files: Files, { file, fields, condition }: Watched, texts: Texts): string {
  if (fields === null) return texts.text ?? "";
  let now: Files = { [file]: files[file] ?? "" };
  const take = (edit: Edit): void => {
    if (edit.ok) now = edit.files;
  };
  for (const { name, path, ...field } of fields) {
    const text = texts[name];
    if (text === undefined || text.trim() === toText(readField(now, { file, path })).trim()) continue;
    take(writeText(now, { file, path }, text, field));
  }
  if (condition === undefined) return now[file] ?? "";
  for (const [name, word] of Object.entries(texts)) {
    if (!name.startsWith(EVIDENCE)) continue;
    const to = evidenceWords.find((one) => one === word) ?? null;
    const finding = name.slice(EVIDENCE.length);
    if (wordOf(now, file, finding) !== to) take(moveEvidence(now, condition, finding, to));
  }
  return now[file] ?? "";
}

/** What a form holds, by the names of its fields. */
export type Texts = Readonly<Record<string, string>>;

function wordOf(files: Files, file: string, finding: string): string | null {
  const word = evidenceWords.find((one) => {
    const ids = readField(files, { file, path: ["evidence", one] });
    return Array.isArray(ids) && ids.includes(finding);
  });
  return word ?? null;
}
