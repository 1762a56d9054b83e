import {
  type Document,
  isAlias,
  isMap,
  isScalar,
  isSeq,
  parseDocument,
  visit,
  type YAMLMap,
  type YAMLSeq,
} from "yaml";
import type { Step } from "./edit.ts";

/** A YAML text that can be edited: parsed, with places in the text. */
export interface YamlTree {
  text: string;
  doc: Document;
  value: unknown;
}

export type Collection = YAMLMap | YAMLSeq;

/** Null when the text has errors, aliases, or keys that are no text. */
export function parseTree(text: string): YamlTree | null {
  const doc = parseDocument(text, {
    version: "1.2",
    uniqueKeys: true,
    stringKeys: true,
    prettyErrors: false,
  });
  if (doc.errors.length > 0 || doc.warnings.length > 0) return null;
  let plain = true;
  visit(doc, (_, node) => {
    if (isAlias(node)) plain = false;
  });
  return plain ? { text, doc, value: doc.toJS() } : null;
}

/** Replaces names of list items by their positions, as far as the path leads; undefined when an item is not there. */
export function resolvePath(value: unknown, path: readonly Step[]): (string | number)[] | undefined {
  const resolved: (string | number)[] = [];
  let inner = value;
  for (const step of path) {
    let at: Step = step;
    if (Array.isArray(inner) && typeof step === "string") {
      at = findItem(inner, step);
      if (at < 0) return undefined;
    }
    resolved.push(at);
    inner = Array.isArray(inner)
      ? (inner as unknown[])[at as number]
      : typeof inner === "object" && inner !== null && Object.hasOwn(inner, at)
        ? (inner as Record<string, unknown>)[at]
        : undefined;
  }
  return resolved;
}

/** The position of the item that a text names. */
export function findItem(items: readonly unknown[], name: string): number {
  const names = (key: string) => (item: unknown) =>
    typeof item === "object" && item !== null && Object.hasOwn(item, key)
      ? (item as Record<string, unknown>)[key] === name
      : false;
  for (const key of ["id", "other", "condition"]) {
    const at = items.findIndex(names(key));
    if (at >= 0) return at;
  }
  return items.indexOf(name);
}

export function nodeAt(tree: YamlTree, path: readonly (string | number)[]): unknown {
  return path.length === 0 ? tree.doc.contents : tree.doc.getIn(path, true);
}

export function isCollection(node: unknown): node is Collection {
  return isMap(node) || isSeq(node);
}

/** Start and end of what a node covers in the text, without comments that follow it. */
export function spanOf(node: unknown): [number, number] | null {
  const range = typeof node === "object" && node !== null && "range" in node ? node.range : null;
  if (!Array.isArray(range) || typeof range[0] !== "number" || typeof range[1] !== "number") return null;
  if (isCollection(node) && !node.flow && node.items.length > 0) {
    const last = node.items.at(-1);
    const end = isMap(node) ? lastEnd(last as { key: unknown; value: unknown }) : spanOf(last)?.[1];
    return [range[0], end ?? range[1]];
  }
  return [range[0], range[1]];
}

function lastEnd({ key, value }: { key: unknown; value: unknown }): number | undefined {
  return Math.max(spanOf(key)?.[1] ?? 0, spanOf(value)?.[1] ?? 0) || undefined;
}

export function pairOf(map: YAMLMap, key: string) {
  return map.items.find((item) => isScalar(item.key) && String(item.key.value) === key);
}

export function lineStart(text: string, at: number): number {
  return text.lastIndexOf("\n", at - 1) + 1;
}

/** The position after the line in which something ends. */
export function lineEnd(text: string, end: number): number {
  if (end > 0 && text[end - 1] === "\n") return end;
  const at = text.indexOf("\n", end);
  return at < 0 ? text.length : at + 1;
}

export function columnOf(text: string, at: number): number {
  return at - lineStart(text, at);
}
