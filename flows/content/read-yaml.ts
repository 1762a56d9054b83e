import { type Document, isMap, isScalar, LineCounter, parseDocument, visit } from "yaml";
import { makeProblem, type Place, type Problem } from "./problems.ts";

/** Keys and list positions that lead from the top of a YAML text to a value. */
export type Path = readonly (string | number)[];

/** Turns a position inside a piece of text (both count from 1) into a place in its file. */
export type Locate = (line: number, column: number) => Place;

export interface YamlText {
  file: string;
  value: unknown;
  /** The place of the value, or of the nearest enclosing value that exists. */
  at(path: Path): Place;
  /** The place of a key inside the map at `path`. */
  keyAt(path: Path, key: string): Place;
  /** Places inside a text value: exact for `|` blocks, else its start. */
  inside(path: Path): Locate;
}

interface Source {
  file: string;
  lines: string[];
  doc: Document;
  placeOf(offset: number): Place;
}

/**
 * Reads YAML 1.2. `linesBefore` is how many lines of the file come before `text`.
 * `yaml` is null when the text cannot be read at all.
 */
export function readYaml(
  file: string,
  text: string,
  linesBefore = 0,
): { yaml: YamlText | null; problems: Problem[] } {
  const lineCounter = new LineCounter();
  const options = {
    version: "1.2",
    uniqueKeys: true,
    stringKeys: true,
    lineCounter,
    prettyErrors: false,
  } as const;
  const doc = parseDocument(text, options);
  const placeOf = (offset: number): Place => {
    const { line, col } = lineCounter.linePos(offset);
    return { file, line: Math.max(1, line) + linesBefore, column: Math.max(1, col) };
  };
  const problems = [...doc.errors, ...doc.warnings].map((issue) =>
    issue.code === "DUPLICATE_KEY"
      ? makeProblem(
          "YAML_DUPLICATE_KEY",
          placeOf(issue.pos[0]),
          `The key ${wordAt(text, issue.pos[0])} stands here for the second time.`,
        )
      : makeProblem("YAML_SYNTAX", placeOf(issue.pos[0]), `This cannot be read: ${issue.message}.`),
  );
  visit(doc, {
    Alias: (_, alias) => {
      problems.push(
        makeProblem("YAML_ALIAS", placeOf(alias.range?.[0] ?? 0), `“*${alias.source}” is a YAML alias.`),
      );
    },
  });
  const readable = problems.every((problem) => problem.code === "YAML_DUPLICATE_KEY");
  return { yaml: readable ? makeYamlText({ file, lines: text.split("\n"), doc, placeOf }) : null, problems };
}

function wordAt(text: string, offset: number): string {
  return `“${/^[^\s:]*/.exec(text.slice(offset, offset + 60))?.[0] ?? ""}”`;
}

function makeYamlText(source: Source): YamlText {
  return {
    file: source.file,
    value: source.doc.toJS(),
    at: (path) => findPlace(source, path),
    keyAt: (path, key) => findKeyPlace(source, path, key),
    inside: (path) => locateInside(source, path),
  };
}

function findPlace(source: Source, path: Path): Place {
  for (let length = path.length; length >= 0; length -= 1) {
    const start = startOf(source.doc.getIn(path.slice(0, length), true));
    if (start !== null) return source.placeOf(start);
  }
  return source.placeOf(0);
}

function startOf(node: unknown): number | null {
  const range = typeof node === "object" && node !== null && "range" in node ? node.range : null;
  return Array.isArray(range) && typeof range[0] === "number" ? range[0] : null;
}

function findKeyPlace(source: Source, path: Path, key: string): Place {
  const map = source.doc.getIn(path, true);
  const pair = isMap(map)
    ? map.items.find((item) => isScalar(item.key) && String(item.key.value) === key)
    : undefined;
  const start = startOf(pair?.key);
  return start === null ? findPlace(source, path) : source.placeOf(start);
}

function locateInside(source: Source, path: Path): Locate {
  const start = findPlace(source, path);
  const node = source.doc.getIn(path, true);
  if (!isScalar(node) || node.type !== "BLOCK_LITERAL") return () => start;
  const header = source.placeOf(startOf(node) ?? 0).line;
  const firstLine = header - source.placeOf(0).line + 1;
  const sample = source.lines.slice(firstLine).find((line) => line.trim() !== "") ?? "";
  const indent = sample.length - sample.trimStart().length;
  return (line, column) => ({ file: source.file, line: header + line, column: column + indent });
}
