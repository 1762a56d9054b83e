import { makeProblem, type Problem } from "./problems.ts";
import { type Locate, readYaml, type YamlText } from "./read-yaml.ts";

export interface MarkdownFile {
  /** Null when the keys cannot be read. */
  front: YamlText | null;
  body: string;
  /** Places inside the body. */
  locate: Locate;
}

/** Splits `--- keys --- body`. `markdown` is null when there is no block of keys. */
export function readFrontMatter(
  file: string,
  text: string,
): { markdown: MarkdownFile | null; problems: Problem[] } {
  const lines = text.split("\n");
  const end = lines.findIndex((line, index) => index > 0 && line.trimEnd() === "---");
  if (lines[0]?.trimEnd() !== "---" || end === -1) {
    const sentence = "The file does not start with keys between two lines ---.";
    return {
      markdown: null,
      problems: [makeProblem("FRONT_MATTER", { file, line: 1, column: 1 }, sentence)],
    };
  }
  const { yaml, problems } = readYaml(file, lines.slice(1, end).join("\n"), 1);
  const locate: Locate = (line, column) => ({ file, line: end + 1 + line, column });
  return { markdown: { front: yaml, body: lines.slice(end + 1).join("\n"), locate }, problems };
}
