/** What a form shows of each kind of entry, in the trade's words. */
import type { Files } from "../../flows/content/read-files.ts";
import { sectionHeadings, sectionKeys } from "../../flows/content/sections.ts";
import type { FieldAddress, Step } from "../../flows/editing/edit.ts";
import { readField } from "../../flows/editing/field.ts";
import { type FieldAs, toText } from "../../flows/editing/field-text.ts";
import {
  conditionKinds,
  eatenTraits,
  facts,
  findingKinds,
  frequencies,
  methods,
  phases,
  poisonLevels,
  productKinds,
  spreadings,
  unitSystems,
} from "../../flows/edition.ts";
import { type FormKind, listRows } from "./form-kinds.ts";

export interface FieldSpec extends FieldAs {
  /** From the top of the entry. */
  path: readonly Step[];
  label: string;
  words?: readonly string[];
  /** What a yes-or-no is while the file does not say. */
  usually?: "yes" | "no";
}

type Path = Step | readonly Step[];
const pathOf = (path: Path): readonly Step[] => (typeof path === "object" ? path : [path]);
const line = (path: Path, label: string, optional = false): FieldSpec => ({
  ...{ path: pathOf(path), label, as: "line", optional },
});
const prose = (path: Path, label: string): FieldSpec => ({ path: pathOf(path), label, as: "prose" });
const lines = (path: Path, label: string, optional = true): FieldSpec => ({
  ...{ path: pathOf(path), label, as: "lines", optional },
});
const choice = (path: Path, label: string, words: readonly string[], optional = false): FieldSpec => ({
  ...{ path: pathOf(path), label, as: "choice", words, optional },
});
const number = (path: Path, label: string, optional = false): FieldSpec => ({
  ...{ path: pathOf(path), label, as: "number", optional },
});
const yes = (path: Path, label: string, usually: "yes" | "no" = "no"): FieldSpec => ({
  ...{ path: pathOf(path), label, as: "yes", optional: true, usually },
});

const cautionNames: Record<(typeof facts)[number] | "always", string> = {
  always: "for everyone",
  eaten: "where the plant is eaten",
  pets: "for homes with pets",
  children: "for homes with small children",
  "flowering-or-outdoors": "in flower or outdoors",
};

const levels = ["low", "medium", "high"];

const specs: Partial<Record<FormKind, readonly FieldSpec[]>> = {
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
    lines(["ask_when", "any"], "Ask when one of these findings was told"),
    lines(["ask_when", "none"], "Never when one of these was told"),
    prose("body", "How to check, in steps"),
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
    ...sectionKeys.map((key) => prose(["sections", key], sectionHeadings[key])),
  ],
  remedy: [
    line("name", "Name"),
    choice("method", "Method", methods),
    choice("phase", "When", phases),
    number("toxicity", "Toxicity, 0 to 3"),
    yes("product", "Needs a bought product"),
    yes("for_food_plants", "May be used on plants that are eaten"),
    number("minutes", "Minutes it takes", true),
    line("amount", "Amount", true),
    line(["repeat", "until"], "Repeated until", true),
    lines("needs", "What one needs"),
    lines("uses", "Products it uses"),
    lines("never_when", "Never when"),
    ...(["always", ...facts] as const).map((fact) =>
      lines(["cautions", fact], `Cautions ${cautionNames[fact]}`),
    ),
    choice("needs_standing", "Only from this standing on", ["leaning", "suspected"], true),
    yes("last_resort", "Last resort"),
    lines("sources", "Sources"),
    prose("body", "The steps"),
  ],
  host: [
    line("name", "Name"),
    line("botanical", "Botanical name", true),
    lines("also_called", "Also called"),
    lines("groups", "Groups"),
    choice("eaten", "Is it eaten?", eatenTraits),
    choice(["poisonous", "people"], "Poisonous for people", poisonLevels),
    choice(["poisonous", "pets"], "Poisonous for pets", poisonLevels),
    line(["poisonous", "note"], "About its poison", true),
    lines("harmed_by", "Injured by (soap, oil, alcohol, wet-leaves)"),
    yes("keep_dry", "A succulent, kept dry"),
    choice("light", "Light it likes", levels),
    choice("water", "Water it likes", ["dry", "between", "moist"]),
    choice("humidity", "Humidity it likes", levels),
    lines("sources", "Sources"),
  ],
  product: [
    line("name", "Name: an active ingredient or a type, never a brand"),
    choice("kind", "Kind", productKinds),
    yes("at_home", "Probably at home already"),
    line("label", "The sentence that its label comes first", true),
    line("shelf", "Where it stands in most shops", true),
    lines("sources", "Sources"),
  ],
  source: [
    line("publisher", "Publisher"),
    line("title", "Title"),
    choice("tier", "Tier", ["A", "B", "none"]),
    line("date", "Date", true),
    line("url", "Address", true),
  ],
  drawing: [
    line("shows", "What to look for; stands in wherever the drawing cannot be seen"),
    lines("findings", "Shown beside answers that establish one of these findings"),
    lines("checks", "Shown in “how to check” of these questions"),
    lines("conditions", "Stands for these conditions, beside a look-alike"),
  ],
};

const shopFields: readonly FieldSpec[] = [
  line("name", "Name of the shop"),
  line("strapline", "The line below its name"),
  line("locale", "Language and country, such as en-US", true),
  line("time_zone", "Time zone, such as America/New_York", true),
  yes("count_visits", "Count checks by day and branch", "yes"),
];

const branchFields: readonly FieldSpec[] = [
  line("name", "Name of the branch"),
  line("address", "Address"),
  line("hours", "Hours"),
  line("phone", "Phone"),
  choice("units", "Units", unitSystems, true),
  line("locale", "Language and country, where they differ", true),
  line("time_zone", "Time zone, where it differs", true),
];

const wordingFields: Readonly<Record<string, readonly FieldSpec[]>> = {
  conversation: [
    prose("how_to_bring", "How to bring a sample"),
    line("opening", "The first question"),
    lines("order", "Questions in their order", false),
    number("most_questions", "At most so many questions about the plant"),
    lines("when_unsure", "Asked when the first answer was “not sure”"),
    lines("first_aid", "First aid: safe while nothing is certain", false),
  ],
  "hand-over": [
    line("strapline", "The line below the shop's name"),
    line("poison_help", "Whom to call when something was swallowed"),
    line(["hand_over", "subject"], "Subject of the message after a call; {shop} is filled in", true),
    line(["hand_over", "message"], "The message after a call; {shop}, {link} and {code} are filled in", true),
  ],
  "trade-words": [lines([], "Words of the trade, which count as plain words", false)],
};

const lexiconFields: Readonly<Record<string, readonly FieldSpec[]>> = {
  findings: [
    lines("ways", "Ways to tell it"),
    lines("when_denied", "Ways that tell it when they are denied"),
    lines("unless", "Not when these are in the same breath"),
    yes("deniable", "Denying the words denies the finding", "yes"),
    yes("across", "The words may stand in different pieces of a sentence"),
  ],
  facts: [lines("ways", "Ways to tell it"), lines("unless", "Not when these are in the same breath")],
  hosts: [lines("names", "Other names")],
  theories: [lines("conditions", "Conditions that are suspected"), lines("ways", "Ways to say it")],
  asks: [lines("ways", "Ways to ask it")],
};

/** The fields of one entry: those of its kind, and those of its answers, look-alikes or shelves. */
export function listFields(
  files: Files,
  kind: FormKind,
  id: string,
  { file, path }: FieldAddress,
): FieldSpec[] {
  const own = specs[kind];
  if (own !== undefined) return [...own, ...listInner(files, kind, { file, path })];
  if (kind === "wording") return [...(wordingFields[id] ?? [])];
  if (kind === "shop") return path.length > 0 ? [...branchFields] : [...shopFields, ...listShelves(files)];
  const [list = ""] = id.split(".");
  return [...(lexiconFields[list] ?? [lines([], "Words", false)])];
}

function listShelves(files: Files): FieldSpec[] {
  return listRows(files, "product").map(({ id, name }) =>
    line(["shelves", id], `Where it stands here: ${name}`, true),
  );
}

function listInner(files: Files, kind: FormKind, { file, path }: FieldAddress): FieldSpec[] {
  const inner = (key: string, name: string) => {
    const items = readField(files, { file, path: [...path, key] });
    if (!Array.isArray(items)) return [];
    return items.flatMap((item: unknown) => {
      const id = typeof item === "object" && item !== null && name in item ? Reflect.get(item, name) : null;
      return typeof id === "string" ? [id] : [];
    });
  };
  if (kind === "question")
    return inner("options", "id").flatMap((id) => [
      line(["options", id, "label"], `Answer ${id}: its words`),
      lines(["options", id, "present"], `Answer ${id}: findings it establishes`),
      lines(["options", id, "absent"], `Answer ${id}: findings it excludes`),
    ]);
  if (kind === "condition")
    return inner("looks_like", "other").map((other) =>
      prose(["looks_like", other, "check"], `The check that tells it from ${other}`),
    );
  return [];
}

/** A field's value as the form shows it. */
export function showValue(value: unknown, { as, usually }: Pick<FieldSpec, "as" | "usually">): string {
  return as === "yes" && (value === undefined || value === null) ? (usually ?? "no") : toText(value);
}

/** The id of a field's element in a form, from its name. */
export function idOf(name: string): string {
  return `f-${name.replace(/[^a-z0-9]+/gi, "-")}`;
}
