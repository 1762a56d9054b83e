import type { Content } from "./content.ts";
import { makeProblem, type Problem } from "./problems.ts";
import type { FindingItem } from "./schemas.ts";

/** Finding id → all findings that hold whenever it does, itself among them. */
export type Closure = (id: string) => ReadonlySet<string>;

export function checkFindings(content: Content): Problem[] {
  return [...checkCircles(content), ...checkAsked(content)];
}

/** Follows `implies` to its ends; circles are walked once. */
export function followImplies(findings: readonly FindingItem[]): Closure {
  const implies = new Map(findings.map(({ id, implies }) => [id, implies]));
  const known = new Map<string, ReadonlySet<string>>();
  return (id) => {
    const found = known.get(id);
    if (found) return found;
    const reached = new Set([id]);
    for (const next of reached) for (const vaguer of implies.get(next) ?? []) reached.add(vaguer);
    known.set(id, reached);
    return reached;
  };
}

/** Each circle is reported once, at its first finding in the file. */
function checkCircles({ findings }: Content): Problem[] {
  const follow = followImplies(findings.entries.map(({ value }) => value));
  const reported: string[] = [];
  return findings.entries.flatMap(({ value, at }) => {
    const index = value.implies.findIndex((vaguer) => follow(vaguer).has(value.id));
    const isKnown = reported.some((id) => follow(id).has(value.id) && follow(value.id).has(id));
    if (index === -1 || isKnown) return [];
    reported.push(value.id);
    const sentence = `“${value.id}” and “${value.implies[index]}” imply each other.`;
    return [makeProblem("IMPLIES_CIRCLE", at(["implies", index]), sentence)];
  });
}

/** A finding that no answer can establish would be evidence that never comes. */
function checkAsked({ findings, questions }: Content): Problem[] {
  // With a question or finding unread, an honest "nobody asks" is not possible.
  if (!findings.whole || !questions.whole) return [];
  const asked = listAsked({ findings, questions });
  return findings.entries.flatMap(({ value, at }) =>
    asked.has(value.id)
      ? []
      : [makeProblem("FINDING_NOT_ASKED", at(["id"]), `No answer establishes “${value.id}”.`)],
  );
}

function listAsked({ findings, questions }: Pick<Content, "findings" | "questions">): ReadonlySet<string> {
  const follow = followImplies(findings.entries.map(({ value }) => value));
  const asked = new Set<string>();
  const add = (id: string): void => {
    for (const vaguer of follow(id)) asked.add(vaguer);
  };
  for (const { value } of questions.entries) for (const option of value.options) option.present.forEach(add);
  let before = -1;
  // A combination may be part of another one.
  while (before < asked.size) {
    before = asked.size;
    for (const { value } of findings.entries) {
      if (value.combines.length > 0 && value.combines.every((part) => asked.has(part))) add(value.id);
    }
  }
  return asked;
}
