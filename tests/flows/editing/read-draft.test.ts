import { describe, expect, it } from "vitest";
import { readContent } from "../../../flows/content/read-content.ts";
import { openReader } from "../../../flows/editing/read-draft.ts";
import { loadFiles, shippedContent, tinyContent } from "../content/content-files.ts";

describe("reading a draft while it is edited", () => {
  it("comes to the same as reading it afresh, edit after edit", { timeout: 300_000 }, () => {
    const reader = openReader();
    let files = loadFiles(tinyContent);
    const edits: [string, (text: string) => string][] = [
      ["hosts.yaml", (text) => text.replace("name: Basil", "name: ''")],
      ["hosts.yaml", (text) => `# a line more\n\n${text}`],
      ["findings.yaml", (text) => text.replace("kind: sign", "kind: sing")],
      ["findings.yaml", (text) => text.replace("kind: sing", "kind: sign")],
      ["conditions/mealybugs.md", (text) => text.replace("hallmark: [", "hallmark: [no-such, ")],
      ["questions/soil-check.md", (text) => text.replace("options:", "optoins:")],
      ["hosts.yaml", (text) => `${text}- id: [broken\n`],
      ["hosts.yaml", (text) => text.replace("- id: [broken\n", "")],
      ["weights.yaml", (text) => `${text}more: 1\n`],
    ];
    for (const [file, change] of edits) {
      files = { ...files, [file]: change(files[file] ?? "") };
      const { edition, problems } = reader.read(files);
      const afresh = readContent(files);
      expect(edition).toEqual(afresh.edition);
      expect(problems.map(({ path: _, ...problem }) => problem)).toEqual(afresh.problems);
    }
  });

  it("reads the shipped content as the build does", () => {
    const files = loadFiles(shippedContent);
    expect(openReader().read(files)).toEqual({ edition: readContent(files).edition, problems: [] });
  });

  it("names the field of each problem", () => {
    const reader = openReader();
    const files = loadFiles(shippedContent);
    const fieldOf = (file: string, find: string, put: string) => {
      const text = files[file] ?? "";
      expect(text.split(find)).toHaveLength(2);
      const { problems } = reader.read({ ...files, [file]: text.replace(find, () => put) });
      return problems.map(({ code, path }) => `${code} ${path.join(".")}`);
    };
    expect(fieldOf("conditions/rust.md", "how_common: rare", "how_common: rarely")).toEqual([
      "WORD_UNKNOWN how_common",
    ]);
    expect(fieldOf("questions/mark-look.md", "present: [rusty-powder]", "present: [rusty-powdr]")).toContain(
      "FINDING_UNKNOWN options.rust.present.0",
    );
    expect(
      fieldOf(
        "findings.yaml",
        "implies: [insects-or-webs], name: fine silk",
        "implies: [insects], name: fine silk",
      ),
    ).toContain("FINDING_UNKNOWN fine-webbing.implies.0");
    expect(
      fieldOf(
        "conditions/spider-mites.md",
        "## When to give up\nLet it",
        "## When to give up\n<b>Let</b> it",
      ),
    ).toContain("PROSE_HTML sections.whenToGiveUp");
    expect(fieldOf("weights.yaml", "reach: 5", "reach: -5")).toEqual(["VALUE_BAD reach"]);
  });
});
