import { dayIds } from "../case.ts";
import { asideNames } from "../case-link.ts";
import { lookQuestionIds, MOST_LOOKS, nameRepeat } from "../flow.ts";
import { type Content, type Entry, type EntryKind, entryKinds, type Shelf } from "./content.ts";
import { makeProblem, type Place, type Problem } from "./problems.ts";

/** `e` is the edition in a case link, `not-sure` the answer every question has, and the days are those of a case. */
const reservedIds: string[] = ["e", "not-sure", ...dayIds];

/** Ids must be unique in their kind, and mean one thing only in a case link. */
export function checkIds(content: Content): Problem[] {
  const branches = content.shop?.value.branches ?? [];
  return [
    ...checkUnique(content.findings.entries.map(locateId)),
    ...checkUnique(content.hosts.entries.map(locateId)),
    ...checkUnique(content.sources.entries.map(locateId)),
    ...checkUnique(content.products.entries.map(locateId)),
    ...checkUnique(content.drawings.entries.map(locateId)),
    ...content.products.entries.flatMap(({ value, at }) =>
      checkUnique(value.rates.map(({ id }, index) => ({ id, place: at(["rates", index, "id"]) }))),
    ),
    ...checkUnique(
      (content.lexicon?.value.findings ?? []).map(({ id }, index) => ({
        id,
        place: content.lexicon?.at(["findings", index, "id"]),
      })),
    ),
    ...checkUnique(
      branches.map(({ id }, index) => ({ id, place: content.shop?.at(["branches", index, "id"]) })),
    ),
    ...content.questions.entries.flatMap(({ value, at }) =>
      checkUnique(value.options.map(({ id }, index) => ({ id, place: at(["options", index, "id"]) }))),
    ),
    ...checkRetired(content),
    ...checkReserved(content),
    ...checkClashes(content),
    ...checkHostNames(content),
  ];
}

/** An id that was retired still means something in old links and editions. */
function checkRetired(content: Content): Problem[] {
  const shelves: Record<EntryKind, Shelf<Entry<{ id: string }>>> = {
    finding: content.findings,
    question: content.questions,
    condition: content.conditions,
    host: content.hosts,
    remedy: content.remedies,
    source: content.sources,
    product: content.products,
  };
  const retired = new Set(content.retired.entries.map(({ value }) => `${value.kind} ${value.id}`));
  return entryKinds.flatMap((kind) =>
    shelves[kind].entries.flatMap(({ value, at }) =>
      retired.has(`${kind} ${value.id}`)
        ? [makeProblem("ID_RETIRED", at(["id"]), `The id “${value.id}” was retired.`)]
        : [],
    ),
  );
}

interface LocatedId {
  id: string;
  place: Place | undefined;
}

function locateId({ value, at }: Entry<{ id: string }>): LocatedId {
  return { id: value.id, place: at(["id"]) };
}

function checkUnique(located: readonly LocatedId[]): Problem[] {
  const seen = new Set<string>();
  return located.flatMap(({ id, place }) => {
    const isNew = !seen.has(id);
    seen.add(id);
    return isNew || place === undefined
      ? []
      : [makeProblem("ID_TWICE", place, `The id “${id}” is taken already.`)];
  });
}

function checkReserved(content: Content): Problem[] {
  const inLinks = [...content.findings.entries, ...content.questions.entries].map(locateId);
  const located = [
    ...inLinks,
    ...content.hosts.entries.map(locateId),
    ...content.questions.entries.flatMap(({ value, at }) =>
      value.options.map(({ id }, index) => ({ id, place: at(["options", index, "id"]) })),
    ),
  ];
  const reserved = [...reservedIds, ...listRepeats(content)];
  const aside: readonly string[] = asideNames;
  const taken = [
    ...located.filter(({ id }) => reserved.includes(id)),
    ...inLinks.filter(({ id }) => aside.includes(id)),
  ];
  return taken.flatMap(({ id, place }) =>
    place ? [makeProblem("ID_RESERVED", place, `The id “${id}” has a meaning of its own.`)] : [],
  );
}

/** A later look asks the same questions again, under numbered ids. */
function listRepeats({ conversation, questions }: Content): string[] {
  const { again } = lookQuestionIds;
  if (!questions.ids.has(again)) return [];
  const asked = [again, ...(conversation ? [conversation.value.opening] : [])];
  const numbers = Array.from({ length: MOST_LOOKS }, (_, i) => i + 2);
  return asked.flatMap((id) => numbers.map((n) => nameRepeat(id, n)));
}

function checkClashes({ questions, findings }: Content): Problem[] {
  return questions.entries.flatMap(({ value, at }) =>
    findings.ids.has(value.id)
      ? [makeProblem("ID_CLASH", at(["id"]), `“${value.id}” is a finding as well as a question.`)]
      : [],
  );
}

/** A shopper's word for the plant must lead to one plant. */
function checkHostNames({ hosts }: Content): Problem[] {
  const owners = new Map<string, string>();
  return hosts.entries.flatMap(({ value, at }) => {
    const names = [
      { name: value.name, place: at(["name"]) },
      ...value.also_called.map((name, index) => ({ name, place: at(["also_called", index]) })),
    ];
    return names.flatMap(({ name, place }) => {
      const key = name.trim().toLowerCase();
      const owner = owners.get(key);
      if (owner === undefined) owners.set(key, value.id);
      return owner === undefined
        ? []
        : [makeProblem("HOST_NAME_TWICE", place, `“${name}” is a name of “${owner}” already.`)];
    });
  });
}
