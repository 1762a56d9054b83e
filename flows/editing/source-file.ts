import { type SectionKey, sectionHeadings, sectionKeys } from "../content/sections.ts";
import { splitList } from "../content/split-list.ts";
import type { Step } from "./edit.ts";
import { parseTree, resolvePath } from "./yaml-nodes.ts";

/** A span of characters of a file. */
export interface Span {
  from: number;
  to: number;
}

/** Where the keys of a Markdown file stand, and its text below them. Null when it has no keys. */
export function splitMarkdown(text: string): { keys: Span; body: Span } | null {
  const open = /^\uFEFF?---[ \t]*\r?\n/.exec(text);
  if (!open) return null;
  const from = open[0].length;
  const close = /^---[ \t]*(?:\r?\n|$)/m.exec(text.slice(from));
  if (!close) return null;
  const to = from + close.index;
  return { keys: { from, to }, body: { from: to + close[0].length, to: text.length } };
}

export interface Section extends Span {
  title: string;
  key: SectionKey | undefined;
  /** Where the line of the heading starts. */
  heading: number;
}

/** The `##` sections of the body of a condition. */
export function splitSections(text: string, body: Span): Section[] {
  const headings = [...text.slice(body.from, body.to).matchAll(/^##[ \t]+(\S[^\r\n]*)\r?(?:\n|$)/gm)];
  return headings.map((match, i) => {
    const heading = body.from + match.index;
    const title = match[1]?.trim() ?? "";
    const next = headings[i + 1];
    return {
      title,
      key: sectionKeys.find((key) => sectionHeadings[key] === title),
      heading,
      from: heading + match[0].length,
      to: next ? body.from + next.index : body.to,
    };
  });
}

/** Without the blank lines around it. */
export function trimSpan(text: string, { from, to }: Span): Span {
  const inner = text.slice(from, to);
  const lead = /^(?:[ \t]*\r?\n)*/.exec(inner)?.[0].length ?? 0;
  const length = inner.trimEnd().length;
  return length <= lead ? { from, to: from } : { from: from + lead, to: from + length };
}

/** The YAML that a path leads into: all of the file, the keys above a text, or one item of a long list. */
export interface YamlPart extends Span {
  /** The path inside the part. */
  path: readonly Step[];
}

/** Narrows a field down to the smallest YAML text that can be read by itself. Null when there is none. */
export function locateYaml(file: string, text: string, path: readonly Step[]): YamlPart | null {
  if (file.endsWith(".md")) {
    const parts = splitMarkdown(text);
    return parts && { ...parts.keys, path };
  }
  const whole = { from: text.startsWith("\uFEFF") ? 1 : 0, to: text.length, path };
  const [step, ...rest] = path;
  if (step === undefined) return whole;
  const items = splitList(text.slice(whole.from))?.slice(1);
  if (!items) return whole;
  const at = typeof step === "number" ? step : items.findIndex(({ text: item }) => isNamed(item, step));
  const item = items[at];
  if (!item) return whole;
  const from = whole.from + item.offset;
  return { from, to: from + item.text.length, path: [0, ...rest] };
}

function isNamed(item: string, name: string): boolean {
  return item.includes(name) && resolvePath(parseTree(item)?.value, [name]) !== undefined;
}
