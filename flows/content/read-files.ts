import type * as z from "zod";
import type { Block, DrawingPart } from "../edition.ts";
import { checkShape, valueAt } from "./check-shape.ts";
import type { ConditionEntry, Content, ConversationEntry, Entry, Shelf } from "./content.ts";
import { reduceDrawing } from "./drawing.ts";
import { type MarkdownFile, readFrontMatter } from "./front-matter.ts";
import { lexiconSchema } from "./lexicon-schema.ts";
import { makeProblem, type Place, type Problem } from "./problems.ts";
import { readProse } from "./prose.ts";
import { readYaml, type YamlText } from "./read-yaml.ts";
import {
  conditionSchema,
  conversationSchema,
  drawingSchema,
  findingSchema,
  hostSchema,
  lifeCyclesSchema,
  potsSchema,
  productSchema,
  questionSchema,
  remedySchema,
  retiredSchema,
  shopSchema,
  sourceSchema,
  tradeWordsSchema,
  weightsSchema,
} from "./schemas.ts";
import { readSections, type Sections } from "./sections.ts";
import { splitList } from "./split-list.ts";

/** Path relative to content/ → text. */
export type Files = Readonly<Record<string, string>>;

interface Read<T> {
  value: T;
  problems: Problem[];
}

const singleFiles = [
  "conversation.yaml",
  "findings.yaml",
  "hosts.yaml",
  "shop.yaml",
  "sources.yaml",
  "trade-words.yaml",
  "weights.yaml",
];
/** Content may do without these. */
const optionalFiles = [
  "drawings.yaml",
  "lexicon.yaml",
  "life-cycles.yaml",
  "pots.yaml",
  "products.yaml",
  "retired.yaml",
];
/** The id of a drawing is the name of its file. */
const drawingFile = /^drawings\/([^/]+)\.svg$/;
const folders = ["questions", "conditions", "remedies"];

/** What was read before, by what it was read from: reading a folder again after a small change is then quick. */
export interface ReadMemory {
  /** By the kind of reading and the file, then by the text read. What was not asked for in a round is let go. */
  before: Map<string, Map<string, unknown>>;
  now: Map<string, Map<string, unknown>>;
}

export function newMemory(): ReadMemory {
  return { before: new Map(), now: new Map() };
}

function remember<T>(memory: ReadMemory, key: string, text: string, read: () => T): T {
  const known = memory.now.get(key) ?? new Map<string, unknown>();
  memory.now.set(key, known);
  if (!known.has(text)) {
    const earlier = memory.before.get(key);
    known.set(text, earlier?.has(text) ? earlier.get(text) : read());
  }
  // Each key is used with one kind of reading only.
  return known.get(text) as T;
}

/** Reads every file by itself: shape and prose, not yet what the ids lead to. */
export function readFiles(rawFiles: Files, memory: ReadMemory = newMemory()): Read<Content> {
  memory.before = memory.now;
  memory.now = new Map();
  const files = normalizeTexts(rawFiles, memory);
  const problems = checkFileNames(files);
  const take = <T>(read: Read<T>): T => {
    problems.push(...read.problems);
    return read.value;
  };
  take(readSingle(memory, files, "trade-words.yaml", tradeWordsSchema));
  const content: Content = {
    shop: take(readSingle(memory, files, "shop.yaml", shopSchema)),
    weights: take(readSingle(memory, files, "weights.yaml", weightsSchema)),
    conversation: take(readConversation(memory, files)),
    lifeCycles: take(readSingle(memory, files, "life-cycles.yaml", lifeCyclesSchema)),
    findings: take(readList(memory, files, "findings.yaml", findingSchema)),
    hosts: take(readList(memory, files, "hosts.yaml", hostSchema)),
    sources: take(readList(memory, files, "sources.yaml", sourceSchema)),
    questions: take(readFolder(memory, files, "questions", questionSchema, readQuestionBody)),
    conditions: take(readConditions(memory, files)),
    remedies: take(readFolder(memory, files, "remedies", remedySchema, readRemedyBody)),
    products: take(readList(memory, files, "products.yaml", productSchema)),
    pots: take(readSingle(memory, files, "pots.yaml", potsSchema)),
    retired: take(readList(memory, files, "retired.yaml", retiredSchema)),
    lexicon: take(readSingle(memory, files, "lexicon.yaml", lexiconSchema)),
    drawings: take(readList(memory, files, "drawings.yaml", drawingSchema)),
    pictures: take(readPictures(memory, files)),
  };
  return { value: content, problems };
}

/** Takes away byte order marks and carriage returns; the order of the files becomes that of their names. */
function normalizeTexts(files: Files, memory: ReadMemory): Files {
  const names = Object.keys(files).sort();
  const normalize = (text: string) => text.replace(/^\uFEFF/, "").replace(/\r\n?/g, "\n");
  return Object.fromEntries(
    names.map((name) => {
      const text = files[name] ?? "";
      return [name, remember(memory, `text ${name}`, text, () => normalize(text))];
    }),
  );
}

function checkFileNames(files: Files): Problem[] {
  const missing = singleFiles
    .filter((name) => !Object.hasOwn(files, name))
    .map((file) => makeProblem("FILE_MISSING", { file, line: 1, column: 1 }, `The file ${file} is missing.`));
  const unknown = Object.keys(files)
    .filter(
      (name) =>
        ![...singleFiles, ...optionalFiles].includes(name) &&
        !drawingFile.test(name) &&
        folderOf(name) === null,
    )
    .map((file) =>
      makeProblem("FILE_UNKNOWN", { file, line: 1, column: 1 }, `Nothing reads the file ${file}.`),
    );
  return [...missing, ...unknown];
}

/** The folder of a Markdown file that has a place in content/, else null. */
function folderOf(name: string): string | null {
  const [folder, file, ...deeper] = name.split("/");
  const known =
    folder !== undefined && folders.includes(folder) && file?.endsWith(".md") && deeper.length === 0;
  return known ? folder : null;
}

function makeEntry<T>(yaml: YamlText, value: T, base: readonly (string | number)[] = []): Entry<T> {
  return {
    file: yaml.file,
    base,
    value,
    at: (path) => yaml.at([...base, ...path]),
    inside: (path) => yaml.inside([...base, ...path]),
  };
}

function readSingle<S extends z.ZodType>(
  memory: ReadMemory,
  files: Files,
  file: string,
  schema: S,
): Read<Entry<z.output<S>> | null> {
  return remember(memory, `file ${file}`, files[file] ?? "", () => readWhole(files, file, schema));
}

function readWhole<S extends z.ZodType>(
  files: Files,
  file: string,
  schema: S,
): Read<Entry<z.output<S>> | null> {
  const { yaml, problems } = readYaml(file, files[file] ?? "");
  // A missing file is reported by its name.
  if (yaml === null || !Object.hasOwn(files, file)) return { value: null, problems };
  const shape = checkShape(schema, yaml);
  const value = shape.value === null ? null : makeEntry(yaml, shape.value);
  return { value, problems: [...problems, ...shape.problems] };
}

function readConversation(memory: ReadMemory, files: Files): Read<ConversationEntry | null> {
  const { value: entry, problems } = readSingle(memory, files, "conversation.yaml", conversationSchema);
  if (entry === null) return { value: null, problems };
  const prose = readProse(entry.value.how_to_bring, entry.inside(["how_to_bring"]));
  return { value: { ...entry, howToBring: prose.blocks }, problems: [...problems, ...prose.problems] };
}

/** Reads a YAML list item by item, so that one bad item does not hide the others. */
function readList<S extends z.ZodType>(
  memory: ReadMemory,
  files: Files,
  file: string,
  schema: S,
): Read<Shelf<Entry<z.output<S>>>> {
  const parts = splitList(files[file] ?? "")?.slice(1);
  const items = parts?.map(({ text }) =>
    remember(memory, `item ${file}`, text, () => readItem(file, text, schema)),
  );
  if (!parts || !items || items.includes(null)) {
    return remember(memory, `list ${file}`, files[file] ?? "", () => readWholeList(files, file, schema));
  }
  const entries: Entry<z.output<S>>[] = [];
  const ids = new Set<string>();
  const problems: Problem[] = [];
  parts.forEach(({ linesBefore }, index) => {
    const item = items[index];
    if (!item) return;
    if (item.id !== undefined) ids.add(item.id);
    problems.push(...item.problems.map((problem) => ({ ...problem, line: problem.line + linesBefore })));
    if (item.entry) entries.push(shiftEntry(item.entry, index, linesBefore));
  });
  return { value: { entries, ids, whole: entries.length === parts.length }, problems };
}

interface ListItem<T> {
  id: string | undefined;
  entry: Entry<T> | null;
  problems: Problem[];
}

/** One item of a list by itself. Null when its text is not one sound item, so that the list must be read as a whole. */
function readItem<S extends z.ZodType>(file: string, text: string, schema: S): ListItem<z.output<S>> | null {
  const { yaml, problems } = readYaml(file, text);
  if (yaml === null || problems.length > 0 || !Array.isArray(yaml.value) || yaml.value.length !== 1)
    return null;
  const id = valueAt(yaml.value, [0, "id"]);
  const shape = checkShape(schema, yaml, [0]);
  const entry = shape.value === null ? null : makeEntry(yaml, shape.value, [0]);
  return { id: typeof id === "string" ? id : undefined, entry, problems: shape.problems };
}

function shiftEntry<T>({ file, value, at, inside }: Entry<T>, index: number, lines: number): Entry<T> {
  const shift = (place: Place): Place => ({ ...place, line: place.line + lines });
  return {
    file,
    base: [index],
    value,
    at: (path) => shift(at(path)),
    inside: (path) => {
      const locate = inside(path);
      return (line, column) => shift(locate(line, column));
    },
  };
}

function readWholeList<S extends z.ZodType>(
  files: Files,
  file: string,
  schema: S,
): Read<Shelf<Entry<z.output<S>>>> {
  if (!Object.hasOwn(files, file) && optionalFiles.includes(file)) {
    return { value: { entries: [], ids: new Set(), whole: true }, problems: [] };
  }
  const { yaml, problems } = readYaml(file, files[file] ?? "");
  const items = yaml?.value;
  if (yaml === null || !Array.isArray(items)) {
    if (yaml !== null && Object.hasOwn(files, file)) {
      problems.push(makeProblem("TYPE_WRONG", yaml.at([]), "The file must be a list."));
    }
    return { value: { entries: [], ids: new Set(), whole: false }, problems };
  }
  const entries: Entry<z.output<S>>[] = [];
  const ids = new Set<string>();
  items.forEach((item: unknown, index) => {
    const id = valueAt(item, ["id"]);
    if (typeof id === "string") ids.add(id);
    const shape = checkShape(schema, yaml, [index]);
    problems.push(...shape.problems);
    if (shape.value !== null) entries.push(makeEntry(yaml, shape.value, [index]));
  });
  return { value: { entries, ids, whole: entries.length === items.length }, problems };
}

/** Reads the Markdown files of a folder. A body is read even where the keys above it are wrong. */
function readFolder<S extends z.ZodType<{ id: string }>, B>(
  memory: ReadMemory,
  files: Files,
  folder: string,
  schema: S,
  readBody: (markdown: MarkdownFile) => Read<B>,
): Read<Shelf<Entry<z.output<S>> & { body: B }>> {
  const names = Object.keys(files).filter((name) => folderOf(name) === folder);
  const problems: Problem[] = [];
  const entries: (Entry<z.output<S>> & { body: B })[] = [];
  const ids = new Set<string>();
  for (const file of names) {
    const text = files[file] ?? "";
    const read = remember(memory, `file ${file}`, text, () => readOne(folder, file, text, schema, readBody));
    problems.push(...read.problems);
    for (const id of read.ids) ids.add(id);
    if (read.value) entries.push(read.value);
  }
  return { value: { entries, ids, whole: entries.length === names.length }, problems };
}

function readOne<S extends z.ZodType<{ id: string }>, B>(
  folder: string,
  file: string,
  text: string,
  schema: S,
  readBody: (markdown: MarkdownFile) => Read<B>,
): Read<(Entry<z.output<S>> & { body: B }) | null> & { ids: string[] } {
  const fileId = file.slice(folder.length + 1, -".md".length);
  const { markdown, problems: found } = readFrontMatter(file, text);
  const problems = [...found];
  const body = markdown === null ? null : readBody(markdown);
  const front = markdown?.front ?? null;
  const shape = front === null ? null : checkShape(schema, front);
  problems.push(...(shape?.problems ?? []), ...(body?.problems ?? []));
  // Under a wrong name a file is known by both ids: one slip, one problem.
  const ids = [fileId, shape?.value?.id ?? fileId];
  if (front === null || body === null || shape === null || shape.value === null) {
    return { value: null, problems, ids };
  }
  const entry = makeEntry(front, shape.value);
  problems.push(...checkFileId(entry, fileId));
  return { value: { ...entry, body: body.value }, problems, ids };
}

function checkFileId(entry: Entry<{ id: string }>, fileId: string): Problem[] {
  if (entry.value.id === fileId) return [];
  return [
    makeProblem("FILE_NAME", entry.at(["id"]), `The id is “${entry.value.id}”, the file is ${fileId}.md.`),
  ];
}

function readQuestionBody({ body, locate }: MarkdownFile): Read<Block[]> {
  const { blocks, problems } = readProse(body, locate);
  return { value: blocks, problems };
}

function readRemedyBody({ body, locate }: MarkdownFile): Read<Block[]> {
  const { blocks, problems } = readProse(body, locate);
  if (body.trim() === "") problems.push(makeProblem("TEXT_EMPTY", locate(0, 1), "The remedy has no steps."));
  return { value: blocks, problems };
}

function readConditionBody({ body, locate }: MarkdownFile): Read<Sections> {
  const { sections, problems } = readSections(body, locate);
  return { value: sections, problems };
}

function readConditions(memory: ReadMemory, files: Files): Read<Shelf<ConditionEntry>> {
  const { value: shelf, problems } = readFolder(
    memory,
    files,
    "conditions",
    conditionSchema,
    readConditionBody,
  );
  const entries = shelf.entries.map((entry) => {
    const reads = remember(memory, `checks ${entry.file}`, files[entry.file] ?? "", () =>
      entry.value.looks_like.map(({ check }, index) =>
        readProse(check, entry.inside(["looks_like", index, "check"])),
      ),
    );
    for (const read of reads) problems.push(...read.problems);
    return { ...entry, checks: reads.map(({ blocks }) => blocks) };
  });
  return { value: { ...shelf, entries }, problems };
}

function readPictures(memory: ReadMemory, files: Files): Read<Map<string, DrawingPart[] | null>> {
  const problems: Problem[] = [];
  const value = new Map<string, DrawingPart[] | null>();
  for (const [file, text] of Object.entries(files)) {
    const id = drawingFile.exec(file)?.[1];
    if (id === undefined) continue;
    const read = remember(memory, `drawing ${file}`, text, () => reduceDrawing(file, text));
    problems.push(...read.problems);
    value.set(id, read.parts);
  }
  return { value, problems };
}
