import type * as z from "zod";
import { makeProblem, type Problem } from "./problems.ts";
import type { Path, YamlText } from "./read-yaml.ts";

/** Reads the value at `path` with a schema; every issue becomes a problem at the node it is about. */
export function checkShape<S extends z.ZodType>(
  schema: S,
  yaml: YamlText,
  path: Path = [],
): { value: z.output<S> | null; problems: Problem[] } {
  // jitless: the Workers runtime forbids `new Function`.
  const result = schema.safeParse(valueAt(yaml.value, path), { jitless: true });
  if (result.success) return { value: result.data, problems: [] };
  return { value: null, problems: result.error.issues.flatMap((issue) => describeIssue(issue, yaml, path)) };
}

/** What stands at a path of plain parsed YAML; undefined where there is nothing. */
export function valueAt(value: unknown, path: Path): unknown {
  return path.reduce<unknown>((inner, key) => {
    if (typeof inner !== "object" || inner === null) return undefined;
    return Object.hasOwn(inner, key) ? (inner as Record<string | number, unknown>)[key] : undefined;
  }, value);
}

function describeIssue(issue: z.core.$ZodIssue, yaml: YamlText, base: Path): Problem[] {
  const inner = issue.path.filter((key) => typeof key !== "symbol");
  const path = [...base, ...inner];
  const name = nameOf(inner);
  const value = valueAt(yaml.value, path);
  if (issue.code === "unrecognized_keys") {
    return issue.keys.map((key) =>
      makeProblem("KEY_UNKNOWN", yaml.keyAt(path, key), `There is no key “${key}” here.`),
    );
  }
  const place = yaml.at(path);
  if (value === undefined) return [makeProblem("KEY_MISSING", place, `${name} is missing.`)];
  switch (issue.code) {
    case "invalid_type":
      if (issue.expected === "int")
        return [makeProblem("VALUE_BAD", place, `${name} must be a whole number.`)];
      return [
        makeProblem("TYPE_WRONG", place, `${name} must be ${shapeNames[issue.expected] ?? issue.expected}.`),
      ];
    case "invalid_union":
      return [makeProblem("TYPE_WRONG", place, `${name} ${issue.message}.`)];
    case "invalid_value": {
      const allowed = issue.values.map(String).join(", ");
      return [
        makeProblem(
          "WORD_UNKNOWN",
          place,
          `${name} must be one of: ${allowed}; it is ${JSON.stringify(value)}.`,
        ),
      ];
    }
    default:
      return [makeProblem("VALUE_BAD", place, `${name} ${issue.message}.`)];
  }
}

const shapeNames: Record<string, string> = {
  string: "a text",
  number: "a number",
  boolean: "true or false",
  array: "a list",
  tuple: "a list",
  object: "a block of keys",
};

function nameOf(path: Path): string {
  if (path.length === 0) return "The content";
  const words = path.map((key) => (typeof key === "number" ? `item ${key + 1}` : key));
  return `“${words.join(", ")}”`;
}
