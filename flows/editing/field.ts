import type { Files } from "../content/read-files.ts";
import {
  conditionSchema,
  conversationSchema,
  lifeCyclesSchema,
  potsSchema,
  questionSchema,
  remedySchema,
  shopSchema,
  weightsSchema,
} from "../content/schemas.ts";
import { sectionHeadings, sectionKeys } from "../content/sections.ts";
import { type Edit, type FieldAddress, type FieldValue, refuse } from "./edit.ts";
import type { ListItem } from "./patch-list.ts";
import { type Change, patchYaml, valueAt } from "./patch-yaml.ts";
import { locateYaml, type Span, splitMarkdown, splitSections, trimSpan } from "./source-file.ts";
import { parseTree, resolvePath } from "./yaml-nodes.ts";

/**
 * What stands in a field; undefined when there is nothing, or when the file cannot be read. The text of a body or section
 * comes without the blank lines around it.
 */
export function readField(files: Files, { file, path }: FieldAddress): unknown {
  const text = files[file];
  if (text === undefined) return undefined;
  const span = locateText(file, text, path);
  if (span) return text.slice(span.from, span.to).replaceAll("\r\n", "\n");
  if (isTextPath(file, path)) return undefined;
  const part = locateYaml(file, text, path);
  const tree = part && parseTree(text.slice(part.from, part.to));
  const resolved = part && tree && resolvePath(tree.value, part.path);
  return resolved ? valueAt(tree.value, resolved) : undefined;
}

/** Reads many fields of one entry: what they share is parsed once. */
export function openFields(
  files: Files,
  { file, path }: FieldAddress,
): (inner: FieldAddress["path"]) => unknown {
  const base = isTextPath(file, path) ? undefined : readField(files, { file, path });
  return (inner) => {
    const whole = [...path, ...inner];
    if (isTextPath(file, whole)) return readField(files, { file, path: whole });
    const resolved = resolvePath(base, inner);
    return resolved && valueAt(base, resolved);
  };
}

/** Writes a value in place. A key that is missing is added in its usual place, with the maps above it. */
export function setField(files: Files, address: FieldAddress, value: FieldValue): Edit {
  if (isTextPath(address.file, address.path)) {
    return typeof value === "string" ? setProse(files, address, value) : refuse("VALUE_UNWRITABLE");
  }
  return change(files, address, { set: value });
}

/** Takes a key, or an item of a list, away. */
export function removeField(files: Files, address: FieldAddress): Edit {
  return isTextPath(address.file, address.path)
    ? refuse("TOO_TANGLED")
    : change(files, address, { remove: true });
}

/** Adds an item to a list; at its end unless `at` says before which. A list that is missing is begun. */
export function addItem(files: Files, address: FieldAddress, value: FieldValue, at?: number): Edit {
  const old = readField(files, address);
  if (old === undefined || old === null) return setField(files, address, [value]);
  return change(files, address, {
    items: (items) => {
      const kept: ListItem[] = items.map((_, keep) => ({ keep }));
      kept.splice(at ?? kept.length, 0, { value });
      return kept;
    },
  });
}

/** Moves an item of a list to another place in it. */
export function moveItem(files: Files, address: FieldAddress, from: number, to: number): Edit {
  return change(files, address, {
    items: (items) => {
      const kept: ListItem[] = items.map((_, keep) => ({ keep }));
      kept.splice(to, 0, ...kept.splice(from, 1));
      return kept;
    },
  });
}

/** Replaces the whole text of a file, or adds the file. */
export function setText(files: Files, file: string, text: string): Files {
  return { ...files, [file]: text };
}

function change(files: Files, { file, path }: FieldAddress, wanted: Change): Edit {
  const text = files[file];
  if (text === undefined) return refuse("FILE_MISSING");
  const part = locateYaml(file, text, path);
  if (!part) return refuse("FILE_UNREADABLE");
  const patched = patchYaml(text.slice(part.from, part.to), part.path, wanted, keyOrder(file));
  if ("refusal" in patched) return refuse(patched.refusal);
  return { ok: true, files: { ...files, [file]: splice(text, part, patched.text) } };
}

/** The keys of a file in the order in which the house writes them. */
function keyOrder(file: string): readonly string[] {
  const [folder = ""] = file.split("/");
  const schema = {
    conditions: conditionSchema,
    questions: questionSchema,
    remedies: remedySchema,
    "conversation.yaml": conversationSchema,
    "life-cycles.yaml": lifeCyclesSchema,
    "pots.yaml": potsSchema,
    "shop.yaml": shopSchema,
    "weights.yaml": weightsSchema,
  }[folder];
  return schema ? Object.keys(schema.shape) : [];
}

function isTextPath(file: string, [step]: FieldAddress["path"]): boolean {
  return file.endsWith(".md") && (step === "body" || step === "sections");
}

/** Where the text of a body or section stands, without blank lines around it. */
function locateText(file: string, text: string, path: FieldAddress["path"]): Span | null {
  const parts = isTextPath(file, path) ? splitMarkdown(text) : null;
  if (!parts) return null;
  if (path[0] === "body") return path.length === 1 ? trimSpan(text, parts.body) : null;
  const section = splitSections(text, parts.body).find(({ key }) => key !== undefined && key === path[1]);
  return section ? trimSpan(text, section) : null;
}

function setProse(files: Files, { file, path }: FieldAddress, value: string): Edit {
  const text = files[file];
  if (text === undefined) return refuse("FILE_MISSING");
  const parts = splitMarkdown(text);
  if (!parts) return refuse("FILE_UNREADABLE");
  const newline = text.includes("\r\n") ? "\r\n" : "\n";
  const prose = value.replace(/\r\n?/g, "\n").trim().replaceAll("\n", newline);
  if (path[0] === "sections" && /^##[ \t]+\S/m.test(prose)) {
    return refuse("VALUE_UNWRITABLE", "A line that begins with ## would be a heading of its own.");
  }
  const span = locateText(file, text, path);
  if (!span) return addSection(files, file, text, parts.body, String(path[1]), prose, newline);
  if (text.slice(span.from, span.to) === prose) return { ok: true, files };
  const before = text.slice(0, span.from);
  const lead = before.endsWith("\n") || before === "" ? "" : newline;
  const end = prose === "" || /^\r?\n/.test(text.slice(span.to)) ? "" : newline;
  return { ok: true, files: { ...files, [file]: splice(text, span, lead + prose + end) } };
}

/** A missing section goes before the first of those that come after it. */
function addSection(
  files: Files,
  file: string,
  text: string,
  body: Span,
  key: string,
  prose: string,
  newline: string,
): Edit {
  const place = (sectionKeys as string[]).indexOf(key);
  const title = Object.entries(sectionHeadings).find(([known]) => known === key)?.[1];
  if (title === undefined || !file.startsWith("conditions/")) return refuse("FIELD_MISSING");
  const next = splitSections(text, body).find(
    (section) => section.key !== undefined && sectionKeys.indexOf(section.key) > place,
  );
  const at = next?.heading ?? text.length;
  const lead = at > 0 && text[at - 1] !== "\n" ? newline : "";
  const gap = next ? newline : "";
  const block = `${lead}${next ? "" : newline}## ${title}${newline}${prose}${newline}${gap}`;
  return { ok: true, files: { ...files, [file]: splice(text, { from: at, to: at }, block) } };
}

export function splice(text: string, { from, to }: Span, put: string): string {
  return text.slice(0, from) + put + text.slice(to);
}
