import { isMap, isScalar, isSeq } from "yaml";
import type { Problem } from "../content/problems.ts";
import type { Files } from "../content/read-files.ts";
import { splitList } from "../content/split-list.ts";
import type { Step } from "./edit.ts";
import { type Span, splitMarkdown, splitSections } from "./source-file.ts";
import { parseTree, spanOf } from "./yaml-nodes.ts";

/** A problem with the field at which it shows. The path is empty where the file as a whole is meant. */
export interface FieldProblem extends Problem {
  path: readonly Step[];
}

type FindField = (line: number, column: number) => readonly Step[];

/** Finds the field of each problem from its place in the file. List items are named by their id, where they have one. */
export function placeProblems(files: Files, problems: readonly Problem[]): FieldProblem[] {
  const finders = new Map<string, FindField>();
  return problems.map((problem) => {
    const find = finders.get(problem.file) ?? openFinder(problem.file, files[problem.file] ?? "");
    finders.set(problem.file, find);
    return { ...problem, path: find(problem.line, problem.column) };
  });
}

function openFinder(file: string, raw: string): FindField {
  // Places are counted without byte order mark and carriage returns.
  const text = raw.replace(/^\uFEFF/, "").replace(/\r\n?/g, "\n");
  const lines = [0];
  for (let at = text.indexOf("\n"); at >= 0; at = text.indexOf("\n", at + 1)) lines.push(at + 1);
  const parts = file.endsWith(".md") ? splitMarkdown(text) : null;
  return (line, column) => {
    const at = (lines[line - 1] ?? text.length) + column - 1;
    if (parts) {
      if (at >= parts.body.from) return fieldInBody(file, text, parts.body, at);
      return fieldInYaml(text.slice(parts.keys.from, parts.keys.to), at - parts.keys.from);
    }
    const item = splitList(text)
      ?.slice(1)
      .find(({ offset, text: own }) => at >= offset && at < offset + own.length);
    return item ? fieldInYaml(item.text, at - item.offset) : fieldInYaml(text, at);
  };
}

function fieldInBody(file: string, text: string, body: Span, at: number): readonly Step[] {
  if (!file.startsWith("conditions/")) return ["body"];
  const section = splitSections(text, body).findLast(({ heading }) => heading <= at);
  return section?.key ? ["sections", section.key] : ["body"];
}

/** The innermost value, or key, that covers a place. */
function fieldInYaml(text: string, at: number): readonly Step[] {
  const tree = parseTree(text);
  if (!tree) return [];
  const path: Step[] = [];
  let node: unknown = tree.doc.contents;
  for (;;) {
    const step = stepInto(node, at);
    if (!step) return path;
    path.push(step.name);
    node = step.node;
  }
}

function stepInto(node: unknown, at: number): { name: Step; node: unknown } | undefined {
  const covers = (part: unknown) => {
    const span = spanOf(part);
    return span !== null && at >= span[0] && (at < span[1] || (at === span[1] && span[0] === span[1]));
  };
  if (isMap(node)) {
    const pair = node.items.find(({ key, value }) => covers(key) || covers(value));
    return isScalar(pair?.key) ? { name: String(pair.key.value), node: pair.value } : undefined;
  }
  if (!isSeq(node)) return undefined;
  const index = node.items.findIndex(covers);
  if (index < 0) return undefined;
  const item = node.items[index];
  const named = isMap(item)
    ? ["id", "other", "condition"].map((key) => item.get(key)).find((name) => name)
    : undefined;
  return { name: typeof named === "string" ? named : index, node: item };
}
