/** What a form shows of each kind of entry, in the trade's words. */
import type { EntryKind } from "../../flows/content/content.ts";
import type { Files } from "../../flows/content/read-files.ts";
import { sectionHeadings, sectionKeys } from "../../flows/content/sections.ts";
import type { Step } from "../../flows/editing/edit.ts";
import { readField } from "../../flows/editing/field.ts";
import type { FieldShape } from "../../flows/editing/field-text.ts";
import {
  conditionKinds,
  eatenTraits,
  findingKinds,
  frequencies,
  methods,
  phases,
  poisonLevels,
  spreadings,
} from "../../flows/edition.ts";

export interface FieldSpec {
  /** From the top of the entry. */
  path: readonly Step[];
  label: string;
  as: FieldShape;
  words?: readonly string[];
  /** May be left out of the file. */
  optional?: boolean;
}

export const formKinds = ["condition", "question", "finding", "remedy", "host", "source"] as const;
export type FormKind = (typeof formKinds)[number] & EntryKind;

export const kindNames: Record<FormKind, string> = {
  condition: "Conditions",
  question: "Questions",
  finding: "Findings",
  remedy: "Remedies",
  host: "Host plants",
  source: "Sources",
};

const line = (path: Step, label: string, optional = false): FieldSpec => ({
  path: [path],
  label,
  as: "line",
  optional,
});
const lines = (path: Step, label: string): FieldSpec => ({
  path: [path],
  label,
  as: "lines",
  optional: true,
});
const choice = (path: Step, label: string, words: readonly string[], optional = false): FieldSpec => ({
  ...{ path: [path], label, as: "choice", words, optional },
});
const yes = (path: Step, label: string): FieldSpec => ({ path: [path], label, as: "yes", optional: true });

const specs: Record<FormKind, readonly FieldSpec[]> = {
  finding: [
    line("name", "Name; reads after “You saw:”"),
    line("absent", "When it is not there; reads after “You looked and found:”"),
    choice("kind", "Kind", findingKinds),
    yes("vague", "Only an owner's first word"),
    yes("circumstance", "Tells how it came or where"),
    lines("implies", "Vaguer findings that always hold with it"),
    lines("combines", "Findings that together amount to it"),
  ],
  question: [
    line("prompt", "The question"),
    line("why", "Why we ask"),
    {
      path: ["ask_when", "any"],
      label: "Ask when one of these findings was told",
      as: "lines",
      optional: true,
    },
    { path: ["ask_when", "none"], label: "Never when one of these was told", as: "lines", optional: true },
    { path: ["body"], label: "How to check, in steps", as: "prose" },
  ],
  condition: [
    line("name", "Name"),
    lines("also_called", "Also called"),
    choice("kind", "Kind", conditionKinds),
    choice("how_common", "How common at the counter", frequencies),
    choice("spreads", "Does it spread?", spreadings),
    yes("needs_sample", "Ask for a sample in any case"),
    lines("prone", "Plants that are prone to it"),
    lines("immune", "Plants that never get it"),
    lines("only_on", "Only on these plants"),
    lines("brought_on_by", "Brought on by"),
    lines("brings", "Brings"),
    lines("plan", "Plan: remedies"),
    lines("sources", "Sources"),
    ...sectionKeys.map(
      (key): FieldSpec => ({ path: ["sections", key], label: sectionHeadings[key], as: "prose" }),
    ),
  ],
  remedy: [
    line("name", "Name"),
    choice("method", "Method", methods),
    choice("phase", "When", phases),
    { path: ["toxicity"], label: "Toxicity, 0 to 3", as: "number" },
    yes("product", "Needs a bought product"),
    yes("for_food_plants", "May be used on plants that are eaten"),
    line("amount", "Amount", true),
    lines("needs", "What one needs"),
    lines("never_when", "Never when"),
    choice("needs_standing", "Only from this standing on", ["leaning", "suspected"], true),
    yes("last_resort", "Last resort"),
    lines("sources", "Sources"),
    { path: ["body"], label: "The steps", as: "prose" },
  ],
  host: [
    line("name", "Name"),
    line("botanical", "Botanical name", true),
    lines("also_called", "Also called"),
    lines("groups", "Groups"),
    choice("eaten", "Is it eaten?", eatenTraits),
    { path: ["poisonous", "people"], label: "Poisonous for people", as: "choice", words: poisonLevels },
    { path: ["poisonous", "pets"], label: "Poisonous for pets", as: "choice", words: poisonLevels },
    { path: ["poisonous", "note"], label: "About its poison", as: "line", optional: true },
    lines("harmed_by", "Injured by (soap, oil, alcohol, wet-leaves)"),
    yes("keep_dry", "A succulent, kept dry"),
    lines("sources", "Sources"),
  ],
  source: [
    line("publisher", "Publisher"),
    line("title", "Title"),
    choice("tier", "Tier", ["A", "B", "none"]),
    line("date", "Date", true),
    line("url", "Address", true),
  ],
};

/** The fields of one entry: those of its kind, and those of its answers or look-alikes. */
export function listFields(files: Files, kind: FormKind, file: string, base: readonly Step[]): FieldSpec[] {
  const inner = (key: string, name: string) => {
    const items = readField(files, { file, path: [...base, key] });
    if (!Array.isArray(items)) return [];
    return items.flatMap((item: unknown) => {
      const id = typeof item === "object" && item !== null && name in item ? Reflect.get(item, name) : null;
      return typeof id === "string" ? [id] : [];
    });
  };
  const options = kind === "question" ? inner("options", "id") : [];
  const others = kind === "condition" ? inner("looks_like", "other") : [];
  return [
    ...specs[kind],
    ...options.flatMap((id): FieldSpec[] => [
      { path: ["options", id, "label"], label: `Answer ${id}: its words`, as: "line" },
      {
        path: ["options", id, "present"],
        label: `Answer ${id}: findings it establishes`,
        as: "lines",
        optional: true,
      },
      {
        path: ["options", id, "absent"],
        label: `Answer ${id}: findings it excludes`,
        as: "lines",
        optional: true,
      },
    ]),
    ...others.map(
      (other): FieldSpec => ({
        path: ["looks_like", other, "check"],
        label: `The check that tells it from ${other}`,
        as: "prose",
      }),
    ),
  ];
}
