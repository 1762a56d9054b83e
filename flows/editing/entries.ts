import { listUses, type Uses } from "../content/check-references.ts";
import { type EntryKind, entryKinds } from "../content/content.ts";
import { type Files, readFiles } from "../content/read-files.ts";
import { findingSchema, hostSchema, productSchema, sourceSchema } from "../content/schemas.ts";
import { splitList } from "../content/split-list.ts";
import { type EvidenceWord, evidenceWords } from "../evidence-table.ts";
import { type Edit, type FieldAddress, type FieldMap, type FieldValue, refuse, type Step } from "./edit.ts";
import { makeFile } from "./entry-files.ts";
import { addItem, readField, removeField, splice } from "./field.ts";
import { writeBlockValue, writeFlow, writeKey } from "./write-value.ts";
import { lineEnd, parseTree, resolvePath, spanOf } from "./yaml-nodes.ts";

/** Where the entries of each kind are: a file for each, or one list of them. */
const homes: Record<EntryKind, { folder: string } | { list: string; keys: readonly string[] }> = {
  finding: { list: "findings.yaml", keys: Object.keys(findingSchema.shape) },
  question: { folder: "questions" },
  condition: { folder: "conditions" },
  host: { list: "hosts.yaml", keys: Object.keys(hostSchema.shape) },
  remedy: { folder: "remedies" },
  source: { list: "sources.yaml", keys: Object.keys(sourceSchema.shape) },
  product: { list: "products.yaml", keys: Object.keys(productSchema.shape) },
};

const RETIRED = "retired.yaml";

/** Where an entry stands: its file, and in a list the item. Null when there is none. */
export function locateEntry(files: Files, kind: EntryKind, id: string): FieldAddress | null {
  const home = homes[kind];
  if ("folder" in home) {
    const file = `${home.folder}/${id}.md`;
    return Object.hasOwn(files, file) ? { file, path: [] } : null;
  }
  return readField(files, { file: home.list, path: [id] }) === undefined
    ? null
    : { file: home.list, path: [id] };
}

/** The kind of entry that a file or a list item is; null for files that are one thing. */
export function entryAt(file: string, [step]: readonly Step[]): { kind: EntryKind; id: string } | null {
  for (const kind of entryKinds) {
    const home = homes[kind];
    if ("folder" in home && file.startsWith(`${home.folder}/`)) {
      return { kind, id: file.slice(home.folder.length + 1).replace(/\.md$/, "") };
    }
    if ("list" in home && file === home.list && typeof step === "string") return { kind, id: step };
  }
  return null;
}

/** Begins a new entry. What it still lacks is told by the checks, at its fields. A question goes to the end of the order. */
export function addEntry(files: Files, kind: EntryKind, id: string, values: FieldMap = {}): Edit {
  const pattern = kind === "source" ? /^[A-Za-z0-9]+(-[a-z0-9]+)*$/ : /^[a-z0-9]+(-[a-z0-9]+)*$/;
  if (!pattern.test(id)) return refuse("ID_BAD");
  if (locateEntry(files, kind, id)) return refuse("ID_TAKEN");
  if (isRetired(files, kind, id)) return refuse("ID_RETIRED");
  const home = homes[kind];
  if ("list" in home) return appendItem(files, home.list, home.keys, { id, ...values });
  const file = `${home.folder}/${id}.md`;
  const text = makeFile(kind, { id, ...values });
  const added = { ...files, [file]: text };
  const isAsked = kind === "question" && (values.kind ?? "finding") === "finding";
  return isAsked
    ? addItem(added, { file: "conversation.yaml", path: ["order"] }, id)
    : { ok: true, files: added };
}

function isRetired(files: Files, kind: EntryKind, id: string): boolean {
  const items = readField(files, { file: RETIRED, path: [] });
  return (
    Array.isArray(items) &&
    items.some((item: { id?: unknown; kind?: unknown } | null) => item?.id === id && item.kind === kind)
  );
}

/** Adds to a list file, in the style of its last item: on one line, or a line for each key. */
function appendItem(files: Files, file: string, keys: readonly string[], item: FieldMap): Edit {
  const text = files[file] ?? "";
  const parts = splitList(text);
  if (text.trim() !== "" && !parts) return refuse("TOO_TANGLED");
  const newline = text.includes("\r\n") ? "\r\n" : "\n";
  const known = keys.flatMap((key): [string, FieldValue][] => {
    const value = item[key];
    return value === undefined ? [] : [[key, value]];
  });
  const isFlow = parts === null || /^- +\{/.test(parts.at(-1)?.text ?? "");
  const lines = known.map(
    ([key, value], i) => `${i === 0 ? "- " : "  "}${writeKey(key)}: ${writeBlockValue(value)}`,
  );
  const block = isFlow ? `- ${writeFlow(Object.fromEntries(known))}` : lines.join(newline);
  const gap = /\n\r?\n- [^{]/.test(text) ? newline : "";
  const before = text === "" || text.endsWith("\n") ? text : text + newline;
  return { ok: true, files: { ...files, [file]: before + (text === "" ? "" : gap) + block + newline } };
}

/** Every place that names an entry: an item of a list, or a field that holds the id alone. */
export function listReferences(files: Files, kind: EntryKind, id: string): FieldAddress[] {
  return usesOf(files, kind, id).map(addressOf);
}

interface UseOf {
  use: Uses;
  index: number;
}

function usesOf(files: Files, kind: EntryKind, id: string): UseOf[] {
  return listUses(readFiles(files).value).flatMap((use) =>
    use.target.kind === kind ? use.ids.flatMap((used, index) => (used === id ? [{ use, index }] : [])) : [],
  );
}

function addressOf({ use, index }: UseOf): FieldAddress {
  const path = [...use.entry.base, ...use.path];
  return { file: use.entry.file, path: use.single ? path : [...path, index] };
}

/**
 * Takes an entry out of use: the entry goes, with everything that names it, and its id is noted with the reason, so that it is
 * never given to something else. Old editions keep it, and with them old links and codes.
 */
export function retireEntry(files: Files, kind: EntryKind, id: string, why: string): Edit {
  const address = locateEntry(files, kind, id);
  if (!address) return refuse("ENTRY_MISSING");
  if (why.trim() === "") return refuse("VALUE_UNWRITABLE", "Say why it is retired.");
  let now: Files = files;
  // From the last place to the first, so that positions in a list stay true.
  const places = usesOf(files, kind, id).map(placeToRemove);
  for (const place of places.sort((a, b) => comparePaths(b.path, a.path))) {
    const edit = mustStay.includes(place.path.at(-1) ?? "")
      ? refuse("TOO_TANGLED", needed)
      : removeField(now, place);
    if (!edit.ok)
      return refuse(edit.because, `${place.file} names it in ${place.path.join(", ")}: ${edit.sentence}`);
    now = edit.files;
  }
  const without = address.path.length === 0 ? removeFile(now, address.file) : removeListItem(now, address);
  if (!without.ok) return without;
  return appendItem(without.files, RETIRED, ["id", "kind", "why"], { id, kind, why: why.trim() });
}

/** Fields that cannot be without a value. */
const mustStay: readonly Step[] = ["opening", "made_from"];
const needed = "Put something else there first.";

/** Keys of a reference that all around it is about. */
const namesAll: readonly Step[] = ["other", "condition", "to", "id"];

/** What goes with a reference: the item of a list, or all of the look-alike, life cycle, interval or words about it. */
function placeToRemove(of: UseOf): FieldAddress {
  const { file, path } = addressOf(of);
  const last = path.at(-1);
  return of.use.single && namesAll.includes(last ?? "") ? { file, path: path.slice(0, -1) } : { file, path };
}

function comparePaths(a: readonly Step[], b: readonly Step[]): number {
  for (let i = 0; i < Math.min(a.length, b.length); i++) {
    const [x, y] = [a[i] ?? 0, b[i] ?? 0];
    if (x === y) continue;
    return typeof x === "number" && typeof y === "number" ? x - y : String(x) < String(y) ? -1 : 1;
  }
  return a.length - b.length;
}

function removeFile(files: Files, file: string): Edit {
  return { ok: true, files: Object.fromEntries(Object.entries(files).filter(([name]) => name !== file)) };
}

/** Takes an item out of a list file; comments that follow belong to what comes next and stay. */
function removeListItem(files: Files, { file, path: [name] }: FieldAddress): Edit {
  const text = files[file] ?? "";
  const items = splitList(text)?.slice(1) ?? [];
  const part = items.find((item) => {
    const tree = parseTree(item.text);
    return tree && name !== undefined && resolvePath(tree.value, [name]);
  });
  const tree = part && parseTree(part.text);
  const span = tree && spanOf(tree.doc.contents);
  if (!part || !span) return removeField(files, { file, path: name === undefined ? [] : [name] });
  let to = part.offset + lineEnd(part.text, span[1]);
  const blank = /^[ \t]*\r?\n/.exec(text.slice(to));
  if (blank && /\n\r?\n$/.test(text.slice(0, part.offset))) to += blank[0].length;
  const rest = splice(text, { from: part.offset, to }, "");
  return {
    ok: true,
    files: { ...files, [file]: items.length === 1 ? `${rest.trimEnd()}\n[]\n`.trimStart() : rest },
  };
}

/** Puts a finding under another evidence word of a condition, or under none. */
export function moveEvidence(
  files: Files,
  condition: string,
  finding: string,
  to: EvidenceWord | null,
): Edit {
  const file = `conditions/${condition}.md`;
  if (!Object.hasOwn(files, file)) return refuse("ENTRY_MISSING");
  let now: Files = files;
  for (const word of evidenceWords) {
    const address = { file, path: ["evidence", word] };
    const listed = readField(now, address);
    const isListed = Array.isArray(listed) && listed.includes(finding);
    if (isListed === (word === to)) continue;
    const edit = isListed
      ? removeField(now, { file, path: [...address.path, finding] })
      : addItem(now, address, finding);
    if (!edit.ok) return edit;
    now = edit.files;
  }
  return { ok: true, files: now };
}
