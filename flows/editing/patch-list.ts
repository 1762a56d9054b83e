import { isMap, isScalar, isSeq, type YAMLSeq } from "yaml";
import type { FieldValue } from "./edit.ts";
import { isMapValue, writeBlockValue, writeFlow, writeKey } from "./write-value.ts";
import { columnOf, lineEnd, lineStart, nodeAt, pairOf, spanOf, type YamlTree } from "./yaml-nodes.ts";

/** An item of a list after a change: one that was there, by its position, or a new value. */
export type ListItem = { keep: number } | { value: FieldValue };

/** The text with the list rewritten; items that stay are not touched. Null when the list holds what cannot be kept. */
export function rewriteList(
  tree: YamlTree,
  path: readonly (string | number)[],
  items: readonly ListItem[],
): string | null {
  const seq = nodeAt(tree, path);
  if (!isSeq(seq)) return null;
  return seq.flow ? rewriteFlow(tree.text, seq, items) : rewriteBlock(tree, path, seq, items);
}

function rewriteFlow(text: string, seq: YAMLSeq, items: readonly ListItem[]): string | null {
  const [from, to] = spanOf(seq) ?? [0, 0];
  const spans = seq.items.map(spanOf);
  if (spans.some((span) => span === null)) return null;
  const old = spans.flatMap((span) => (span ? [span] : []));
  const first = old[0];
  const last = old.at(-1);
  const lead = first ? text.slice(from + 1, first[0]) : "";
  const trail = last ? text.slice(last[1], to - 1) : "";
  const gaps = old.slice(1).map(([start], i) => text.slice(old[i]?.[1] ?? 0, start));
  const simple =
    /^\s*$/.test(lead) && /^\s*(?:,\s*)?$/.test(trail) && gaps.every((gap) => /^\s*,\s*$/.test(gap));
  if (!simple) return null;
  if (items.length === 0) return `${text.slice(0, from)}[]${text.slice(to)}`;
  let inner = "";
  items.forEach((item, i) => {
    const before = items[i - 1];
    if (before) {
      const follows = "keep" in item && "keep" in before && item.keep === before.keep + 1;
      inner += (follows ? gaps[before.keep] : undefined) ?? gaps[0] ?? ", ";
    }
    const span = "keep" in item ? old[item.keep] : undefined;
    inner += span ? text.slice(...span) : "value" in item ? writeFlow(item.value) : "";
  });
  return `${text.slice(0, from + 1)}${lead}${inner}${trail}${text.slice(to - 1)}`;
}

function rewriteBlock(
  { text, doc }: YamlTree,
  path: readonly (string | number)[],
  seq: YAMLSeq,
  items: readonly ListItem[],
): string | null {
  const start = seq.range?.[0] ?? 0;
  const from = lineStart(text, start);
  if (text.slice(from, start).trim() !== "") return null;
  const cuts = [from];
  for (const item of seq.items) {
    const span = spanOf(item);
    if (!span) return null;
    cuts.push(lineEnd(text, span[1]));
  }
  const to = cuts.at(-1) ?? from;
  if (items.length === 0) return emptyBlock(text, doc.getIn(path.slice(0, -1), true), path.at(-1), from, to);
  const newline = text.includes("\r\n") ? "\r\n" : "\n";
  const indent = " ".repeat(columnOf(text, start));
  const lines = items.map((item) => {
    const chunk =
      "keep" in item
        ? text.slice(cuts[item.keep], cuts[item.keep + 1])
        : writeItem(seq, indent, item.value, newline);
    return chunk.endsWith("\n") ? chunk : chunk + newline;
  });
  return text.slice(0, from) + lines.join("") + text.slice(to);
}

function emptyBlock(
  text: string,
  parent: unknown,
  key: string | number | undefined,
  from: number,
  to: number,
): string | null {
  const newline = text.includes("\r\n") ? "\r\n" : "\n";
  if (key === undefined) return `${text.slice(0, from)}[]${newline}${text.slice(to)}`;
  const pair = isMap(parent) ? pairOf(parent, String(key)) : undefined;
  const span = spanOf(pair?.key);
  if (!span) return null;
  const colon = text.indexOf(":", span[1]) + 1;
  return `${text.slice(0, colon)} []${text.slice(colon, from)}${text.slice(to)}`;
}

/** A new item in the style of those that are there. */
function writeItem(seq: YAMLSeq, indent: string, value: FieldValue, newline: string): string {
  const model = seq.items[0];
  const entries = isMapValue(value) ? Object.entries(value) : [];
  if (entries.length === 0 || !isMap(model) || model.flow) {
    const text = isMapValue(value) || !isScalar(model) ? writeFlow(value) : writeBlockValue(value);
    return `${indent}- ${text}${newline}`;
  }
  return entries
    .map(
      ([key, inner], i) =>
        `${indent}${i === 0 ? "- " : "  "}${writeKey(key)}: ${writeBlockValue(inner)}${newline}`,
    )
    .join("");
}
