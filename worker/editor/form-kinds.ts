/** What can be edited in a form, where it stands in the files, and how it is begun and taken away. */
import type { EntryKind } from "../../flows/content/content.ts";
import type { Files } from "../../flows/content/read-files.ts";
import { type Edit, type FieldAddress, refuse, type Step } from "../../flows/editing/edit.ts";
import { addEntry, locateEntry, retireEntry } from "../../flows/editing/entries.ts";
import { addItem, readField, removeField } from "../../flows/editing/field.ts";
import { toText } from "../../flows/editing/field-text.ts";

const entryForms = [
  "condition",
  "question",
  "finding",
  "remedy",
  "host",
  "product",
  "source",
] as const satisfies readonly EntryKind[];
type EntryForm = (typeof entryForms)[number];

export const formKinds = [...entryForms, "drawing", "lexicon", "wording", "shop"] as const;
export type FormKind = (typeof formKinds)[number];

export const kindNames: Record<FormKind, string> = {
  condition: "Conditions",
  question: "Questions",
  finding: "Findings",
  remedy: "Remedies",
  host: "Host plants",
  product: "Products",
  source: "Sources",
  drawing: "Drawings",
  lexicon: "How people say it",
  wording: "Wordings",
  shop: "The shop",
};

export interface Row {
  id: string;
  name: string;
}

type Items = Record<string, unknown>;

export function isEntryForm(kind: FormKind): kind is EntryForm {
  return entryForms.some((one) => one === kind);
}

/** Where the thing stands that a form is about; null when there is none. */
export function locateForm(files: Files, kind: FormKind, id: string): FieldAddress | null {
  if (isEntryForm(kind)) return locateEntry(files, kind, id);
  const address = addressOf(kind, id);
  return address !== null && readField(files, address) !== undefined ? address : null;
}

/** The whole of the shop, and the texts of the wordings, go by fixed ids. */
const wordings: Readonly<Record<string, { file: string; name: string }>> = {
  conversation: { file: "conversation.yaml", name: "The conversation, and how to bring a sample" },
  "hand-over": { file: "shop.yaml", name: "The greeting, the message after a call, and help with poison" },
  "trade-words": { file: "trade-words.yaml", name: "Words of the trade" },
};

function addressOf(kind: FormKind, id: string): FieldAddress | null {
  if (kind === "drawing") return { file: "drawings.yaml", path: [id] };
  if (kind === "shop") return { file: "shop.yaml", path: id === "shop" ? [] : ["branches", id] };
  if (kind === "wording") {
    const found = Object.entries(wordings).find(([known]) => known === id);
    return found ? { file: found[1].file, path: [] } : null;
  }
  return {
    file: "lexicon.yaml",
    path: id.split(".").map((step): Step => (/^\d+$/.test(step) ? Number(step) : step)),
  };
}

const folders: Partial<Record<FormKind, string>> = {
  condition: "conditions/",
  question: "questions/",
  remedy: "remedies/",
};
const lists: Partial<Record<FormKind, string>> = {
  finding: "findings.yaml",
  host: "hosts.yaml",
  source: "sources.yaml",
  product: "products.yaml",
  drawing: "drawings.yaml",
};

/** The files that saving a form needs: the one it is about comes first. Null where there can be none. */
export function listFormFiles(kind: FormKind, id: string): readonly string[] | null {
  const folder = folders[kind];
  if (folder !== undefined) return [`${folder}${id}.md`];
  const file = lists[kind] ?? (isEntryForm(kind) ? undefined : addressOf(kind, id)?.file);
  if (file === undefined) return null;
  return kind === "shop" ? [file, "products.yaml"] : [file];
}

/** What there is of a kind, by ids, with what people call it. */
export function listRows(files: Files, kind: FormKind): Row[] {
  const folder = folders[kind];
  if (folder !== undefined) {
    return Object.keys(files)
      .filter((path) => path.startsWith(folder))
      .map((path) => ({
        id: path.slice(folder.length, -".md".length),
        name: toText(readField(files, { file: path, path: [kind === "question" ? "prompt" : "name"] })),
      }));
  }
  const list = lists[kind];
  if (list !== undefined) return itemsAt(files, list, []).map((item) => rowOf(item, toText(item.id)));
  if (kind === "shop") {
    const branches = itemsAt(files, "shop.yaml", ["branches"]).map((item) => rowOf(item, toText(item.id)));
    return [{ id: "shop", name: "The shop as a whole" }, ...branches];
  }
  if (kind === "wording")
    return Object.entries(wordings)
      .filter(([, { file }]) => files[file] !== undefined)
      .map(([id, { name }]) => ({ id, name }));
  return listLexicon(files);
}

function rowOf(item: Items, id: string): Row {
  return { id, name: toText(item.name ?? item.title ?? item.shows) };
}

function itemsAt(files: Files, file: string, path: readonly Step[]): Items[] {
  const items = readField(files, { file, path });
  return Array.isArray(items) ? (items as unknown[]).filter(isItems) : [];
}

function isItems(value: unknown): value is Items {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** Parts of the lexicon that are one list of words. */
const wordLists: Readonly<Record<string, string>> = {
  parts: "Sets that name a part of the plant",
  things: "Sets that name something with a place of its own",
  not_hosts: "Words that look like plants and are none",
  whole: "Words that are read whole",
};

/** Findings by how people tell them, words that mean the same, and the rest; each id is its place in the file. */
function listLexicon(files: Files): Row[] {
  const whole = readField(files, { file: "lexicon.yaml", path: [] });
  if (!isItems(whole)) return [];
  const names = new Map(
    itemsAt(files, "findings.yaml", []).map((item) => [toText(item.id), toText(item.name)]),
  );
  const list = (key: string) => (Array.isArray(whole[key]) ? (whole[key] as unknown[]).filter(isItems) : []);
  const keys = (key: string) => (isItems(whole[key]) ? Object.keys(whole[key]) : []);
  return [
    ...list("findings").map(({ id }) => ({
      id: `findings.${toText(id)}`,
      name: names.get(toText(id)) ?? toText(id),
    })),
    ...keys("words").map((word) => ({ id: `words.${word}`, name: `Words for “${word}”` })),
    ...Object.entries(wordLists).flatMap(([id, name]) => (whole[id] === undefined ? [] : [{ id, name }])),
    ...list("facts").map(({ fact, is }, i) => ({ id: `facts.${i}`, name: `${toText(fact)}: ${toText(is)}` })),
    ...list("hosts").map(({ host }, i) => ({ id: `hosts.${i}`, name: `Other names of ${toText(host)}` })),
    ...list("theories").map(({ conditions }, i) => ({
      id: `theories.${i}`,
      name: `What owners suspect: ${toText(conditions).replaceAll("\n", ", ")}`,
    })),
    ...list("asks").map(({ id }) => ({ id: `asks.${toText(id)}`, name: `What owners ask: ${toText(id)}` })),
    ...keys("turns").map((turn) => ({ id: `turns.${turn}`, name: `Turns of phrase: ${turn}` })),
  ];
}

const addable: readonly FormKind[] = [...entryForms, "shop", "lexicon"];

/** What its new entries are called; null where none can be begun in a form. */
export function newNameOf(kind: FormKind): string | null {
  if (!addable.includes(kind)) return null;
  if (kind === "shop") return "A new branch";
  return kind === "lexicon" ? "Ways to tell a finding" : "A new entry";
}

/** Begins an entry. What it still lacks is told by the checks, at its fields. */
export function addForm(files: Files, kind: FormKind, id: string): Edit {
  if (isEntryForm(kind)) return addEntry(files, kind, id);
  if (!/^[a-z0-9]+(-[a-z0-9]+)*$/.test(id)) return refuse("ID_BAD");
  if (kind === "shop") {
    if (id === "shop" || locateForm(files, kind, id)) return refuse("ID_TAKEN");
    const branch = { id, name: id, address: "", hours: "", phone: "" };
    return addItem(files, { file: "shop.yaml", path: ["branches"] }, branch);
  }
  if (kind !== "lexicon") return refuse("VALUE_UNWRITABLE");
  if (locateForm(files, kind, `findings.${id}`)) return refuse("ID_TAKEN");
  return addItem(files, { file: "lexicon.yaml", path: ["findings"] }, { id, ways: [] });
}

/** The id of the form of something that was just begun. */
export function idOfNew(kind: FormKind, id: string): string {
  return kind === "lexicon" ? `findings.${id}` : id;
}

/** Whether a form offers to take the thing away. */
export function canRetire(kind: FormKind, id: string): boolean {
  return (
    isEntryForm(kind) ||
    (kind === "shop" && id !== "shop") ||
    (kind === "lexicon" && id.startsWith("findings."))
  );
}

/** Takes it out of use. Entries go with every mention, and their ids are noted; a branch or a way of telling just goes. */
export function retireForm(files: Files, kind: FormKind, id: string, why: string): Edit {
  if (isEntryForm(kind)) return retireEntry(files, kind, id, why);
  const address = canRetire(kind, id) ? locateForm(files, kind, id) : null;
  if (address === null) return refuse("ENTRY_MISSING");
  if (why.trim() === "") return refuse("VALUE_UNWRITABLE", "Say why it is taken out.");
  return removeField(files, address);
}
