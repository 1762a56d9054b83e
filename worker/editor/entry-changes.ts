/** What a form changed of an entry, laid over whatever the file is by now: only the fields that were touched. */
import type { Files } from "../../flows/content/read-files.ts";
import type { Edit, FieldAddress } from "../../flows/editing/edit.ts";
import { moveEvidence } from "../../flows/editing/entries.ts";
import { openFields, readField } from "../../flows/editing/field.ts";
import { writeText } from "../../flows/editing/field-text.ts";
import { evidenceWords } from "../../flows/evidence-table.ts";
import { type FieldSpec, showValue } from "./entry-fields.ts";

/** Fields as the form showed them, and as they came back, by their names. */
export type Texts = Readonly<Record<string, string>>;

export interface Entry {
  kind: string;
  id: string;
  address: FieldAddress;
  fields: readonly FieldSpec[];
}

/** A field that someone else changed meanwhile, in another way. */
export interface Clash {
  name: string;
  label: string;
  mine: string;
  theirs: string;
}

export interface Laid {
  files: Files;
  clashes: Clash[];
  /** Sentences about what could not be written. */
  refused: string[];
}

/** The name of a field in its form. The one field of a list of words has no path. */
export function nameOf({ path }: FieldSpec): string {
  return path.length === 0 ? "words" : path.join(".");
}

export function evidenceName(finding: string): string {
  return `evidence.${finding}`;
}

/** Every field of an entry as its form shows it, by name; of a condition also the word for each finding. */
export function readTexts(
  files: Files,
  { kind, address, fields }: Entry,
  findings: readonly string[] = [],
): Texts {
  const read = openFields(files, address);
  const texts: Record<string, string> = {};
  for (const spec of fields) texts[nameOf(spec)] = showValue(read(spec.path), spec);
  if (kind !== "condition") return texts;
  const words = new Map<string, string>();
  for (const word of evidenceWords) {
    const ids = read(["evidence", word]);
    if (Array.isArray(ids)) for (const id of ids) if (!words.has(String(id))) words.set(String(id), word);
  }
  for (const id of findings) texts[evidenceName(id)] = words.get(id) ?? "";
  return texts;
}

export function layChanges(files: Files, entry: Entry, was: Texts, now: Texts): Laid {
  const laid: Laid = { files, clashes: [], refused: [] };
  for (const spec of entry.fields) layField(laid, entry, spec, was, now);
  if (entry.kind === "condition") layEvidence(laid, entry, was, now);
  return laid;
}

function wordFor(files: Files, { address }: Entry, finding: string): string {
  const read = openFields(files, address);
  const word = evidenceWords.find((one) => {
    const ids = read(["evidence", one]);
    return Array.isArray(ids) && ids.includes(finding);
  });
  return word ?? "";
}

function layField(laid: Laid, entry: Entry, spec: FieldSpec, was: Texts, now: Texts): void {
  const name = nameOf(spec);
  const [before, after] = [was[name], now[name]];
  if (before === undefined || after === undefined || same(before, after)) return;
  const address = { file: entry.address.file, path: [...entry.address.path, ...spec.path] };
  const current = showValue(readField(laid.files, address), spec);
  if (same(current, after)) return;
  if (!same(current, before)) {
    laid.clashes.push({ name, label: spec.label, mine: after, theirs: current });
    return;
  }
  take(laid, spec.label, writeText(laid.files, address, after, spec));
}

function layEvidence(laid: Laid, entry: Entry, was: Texts, now: Texts): void {
  for (const [name, after] of Object.entries(now)) {
    if (!name.startsWith("evidence.") || after === was[name]) continue;
    const finding = name.slice("evidence.".length);
    const current = wordFor(laid.files, entry, finding);
    if (current === after) continue;
    if (current !== (was[name] ?? "")) {
      laid.clashes.push({ name, label: finding, mine: after || "nothing", theirs: current || "nothing" });
      continue;
    }
    const word = evidenceWords.find((one) => one === after);
    take(laid, finding, moveEvidence(laid.files, entry.id, finding, word ?? null));
  }
}

function take(laid: Laid, label: string, edit: Edit): void {
  if (edit.ok) laid.files = edit.files;
  else laid.refused.push(`${label}: ${edit.sentence}`);
}

/** Line ends and space around a text make no difference. */
function same(a: string, b: string): boolean {
  return a.replace(/\r\n?/g, "\n").trim() === b.replace(/\r\n?/g, "\n").trim();
}
