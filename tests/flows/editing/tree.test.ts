import { describe, expect, it } from "vitest";
import { readContent } from "../../../flows/content/read-content.ts";
import type { Files } from "../../../flows/content/read-files.ts";
import { followCase } from "../../../flows/editing/case-path.ts";
import { readTree } from "../../../flows/editing/tree.ts";
import { selectPart } from "../../../flows/editing/tree-part.ts";
import { openFlow } from "../../../flows/flow.ts";
import { classifyHosts } from "../../../flows/walk/classes.ts";
import { traverse } from "../../../flows/walk/traverse.ts";
import { loadFiles, shippedContent, tinyContent } from "../content/content-files.ts";

const tiny: Files = loadFiles(tinyContent);
const shipped: Files = loadFiles(shippedContent);

const change = (files: Files, file: string, from: string, to: string): Files => {
  const text = files[file] ?? "";
  if (!text.includes(from)) throw new Error(`${file} does not hold ${from}`);
  return { ...files, [file]: text.replace(from, to) };
};
const find = (files: Files, id: string) => readTree(files).questions.find((question) => question.id === id);

describe("the tree of questions", () => {
  it("has the questions in their turn: opening, plant, order, household, second look", () => {
    const { questions, opening, unread } = readTree(tiny);
    expect(unread).toEqual([]);
    expect(questions.map(({ turn }) => turn)).toEqual(questions.map((_, i) => i + 1));
    expect(questions.slice(0, 2).map(({ id }) => id)).toEqual([opening, "host"]);
    const kinds = questions.map(({ kind }) => kind);
    expect(kinds.lastIndexOf("finding")).toBeLessThan(kinds.indexOf("fact"));
    expect(kinds.lastIndexOf("fact")).toBeLessThan(kinds.indexOf("look"));
  });

  it("of the shipped content has no dead end and nothing that is never asked", () => {
    const { questions } = readTree(shipped);
    expect(questions.filter(({ neverAsked }) => neverAsked)).toEqual([]);
    expect(questions.flatMap(({ answers }) => answers.filter(({ isDeadEnd }) => isDeadEnd))).toEqual([]);
  });

  it("misses no question that follows in any conversation", () => {
    const read = readContent(tiny);
    if (!read.edition) throw new Error("the tiny content has problems");
    const flow = openFlow(read.edition);
    const { asked } = traverse(flow, classifyHosts(flow));
    const tree = readTree(tiny);
    for (const id of asked) expect(tree.questions.find((one) => one.id === id)?.neverAsked, id).toBeNull();
    const reached = new Set(
      tree.questions.flatMap(({ answers }) => answers.flatMap(({ leadsTo }) => leadsTo)),
    );
    for (const id of asked) if (id !== tree.opening) expect(reached.has(id), id).toBe(true);
  });

  it("marks what is never asked, and says why", () => {
    const order = change(tiny, "conversation.yaml", "tap-test", "soil-check");
    expect(find(order, "tap-test")).toMatchObject({ neverAsked: "NOT_IN_ORDER", turn: null });
    const gate = tiny["questions/tap-test.md"]?.match(/any: \[[^\]]*\]/)?.[0] ?? "";
    const unreachable = change(tiny, "questions/tap-test.md", gate, "any: [nothing-tells-this]");
    expect(find(unreachable, "tap-test")?.neverAsked).toBe("NOTHING_LEADS_HERE");
    const deaf = Object.fromEntries(Object.entries(tiny).filter(([file]) => !file.startsWith("conditions/")));
    expect(find(deaf, "tap-test")?.neverAsked).toBe("SAYS_NOTHING");
  });

  it("marks an answer that says nothing to anyone as a dead end", () => {
    const options = "options:\n";
    const more = change(
      tiny,
      "questions/soil-check.md",
      options,
      `${options}  - { id: odd, label: "It smells", present: [an-odd-smell] }\n`,
    );
    expect(find(more, "soil-check")?.answers.find(({ id }) => id === "odd")?.isDeadEnd).toBe(true);
  });

  it("is shown of a folder with problems too, and names the files that it could not read", () => {
    const broken = { ...tiny, "questions/soil-check.md": "---\nid: [\n---\n" };
    expect(readTree(broken).unread).toEqual(["questions/soil-check.md"]);
    expect(readTree({}).questions).toEqual([]);
  });
});

describe("a part of the tree", () => {
  const tree = readTree(shipped);
  it("after one answer holds only what can follow it", () => {
    const part = selectPart(tree, { from: "flies" });
    expect(part.questions.length).toBeLessThan(tree.questions.length / 2);
    expect(new Set(part.arrows.filter(({ from }) => from === tree.opening).map(({ by }) => by))).toEqual(
      new Set(["flies"]),
    );
  });

  it("keeps in its spine every question that an arrow leads onward to, and no way that others tell", () => {
    const { arrows, spine, questions } = selectPart(tree, { all: true });
    const place = new Map(questions.map(({ id }, i) => [id, i]));
    const onward = arrows.filter(({ from, to }) => (place.get(from) ?? 0) < (place.get(to) ?? 0));
    const reach = (start: string, pairs: readonly string[]) => {
      const reached = new Set([start]);
      for (const id of reached)
        for (const pair of pairs) {
          const [from = "", to = ""] = pair.split(">");
          if (from === id) reached.add(to);
        }
      return reached;
    };
    const all = [...new Set(onward.map(({ from, to }) => `${from}>${to}`))];
    for (const { id } of questions.slice(0, 12)) expect(reach(id, [...spine])).toEqual(reach(id, all));
    for (const pair of spine) {
      const [from = "", to = ""] = pair.split(">");
      expect(
        reach(
          from,
          [...spine].filter((one) => one !== pair),
        ).has(to),
        pair,
      ).toBe(false);
    }
  });

  it("that does not exist is the whole", () => {
    expect(selectPart(tree, { from: "nonsense" }).questions).toHaveLength(tree.questions.length);
    expect(selectPart(tree, { around: "nonsense" }).questions).toHaveLength(tree.questions.length);
  });
});

describe("the path of a case", () => {
  const read = readContent(shipped);
  if (!read.edition) throw new Error("the content has problems");
  const flow = openFlow(read.edition);
  const answers = [
    { to: "tap-test", is: "dots" },
    { to: "what-you-see", is: "marks" },
    { to: "mark-look", is: "stipple" },
    { to: "host", is: "basil" },
    { to: "fine-webbing", is: "yes" },
    { to: "worms", is: "none" },
  ];

  it("is in the order of asking; what nobody asks is told apart", () => {
    const path = followCase(flow, { edition: 1, answers: answers.filter(({ to }) => to !== "fine-webbing") });
    expect(path.steps.map(({ to }) => to)).toEqual(["what-you-see", "host", "mark-look", "tap-test"]);
    expect(path.told.map(({ to }) => to)).toEqual(["worms"]);
    expect(path.open).toBe("traces");
    expect(path.end).toBeNull();
  });

  it("ends with the verdict", () => {
    const path = followCase(flow, {
      edition: 1,
      answers: [...answers, { to: "traces", is: "webs" }, { to: "air", is: "not-sure" }],
    });
    expect(path.open === null ? path.end : path.open).not.toBeNull();
  });
});
