import type { EntryKind } from "../content/content.ts";
import type { Files } from "../content/read-files.ts";
import { sectionKeys } from "../content/sections.ts";
import { evidenceWords } from "../evidence-table.ts";
import type { FieldAddress, Step } from "./edit.ts";
import { entryAt } from "./entries.ts";
import { readField } from "./field.ts";
import { nameField } from "./field-words.ts";
import { splitMarkdown } from "./source-file.ts";
import { isSame } from "./write-value.ts";
import { parseTree } from "./yaml-nodes.ts";

export const changeKinds = [
  "added",
  "removed",
  "changed",
  "moved",
  "reordered",
  "layout",
  "unreadable",
] as const;

/** One difference between two states of a content folder. List items are named by their id, not by their place. */
export interface FieldChange extends FieldAddress {
  /** `layout`: only comments, quotes or blank lines. `unreadable`: on one side the file cannot be read. */
  kind: (typeof changeKinds)[number];
  before?: unknown;
  after?: unknown;
  entry: { kind: EntryKind; id: string; name: string } | null;
  /** In the trade's words: "Spider mites: fine pale dots moved from what supports it to the hallmarks." */
  sentence: string;
}

type Raw = Pick<FieldChange, "kind" | "path"> & { before?: unknown; after?: unknown; phrase: string };

/** All differences, field by field, in the order of files and fields. */
export function listChanges(before: Files, after: Files): FieldChange[] {
  const files = [...new Set([...Object.keys(before), ...Object.keys(after)])].sort();
  const changed = files.filter((file) => before[file] !== after[file]);
  if (changed.length === 0) return [];
  const nameOf = openNames(before, after);
  return changed.flatMap((file) =>
    compareFile(before, after, file, nameOf).map(({ phrase, ...raw }) => {
      const at = entryAt(file, raw.path);
      const entry = at && { ...at, name: nameOf(at.kind, at.id) };
      const subject = entry ? capital(entry.name) : (fileNames[file] ?? file);
      return { ...raw, file, entry, sentence: `${subject}${phrase}` };
    }),
  );
}

const fileNames: Record<string, string> = {
  "conversation.yaml": "The conversation",
  "drawings.yaml": "The drawings",
  "findings.yaml": "The findings",
  "hosts.yaml": "The plants",
  "lexicon.yaml": "The lexicon",
  "life-cycles.yaml": "The life cycles",
  "pots.yaml": "The pots",
  "products.yaml": "The products",
  "retired.yaml": "The retired ids",
  "shop.yaml": "The shop",
  "sources.yaml": "The sources",
  "trade-words.yaml": "The trade words",
  "weights.yaml": "The weights",
};

type NameOf = (kind: EntryKind | null, id: string) => string;

function compareFile(before: Files, after: Files, file: string, nameOf: NameOf): Raw[] {
  const [was, is] = [before[file], after[file]];
  if (was === undefined) return [{ kind: "added", path: [], phrase: ": new." }];
  if (is === undefined) return [{ kind: "removed", path: [], phrase: ": taken away." }];
  if (file.endsWith(".svg")) return [{ kind: "changed", path: [], phrase: ": the drawing changed." }];
  const [old, now] = [readAll(file, was), readAll(file, is)];
  if (old === undefined || now === undefined) {
    return [{ kind: "unreadable", path: [], phrase: ": the file changed, and cannot be read." }];
  }
  const isEntries = Array.isArray(old) && entryAt(file, ["x"]) !== null;
  const raws =
    isEntries && Array.isArray(now) ? compareEntries(old, now, nameOf) : compareValues(old, now, [], nameOf);
  const found = joinMoves(raws, nameOf);
  return found.length > 0
    ? found
    : [{ kind: "layout", path: [], phrase: ": only comments or layout changed." }];
}

/** All fields of a file as one value; undefined when it cannot be read. */
function readAll(file: string, text: string): unknown {
  const parts = file.endsWith(".md") ? splitMarkdown(text) : null;
  if (file.endsWith(".md") && !parts) return undefined;
  const tree = parseTree(parts ? text.slice(parts.keys.from, parts.keys.to) : text.replace(/^\uFEFF/, ""));
  if (!tree) return undefined;
  if (!parts) return tree.value ?? {};
  const read = (path: readonly Step[]) => readField({ [file]: text }, { file, path });
  if (!file.startsWith("conditions/")) return { ...(tree.value as object), body: read(["body"]) };
  const sections = Object.fromEntries(sectionKeys.map((key) => [key, read(["sections", key])]));
  return { ...(tree.value as object), sections };
}

/** The entries of a list file: each is named in full, so a new one is one change. */
function compareEntries(old: readonly unknown[], now: readonly unknown[], nameOf: NameOf): Raw[] {
  const [was, is] = [byName(old), byName(now)];
  if (!was || !is) return compareValues(old, now, [], nameOf);
  const ids = [...new Set([...was.keys(), ...is.keys()])];
  const changes = ids.flatMap((id): Raw[] => {
    if (!was.has(id)) return [{ kind: "added", path: [id], after: is.get(id), phrase: ": new." }];
    if (!is.has(id)) return [{ kind: "removed", path: [id], before: was.get(id), phrase: ": taken away." }];
    return compareValues(was.get(id), is.get(id), [], nameOf).map((raw) => ({
      ...raw,
      path: [id, ...raw.path],
    }));
  });
  return [...changes, ...compareOrder([...was.keys()], [...is.keys()], [])];
}

function compareValues(old: unknown, now: unknown, path: readonly Step[], nameOf: NameOf): Raw[] {
  if (isSame(old, now)) return [];
  if (isMap(old) && isMap(now)) {
    const keys = [...new Set([...Object.keys(old), ...Object.keys(now)])];
    return keys.flatMap((key) => compareValues(old[key], now[key], [...path, key], nameOf));
  }
  const label = nameField(path);
  if (isList(old ?? []) && isList(now ?? [])) {
    return compareLists((old ?? []) as unknown[], (now ?? []) as unknown[], path, label, nameOf);
  }
  const told = isShort(old) && isShort(now) ? ` from ${tell(old)} to ${tell(now)}` : "";
  return [{ kind: "changed", path, before: old, after: now, phrase: `: ${label} changed${told}.` }];
}

function compareLists(
  old: unknown[],
  now: unknown[],
  path: readonly Step[],
  label: string,
  nameOf: NameOf,
): Raw[] {
  const [was, is] = [byName(old), byName(now)];
  if (!was || !is) return [{ kind: "changed", path, before: old, after: now, phrase: `: ${label} changed.` }];
  const names = [...new Set([...was.keys(), ...is.keys()])];
  const changes = names.flatMap((name): Raw[] => {
    const to = [...path, name];
    const shown = nameOf(null, name);
    if (!was.has(name))
      return [{ kind: "added", path: to, after: is.get(name), phrase: `: ${shown} added to ${label}.` }];
    if (!is.has(name)) {
      return [
        { kind: "removed", path: to, before: was.get(name), phrase: `: ${shown} taken out of ${label}.` },
      ];
    }
    return compareValues(was.get(name), is.get(name), to, nameOf);
  });
  return [...changes, ...compareOrder([...was.keys()], [...is.keys()], path, label)];
}

function compareOrder(was: string[], is: string[], path: readonly Step[], label = "the entries"): Raw[] {
  const stayed = was.filter((name) => is.includes(name));
  const order = is.filter((name) => was.includes(name));
  if (isSame(stayed, order)) return [];
  const told = label.startsWith("the order") ? `${label} changed` : `${label} in another order`;
  return [{ kind: "reordered", path, before: was, after: is, phrase: `: ${told}.` }];
}

/** A finding that left one evidence word and came to another has moved. */
function joinMoves(raws: readonly Raw[], nameOf: NameOf): Raw[] {
  const isWord = ({ path }: Raw) => path[0] === "evidence" && evidenceWords.some((word) => word === path[1]);
  const used = new Set<Raw>();
  return raws.flatMap((raw) => {
    if (used.has(raw)) return [];
    const other = raws.find(
      (one) =>
        !used.has(one) && isWord(raw) && isWord(one) && one.path[2] === raw.path[2] && one.kind !== raw.kind,
    );
    if (!other || other === raw) return [raw];
    used.add(other);
    const [from, to] = raw.kind === "removed" ? [raw, other] : [other, raw];
    const phrase = `: ${nameOf("finding", String(raw.path[2]))} moved from ${nameField(from.path.slice(0, 2))} to ${nameField(to.path.slice(0, 2))}.`;
    return [{ kind: "moved" as const, path: to.path, before: from.path[1], after: to.path[1], phrase }];
  });
}

/** List items by what names them; null when some have no name or share one. */
function byName(items: readonly unknown[]): Map<string, unknown> | null {
  const named = new Map<string, unknown>();
  for (const item of items) {
    const name = isMap(item) ? (item.id ?? item.other ?? item.condition) : item;
    if ((typeof name !== "string" && typeof name !== "number") || named.has(String(name))) return null;
    named.set(String(name), item);
  }
  return named;
}

/** Names of entries as people know them, from the later state or else the earlier. */
function openNames(before: Files, after: Files): NameOf {
  const known = new Map<string, string>();
  const learn = (files: Files): void => {
    for (const file of ["hosts.yaml", "findings.yaml", "products.yaml"]) {
      const items = readField(files, { file, path: [] });
      if (!Array.isArray(items)) continue;
      for (const item of items as unknown[]) {
        if (isMap(item) && typeof item.id === "string" && typeof item.name === "string")
          known.set(item.id, item.name);
      }
    }
    for (const file of Object.keys(files)) {
      const at = entryAt(file, []);
      if (!at) continue;
      const shown = /^(?:name|prompt):(.*)$/m.exec(files[file] ?? "")?.[1]?.trim();
      const name = shown?.replace(/^"(.*)"$/s, "$1");
      if (name) known.set(`${at.kind} ${at.id}`, at.kind === "question" ? `“${name}”` : name);
    }
  };
  learn(before);
  learn(after);
  const kinds: EntryKind[] = ["condition", "remedy", "question"];
  return (kind, id) => {
    const inKind = kind && known.get(`${kind} ${id}`);
    const inAny = kinds.map((one) => known.get(`${one} ${id}`)).find((name) => name !== undefined);
    return inKind ?? known.get(id) ?? inAny ?? id;
  };
}

function isMap(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function isList(value: unknown): value is unknown[] {
  return Array.isArray(value);
}

function isShort(value: unknown): boolean {
  return value === undefined || value === null || String(value).length <= 40;
}

function tell(value: unknown): string {
  if (value === undefined || value === null) return "nothing";
  if (typeof value === "boolean") return value ? "yes" : "no";
  return typeof value === "number" || /^[\w-]+$/.test(String(value)) ? String(value) : `“${String(value)}”`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
