import { describe, expect, it } from "vitest";
import { asideNames } from "../../../flows/case-link.ts";
import { formatProblem } from "../../../flows/content/problems.ts";
import { readContent } from "../../../flows/content/read-content.ts";
import { loadFiles, shippedContent, tinyContent } from "./content-files.ts";

const tiny = loadFiles(tinyContent);

describe("readContent", () => {
  it.each([
    ["shipped", shippedContent],
    ["tiny", tinyContent],
  ])("reads the %s content without a problem", (_, folder) => {
    const { edition, problems } = readContent(loadFiles(folder));
    expect(problems.map(formatProblem)).toEqual([]);
    expect(edition).not.toBeNull();
  });

  it("gives the edition its defaults and its words in the run-time spelling", () => {
    const { edition } = readContent(tiny);
    expect(edition).toMatchObject({
      number: 1,
      hash: "",
      conversation: { mostQuestions: 4, firstAid: ["isolate"] },
    });
    expect(edition?.questions.find(({ id }) => id === "soil-check")).toMatchObject({
      kind: "finding",
      askWhen: { any: ["limp-or-drooping"], none: [] },
      options: [{ id: "soggy", none: false, facts: {} }, {}, {}],
    });
    expect(edition?.questions.find(({ id }) => id === "household")?.options[1]?.facts).toEqual({
      pets: "yes",
      children: "no",
    });
    expect(edition?.remedies.find(({ id }) => id === "soap-spray")).toMatchObject({
      repeat: { everyDays: [5, 7], times: [3, 4] },
      cautions: {
        always: ["Test one leaf and wait two days."],
        pets: ["Keep pets away until it is dry."],
        children: [],
      },
      needsStanding: "leaning",
      amount: null,
    });
    expect(edition?.conditions.find(({ id }) => id === "overwatering")).toMatchObject({
      eppo: null,
      onlyOn: [],
      needsSample: false,
      whenAbsent: { excludes: ["soil-stays-soggy"], against: [] },
      doesItSpread: [{ t: "p", of: [{ t: "text", text: "No." }] }],
    });
    expect(edition?.hosts[0]).toMatchObject({ keepDry: false, poisonous: { people: "no", note: null } });
  });

  it("depends neither on the order of the files nor on how lines end or the text begins", () => {
    const turned = Object.fromEntries(
      Object.entries(tiny)
        .reverse()
        .map(([name, text]) => [name, `\uFEFF${text.replaceAll("\n", "\r\n")}`]),
    );
    expect(readContent(turned)).toEqual(readContent(tiny));
  });

  it("makes an edition that survives JSON unchanged", () => {
    const { edition } = readContent(tiny);
    expect(JSON.parse(JSON.stringify(edition))).toEqual(edition);
  });

  it("collects the problems of many files in one pass, from top to bottom", () => {
    const broken = {
      ...tiny,
      "hosts.yaml": `${tiny["hosts.yaml"]}- { id: ivy }\n`,
      "conditions/mealybugs.md": (tiny["conditions/mealybugs.md"] ?? "")
        .replace("kind: pest", "kind: bug")
        .replace("A new plant", "<i>A new plant"),
      "questions/tap-test.md": (tiny["questions/tap-test.md"] ?? "").replace("[fine-webbing]", "[fine-web]"),
    };
    const found = readContent(broken).problems.map(({ file, line, code }) => `${file}:${line} ${code}`);
    expect(found).toEqual([
      "conditions/mealybugs.md:5 WORD_UNKNOWN",
      "conditions/mealybugs.md:28 PROSE_HTML",
      "findings.yaml:6 FINDING_NOT_ASKED",
      ...Array.from({ length: 6 }, () => "hosts.yaml:38 KEY_MISSING"),
      "questions/tap-test.md:9 FINDING_UNKNOWN",
    ]);
  });

  it("refuses ids that have a meaning of their own in links", () => {
    for (const id of asideNames) {
      const findings = `${tiny["findings.yaml"]}- { id: ${id}, kind: sign, name: a, absent: no a }\n`;
      const { problems } = readContent({ ...tiny, "findings.yaml": findings });
      expect(
        problems.map(({ code }) => code),
        id,
      ).toContain("ID_RESERVED");
    }
  });

  it("does not call ids unknown that stand in a file it could not read", () => {
    const { problems } = readContent({ ...tiny, "findings.yaml": "- { id: [" });
    expect(new Set(problems.map(({ code }) => code))).toEqual(new Set(["YAML_SYNTAX"]));
  });

  it("answers with problems, never with a throw, whatever the files hold", () => {
    for (const text of [
      "",
      "---",
      "---\n---\n",
      "- 1\n- null",
      "null",
      "a: &a [*a]",
      "? [x]\n: y",
      "__proto__: {}",
      "!!binary x",
      "\0",
    ]) {
      for (const file of [
        "findings.yaml",
        "conversation.yaml",
        "questions/host.md",
        "conditions/mealybugs.md",
      ]) {
        const { edition, problems } = readContent({ ...tiny, [file]: text });
        expect(edition === null, `${file} ${JSON.stringify(text)}`).toBe(problems.length > 0);
        expect(problems.every(({ line, column }) => line >= 1 && column >= 1)).toBe(true);
      }
    }
    for (const text of ["[", "{a: ", "- ", "> ", "1. ", "a: [", "a:\n "]) {
      const endless = {
        "hosts.yaml": text.repeat(5000),
        "questions/host.md": `---\n---\n${text.repeat(5000)}`,
      };
      expect(readContent({ ...tiny, ...endless }).edition, text).toBeNull();
    }
    expect(readContent({}).problems.length).toBeGreaterThan(0);
  });
});

describe("formatProblem", () => {
  it("writes one line that an editor can follow", () => {
    const problem = {
      file: "hosts.yaml",
      line: 3,
      column: 9,
      code: "KEY_MISSING",
      sentence: "No.",
      hint: "Add it.",
    } as const;
    expect(formatProblem(problem)).toBe("hosts.yaml:3:9 KEY_MISSING No. — Add it.");
  });
});
