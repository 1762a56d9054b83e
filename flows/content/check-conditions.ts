import type { ConditionEntry, Content } from "./content.ts";
import { makeProblem, type Problem } from "./problems.ts";

/**
 * Place and care merely support a condition: they are as common beside other troubles, and a tally over real cases
 * went wrong most often where they decided. These few are states that are the condition itself.
 */
const statesThatAreTheCondition = [
  "soil-stays-soggy",
  "white-crust-on-soil-or-pot",
  "water-runs-straight-through",
  "mix-dense-or-garden-soil",
];

export function checkConditions(content: Content): Problem[] {
  const kinds = new Map(content.findings.entries.map(({ value }) => [value.id, value.kind]));
  return content.conditions.entries.flatMap((entry) => [
    ...checkPresence(entry),
    ...checkHallmarks(entry, kinds),
    ...checkWords(entry, "evidence", entry.value.evidence),
    ...checkWords(entry, "when_absent", entry.value.when_absent),
  ]);
}

function checkPresence({ value, at }: ConditionEntry): Problem[] {
  const { id, evidence, plan, sources } = value;
  const problems: Problem[] = [];
  if (evidence.hallmark.length + evidence.supports.length === 0) {
    problems.push(makeProblem("EVIDENCE_MISSING", at(["evidence"]), `Nothing speaks for “${id}”.`));
  }
  if (plan.length === 0) problems.push(makeProblem("PLAN_MISSING", at(["plan"]), `“${id}” has no plan.`));
  if (sources.length === 0)
    problems.push(makeProblem("SOURCES_MISSING", at(["sources"]), `“${id}” cites no source.`));
  return problems;
}

function checkHallmarks({ value, at }: ConditionEntry, kinds: ReadonlyMap<string, string>): Problem[] {
  return value.evidence.hallmark.flatMap((id, index) => {
    const kind = kinds.get(id);
    if ((kind !== "site" && kind !== "care") || statesThatAreTheCondition.includes(id)) return [];
    const place = at(["evidence", "hallmark", index]);
    return [makeProblem("HALLMARK_KIND", place, `“${id}” is of kind ${kind} and cannot be a hallmark.`)];
  });
}

/** A finding bears on a condition in one way. */
function checkWords(
  { at }: ConditionEntry,
  key: string,
  words: Readonly<Record<string, readonly string[]>>,
): Problem[] {
  const wordOf = new Map<string, string>();
  return Object.entries(words).flatMap(([word, ids]) =>
    ids.flatMap((id, index) => {
      const other = wordOf.get(id) ?? word;
      wordOf.set(id, other);
      if (other === word) return [];
      return [
        makeProblem("EVIDENCE_TWICE", at([key, word, index]), `“${id}” stands under ${other} already.`),
      ];
    }),
  );
}
