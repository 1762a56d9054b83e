import type { Content, Entry, EntryKind, Shelf } from "./content.ts";
import { findNearest } from "./nearest.ts";
import { makeProblem, type Problem, type ProblemCode } from "./problems.ts";
import type { Path } from "./read-yaml.ts";

/** A kind of id that files use to point at each other. */
interface Target {
  kind: EntryKind;
  code: ProblemCode;
  name: string;
  /** Null when the file that holds the ids could not be read: then nothing can be called unknown. */
  ids: ReadonlySet<string> | null;
}

interface Targets {
  finding: Target;
  condition: Target;
  host: Target;
  remedy: Target;
  question: Target;
  source: Target;
  product: Target;
}

/** Ids that one entry uses, in a list or alone. */
export interface Uses {
  entry: Entry<unknown>;
  path: Path;
  ids: readonly string[];
  target: Target;
  /** True where `path` leads to the id itself, false where it leads to a list of ids. */
  single?: boolean;
}

/** Every id that one file uses must be known, and no list may name one twice. */
export function checkReferences(content: Content): Problem[] {
  return listUses(content).flatMap(checkUses);
}

/** Every use of an id of another entry. */
export function listUses(content: Content): Uses[] {
  const targets = makeTargets(content);
  return [
    ...listConversationUses(content, targets),
    ...listFindingUses(content, targets),
    ...listQuestionUses(content, targets),
    ...listConditionUses(content, targets),
    ...listPacingUses(content, targets),
    ...listSourceUses(content, targets),
    ...listProductUses(content, targets),
    ...listSupplySourceUses(content, targets),
    ...listLexiconUses(content, targets),
    ...listDrawingUses(content, targets),
  ];
}

function makeTargets(content: Content): Targets {
  const idsOf = ({ ids, whole }: Shelf<unknown>): ReadonlySet<string> | null =>
    whole || ids.size > 0 ? ids : null;
  const groups = content.hosts.entries.flatMap(({ value }) => value.groups);
  return {
    finding: { kind: "finding", code: "FINDING_UNKNOWN", name: "finding", ids: idsOf(content.findings) },
    condition: {
      kind: "condition",
      code: "CONDITION_UNKNOWN",
      name: "condition",
      ids: idsOf(content.conditions),
    },
    // The groups of an unreadable plant are not known.
    host: {
      kind: "host",
      code: "HOST_UNKNOWN",
      name: "host plant or group",
      ids: content.hosts.whole ? new Set([...content.hosts.ids, ...groups]) : null,
    },
    remedy: { kind: "remedy", code: "REMEDY_UNKNOWN", name: "remedy", ids: idsOf(content.remedies) },
    question: { kind: "question", code: "QUESTION_UNKNOWN", name: "question", ids: idsOf(content.questions) },
    source: { kind: "source", code: "SOURCE_UNKNOWN", name: "source", ids: idsOf(content.sources) },
    product: { kind: "product", code: "PRODUCT_UNKNOWN", name: "product", ids: idsOf(content.products) },
  };
}

function checkUses({ entry, path, ids, target }: Uses): Problem[] {
  return ids.flatMap((id, index) => {
    const place = entry.at([...path, index]);
    if (ids.indexOf(id) < index)
      return [makeProblem("LISTED_TWICE", place, `“${id}” stands in this list already.`)];
    if (target.ids === null || target.ids.has(id)) return [];
    const nearest = findNearest(id, target.ids);
    const hint = nearest === null ? undefined : `Did you mean “${nearest}”?`;
    return [makeProblem(target.code, place, `There is no ${target.name} “${id}”.`, hint)];
  });
}

/** A single id that is not in a list. */
function useOne(entry: Entry<unknown>, path: Path, id: string, target: Target): Uses {
  return { entry: { ...entry, at: () => entry.at(path) }, path, ids: [id], target, single: true };
}

function listConversationUses({ conversation: entry }: Content, { question, remedy }: Targets): Uses[] {
  if (entry === null) return [];
  return [
    useOne(entry, ["opening"], entry.value.opening, question),
    // A question that is in the order twice has a code of its own, hence the set.
    ...[...new Set(entry.value.order)].map((id) =>
      useOne(entry, ["order", entry.value.order.indexOf(id)], id, question),
    ),
    { entry, path: ["when_unsure"], ids: entry.value.when_unsure, target: question },
    { entry, path: ["first_aid"], ids: entry.value.first_aid, target: remedy },
  ];
}

function listFindingUses(content: Content, { finding }: Targets): Uses[] {
  return content.findings.entries.flatMap((entry) => [
    { entry, path: ["implies"], ids: entry.value.implies, target: finding },
    { entry, path: ["combines"], ids: entry.value.combines, target: finding },
  ]);
}

function listQuestionUses(content: Content, { finding }: Targets): Uses[] {
  return content.questions.entries.flatMap((entry) => [
    { entry, path: ["ask_when", "any"], ids: entry.value.ask_when.any, target: finding },
    { entry, path: ["ask_when", "none"], ids: entry.value.ask_when.none, target: finding },
    ...entry.value.options.flatMap((option, index) => [
      { entry, path: ["options", index, "present"], ids: option.present, target: finding },
      { entry, path: ["options", index, "absent"], ids: option.absent, target: finding },
    ]),
  ]);
}

function listConditionUses(content: Content, { finding, condition, host, remedy }: Targets): Uses[] {
  return content.conditions.entries.flatMap((entry) => {
    const { evidence, when_absent: whenAbsent, ...value } = entry.value;
    const words = Object.entries(evidence).map(([word, ids]) => ({
      entry,
      path: ["evidence", word],
      ids,
      target: finding,
    }));
    const absences = Object.entries(whenAbsent).map(([word, ids]) => ({
      entry,
      path: ["when_absent", word],
      ids,
      target: finding,
    }));
    const others = value.looks_like.map(({ other }, index) =>
      useOne(entry, ["looks_like", index, "other"], other, condition),
    );
    return [
      ...words,
      ...absences,
      ...others,
      { entry, path: ["prone"], ids: value.prone, target: host },
      { entry, path: ["immune"], ids: value.immune, target: host },
      { entry, path: ["only_on"], ids: value.only_on, target: host },
      { entry, path: ["brought_on_by"], ids: value.brought_on_by, target: condition },
      { entry, path: ["brings"], ids: value.brings, target: condition },
      { entry, path: ["plan"], ids: value.plan, target: remedy },
    ];
  });
}

function listPacingUses({ lifeCycles: entry }: Content, { condition, remedy, source }: Targets): Uses[] {
  if (entry === null) return [];
  const { cycles, paced, intervals } = entry.value;
  const citing = (
    list: "cycles" | "intervals",
    index: number,
    of: { condition: string; sources: string[] },
  ) => [
    useOne(entry, [list, index, "condition"], of.condition, condition),
    { entry, path: [list, index, "sources"], ids: of.sources, target: source },
  ];
  return [
    { entry, path: ["paced"], ids: paced, target: remedy },
    ...cycles.flatMap((cycle, index) => citing("cycles", index, cycle)),
    ...intervals.flatMap((interval, index) => [
      ...citing("intervals", index, interval),
      { entry, path: ["intervals", index, "remedies"], ids: interval.remedies, target: remedy },
    ]),
  ];
}

function listSourceUses(content: Content, { source }: Targets): Uses[] {
  const citing = [...content.hosts.entries, ...content.conditions.entries, ...content.remedies.entries];
  return citing.map((entry) => ({ entry, path: ["sources"], ids: entry.value.sources, target: source }));
}

function listProductUses({ products, remedies, shop }: Content, { product }: Targets): Uses[] {
  const shelved = Object.keys(shop?.value.shelves ?? {});
  return [
    ...remedies.entries.map((entry) => ({
      entry,
      path: ["uses"],
      ids: entry.value.uses,
      target: product,
    })),
    ...products.entries.flatMap((entry) =>
      (["made_from", "instead_of"] as const).flatMap((key) => {
        const id = entry.value[key];
        return id === undefined ? [] : [useOne(entry, [key], id, product)];
      }),
    ),
    ...(shop === null ? [] : shelved.map((id) => useOne(shop, ["shelves", id], id, product))),
  ];
}

function listLexiconUses({ lexicon: entry, hosts }: Content, { finding, condition, host }: Targets): Uses[] {
  if (entry === null) return [];
  // Nobody says the name of a group of plants.
  const plant = { ...host, ids: hosts.whole ? hosts.ids : null };
  return [
    ...entry.value.findings.map(({ id }, index) => useOne(entry, ["findings", index, "id"], id, finding)),
    ...entry.value.hosts.map((one, index) => useOne(entry, ["hosts", index, "host"], one.host, plant)),
    ...entry.value.theories.map(({ conditions }, index) => ({
      entry,
      path: ["theories", index, "conditions"],
      ids: conditions,
      target: condition,
    })),
  ];
}

/** Sources of products, of their rates, and of the pots. */
function listSupplySourceUses({ products, pots }: Content, { source }: Targets): Uses[] {
  const cite = (entry: Entry<unknown>, path: Path, ids: readonly string[]): Uses => ({
    entry,
    path: [...path, "sources"],
    ids,
    target: source,
  });
  const ofProducts = products.entries.flatMap((entry) => [
    cite(entry, [], entry.value.sources),
    ...entry.value.rates.map(({ sources }, index) => cite(entry, ["rates", index], sources)),
  ]);
  if (pots === null) return ofProducts;
  const { nominal, ...rules } = pots.value;
  return [
    ...ofProducts,
    ...nominal.map(({ sources }, index) => cite(pots, ["nominal", index], sources)),
    ...Object.entries(rules).map(([key, { sources }]) => cite(pots, [key], sources)),
  ];
}

function listDrawingUses({ drawings }: Content, { finding, question, condition }: Targets): Uses[] {
  return drawings.entries.flatMap((entry) => [
    { entry, path: ["findings"], ids: entry.value.findings, target: finding },
    { entry, path: ["checks"], ids: entry.value.checks, target: question },
    { entry, path: ["conditions"], ids: entry.value.conditions, target: condition },
    ...entry.value.answers.map(({ to }, index) => useOne(entry, ["answers", index, "to"], to, question)),
  ]);
}
