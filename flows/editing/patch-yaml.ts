import { isMap, isScalar, isSeq, type YAMLMap } from "yaml";
import type { EditRefusal, FieldValue, Step } from "./edit.ts";
import { type ListItem, rewriteList } from "./patch-list.ts";
import { writeScalars } from "./write-scalar.ts";
import { isList, isMapValue, isSame, writeBlockValue, writeFlow, writeKey } from "./write-value.ts";
import {
  columnOf,
  isCollection,
  lineEnd,
  lineStart,
  nodeAt,
  pairOf,
  parseTree,
  resolvePath,
  spanOf,
  type YamlTree,
} from "./yaml-nodes.ts";

export type Change =
  | { set: FieldValue }
  | { remove: true }
  | { items: (old: readonly unknown[]) => ListItem[] };

type Path = readonly (string | number)[];

/**
 * Changes one value in a YAML text and leaves every other byte alone. Each result is read again before it is returned: it
 * must mean what it meant, but for the change. `order`: keys of the top map in house order, for a key that is new.
 */
export function patchYaml(
  text: string,
  steps: readonly Step[],
  change: Change,
  order: readonly string[] = [],
): { text: string } | { refusal: EditRefusal } {
  const tree = parseTree(text);
  if (!tree) return { refusal: "FILE_UNREADABLE" };
  const path = resolvePath(tree.value, steps);
  if (!path) return { refusal: "FIELD_MISSING" };
  const old = valueAt(tree.value, path);
  if ("set" in change && isMapValue(change.set) && isPlainMap(old)) {
    return patchMap(text, path, old, change.set, order);
  }
  const [wanted, candidates] = propose(tree, path, old, change, order);
  if (wanted === undefined) return { refusal: "FIELD_MISSING" };
  if (isSame(wanted.value, tree.value)) return { text };
  for (const candidate of candidates) {
    if (candidate === null) continue;
    const after = parseTree(candidate);
    if (after && isSame(after.value, wanted.value)) return { text: candidate };
  }
  return { refusal: "set" in change && !isList(change.set) ? "VALUE_UNWRITABLE" : "TOO_TANGLED" };
}

type Proposal = [{ value: unknown } | undefined, Iterable<string | null>];

function propose(
  tree: YamlTree,
  path: Path,
  old: unknown,
  change: Change,
  order: readonly string[],
): Proposal {
  if ("remove" in change) {
    if (old === undefined) return [undefined, []];
    return [{ value: without(tree.value, path) }, [removeAt(tree, path)]];
  }
  if ("items" in change) {
    if (!Array.isArray(old)) return [undefined, []];
    const items = change.items(old);
    return [{ value: withValue(tree.value, path, listOf(old, items)) }, [rewriteList(tree, path, items)]];
  }
  const { set } = change;
  const wanted = { value: withValue(tree.value, path, set) };
  if (wanted.value === undefined) return [undefined, []];
  if (isList(set) && Array.isArray(old) && old.length > 0) {
    return [wanted, [rewriteList(tree, path, matchItems(old, set)), replaceAt(tree, path, writeFlow(set))]];
  }
  return [wanted, old === undefined ? insertions(tree, path, set, order) : replacements(tree, path, set)];
}

/** One key after the other, so that what stays the same is not touched. */
function patchMap(
  text: string,
  path: Path,
  old: Readonly<Record<string, unknown>>,
  set: Readonly<Record<string, FieldValue>>,
  order: readonly string[],
): { text: string } | { refusal: EditRefusal } {
  let now = text;
  const keys = new Set([...Object.keys(old), ...Object.keys(set)]);
  for (const key of keys) {
    const value = set[key];
    if (value !== undefined && isSame(old[key], value)) continue;
    const result = patchYaml(
      now,
      [...path, key],
      value === undefined ? { remove: true } : { set: value },
      order,
    );
    if ("refusal" in result) return result;
    now = result.text;
  }
  return { text: now };
}

function matchItems(old: readonly unknown[], set: readonly FieldValue[]): ListItem[] {
  const used = new Set<number>();
  return set.map((value) => {
    const at = old.findIndex((item, i) => !used.has(i) && isSame(item, value));
    if (at < 0) return { value };
    used.add(at);
    return { keep: at };
  });
}

function listOf(old: readonly unknown[], items: readonly ListItem[]): unknown[] {
  return items.map((item) => ("keep" in item ? old[item.keep] : item.value));
}

function* replacements(tree: YamlTree, path: Path, set: FieldValue): Generator<string | null> {
  const node = nodeAt(tree, path);
  if (isScalar(node) && !isList(set) && !isMapValue(set)) {
    const [from, to] = spanOf(node) ?? [0, 0];
    const before = tree.text.slice(0, from);
    const gap = from === to && !/\s$/.test(before) ? " " : "";
    const indent = columnOf(tree.text, firstOnLine(tree.text, from));
    const old = tree.text.slice(from, to);
    // A block of lines takes its last line end along.
    const end = /\r?\n$/.exec(old)?.[0] ?? "";
    for (const text of writeScalars(set, node, old, indent, isInFlow(tree, path))) {
      yield before + gap + text + end + tree.text.slice(to);
    }
    return;
  }
  yield replaceAt(tree, path, isInFlow(tree, path) ? writeFlow(set) : writeBlockValue(set));
  yield replaceAt(tree, path, writeFlow(set));
}

function firstOnLine(text: string, at: number): number {
  const start = lineStart(text, at);
  return start + (/^[ ]*(?:- +)*/.exec(text.slice(start))?.[0].length ?? 0);
}

/** Puts a text in the place of a whole value. */
function replaceAt(tree: YamlTree, path: Path, put: string): string | null {
  const { text } = tree;
  const node = nodeAt(tree, path);
  const span = spanOf(node);
  if (!span) return null;
  const parent = path.length > 0 ? nodeAt(tree, path.slice(0, -1)) : undefined;
  const pair = isMap(parent) ? pairOf(parent, String(path.at(-1))) : undefined;
  const key = spanOf(pair?.key);
  const isBlock = isCollection(node) && !node.flow && node.items.length > 0;
  if (key && isBlock) {
    const colon = text.indexOf(":", key[1]) + 1;
    const rest = text.slice(span[1]);
    return `${text.slice(0, colon)} ${put}${span[1] > 0 && text[span[1] - 1] === "\n" ? "\n" : ""}${rest}`;
  }
  const gap = span[0] === span[1] && !/\s$/.test(text.slice(0, span[0])) ? " " : "";
  return text.slice(0, span[0]) + gap + put + text.slice(span[1]);
}

/** A key that is new. Where maps above it are missing too, they come along. */
function* insertions(
  tree: YamlTree,
  path: Path,
  set: FieldValue,
  order: readonly string[],
): Generator<string | null> {
  let depth = path.length - 1;
  while (depth > 0 && !isCollection(nodeAt(tree, path.slice(0, depth)))) depth--;
  const wrapped = path.slice(depth + 1).reduceRight<FieldValue>((inner, key) => ({ [key]: inner }), set);
  const above = path.slice(0, depth);
  const key = String(path[depth]);
  const map = nodeAt(tree, above);
  if (!isMap(map)) return;
  if (pairOf(map, key)) yield replaceAt(tree, path.slice(0, depth + 1), writeFlow(wrapped));
  else if (map.flow || map.items.length === 0) yield insertInFlow(tree.text, map, key, wrapped);
  else yield insertInBlock(tree.text, map, key, wrapped, depth === 0 ? order : []);
}

function insertInFlow(text: string, map: YAMLMap, key: string, value: FieldValue): string | null {
  const [from, to] = spanOf(map) ?? [0, 0];
  const pair = `${writeKey(key)}: ${writeFlow(value)}`;
  const last = map.items.at(-1);
  if (!last) return `${text.slice(0, from)}{ ${pair} }${text.slice(to)}`;
  const end = Math.max(spanOf(last.key)?.[1] ?? 0, spanOf(last.value)?.[1] ?? 0);
  return `${text.slice(0, end)}, ${pair}${text.slice(end)}`;
}

function insertInBlock(
  text: string,
  map: YAMLMap,
  key: string,
  value: FieldValue,
  order: readonly string[],
): string | null {
  const names = map.items.map((item) => (isScalar(item.key) ? String(item.key.value) : ""));
  const place = order.indexOf(key);
  const before = place < 0 ? names : names.filter((name) => order.indexOf(name) < place);
  const sibling = map.items[names.indexOf(before.at(-1) ?? names[0] ?? "")];
  const first = spanOf(map.items[0]?.key);
  if (!sibling || !first) return null;
  const end = Math.max(spanOf(sibling.key)?.[1] ?? 0, spanOf(sibling.value)?.[1] ?? 0);
  const at = lineEnd(text, end);
  const newline = text.includes("\r\n") ? "\r\n" : "\n";
  const indent = " ".repeat(columnOf(text, first[0]));
  const lead = at > 0 && text[at - 1] !== "\n" ? newline : "";
  return `${text.slice(0, at)}${lead}${indent}${writeKey(key)}:${writeNew(value, indent, newline)}${newline}${text.slice(at)}`;
}

/** A list of maps gets a line for each; everything else fits into one. */
function writeNew(value: FieldValue, indent: string, newline: string): string {
  if (isList(value) && value.length > 0 && value.every(isMapValue)) {
    return value.map((item) => `${newline}${indent}  - ${writeFlow(item)}`).join("");
  }
  return ` ${writeBlockValue(value)}`;
}

function removeAt(tree: YamlTree, path: Path): string | null {
  const { text } = tree;
  const parent = nodeAt(tree, path.slice(0, -1));
  const last = path.at(-1);
  if (isSeq(parent)) {
    const items = parent.items.flatMap((_, i) => (i === last ? [] : [{ keep: i }]));
    return rewriteList(tree, path.slice(0, -1), items);
  }
  if (!isMap(parent)) return null;
  const at = parent.items.findIndex((item) => isScalar(item.key) && String(item.key.value) === String(last));
  const ends = parent.items.map(({ key, value }) => ({
    from: spanOf(key)?.[0] ?? 0,
    to: Math.max(spanOf(key)?.[1] ?? 0, spanOf(value)?.[1] ?? 0),
  }));
  const own = ends[at];
  if (!own) return null;
  if (ends.length === 1) return replaceAt(tree, path.slice(0, -1), "{}");
  if (parent.flow) {
    const [before, after] = [ends[at - 1], ends[at + 1]];
    if (before) return text.slice(0, before.to) + text.slice(own.to);
    return after ? text.slice(0, own.from) + text.slice(after.from) : null;
  }
  const start = lineStart(text, own.from);
  if (text.slice(start, own.from).trim() !== "") return null;
  return text.slice(0, start) + text.slice(lineEnd(text, own.to));
}

/** Whether a value stands inside `[…]` or `{…}`. */
function isInFlow(tree: YamlTree, path: Path): boolean {
  return path.some((_, length) => {
    const node = nodeAt(tree, path.slice(0, length));
    return isCollection(node) && node.flow === true;
  });
}

export function valueAt(value: unknown, path: Path): unknown {
  return path.reduce<unknown>((inner, key) => {
    if (typeof inner !== "object" || inner === null || !Object.hasOwn(inner, key)) return undefined;
    return (inner as Record<string | number, unknown>)[key];
  }, value);
}

function isPlainMap(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** The whole value with another one at the path; undefined where the path leads through something that holds no fields. */
function withValue(value: unknown, [step, ...rest]: Path, put: unknown): unknown {
  if (step === undefined) return put;
  if (Array.isArray(value)) {
    if (typeof step !== "number" || step >= value.length) return undefined;
    const inner = withValue(value[step], rest, put);
    return inner === undefined ? undefined : value.map((item: unknown, i) => (i === step ? inner : item));
  }
  if (typeof value === "object" || value === undefined) {
    const map = (value ?? {}) as Record<string, unknown>;
    const inner = withValue(Object.hasOwn(map, step) ? map[step] : undefined, rest, put);
    return inner === undefined ? undefined : { ...map, [step]: inner };
  }
  return undefined;
}

function without(value: unknown, [step, ...rest]: Path): unknown {
  if (Array.isArray(value)) {
    if (rest.length === 0) return value.filter((_, i) => i !== step);
    return value.map((item: unknown, i) => (i === step ? without(item, rest) : item));
  }
  const map = value as Record<string, unknown>;
  if (rest.length > 0 && step !== undefined) return { ...map, [step]: without(map[step], rest) };
  return Object.fromEntries(Object.entries(map).filter(([key]) => key !== String(step)));
}
