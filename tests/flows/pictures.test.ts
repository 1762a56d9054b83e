import { brotliCompressSync } from "node:zlib";
import { describe, expect, it, test } from "vitest";
import type { DrawingPart } from "../../flows/edition.ts";
import { openPictures, regionsIn } from "../../flows/pictures.ts";
import { shippedFlow } from "../support/shipped-flow.ts";
import { tinyFlow } from "../support/tiny-flow.ts";

const { edition } = shippedFlow();
const drawings = edition.drawings ?? [];
const pictures = openPictures(drawings);
const drawnFindings = new Set(drawings.flatMap(({ findings }) => findings));

/** Findings that a line drawing cannot show, each with its reason. Nothing else may go without. */
const notToBeSeen: Record<string, string> = {
  "slow-decline-top-looks-clean": "it means that there is nothing to see",
  "came-within-days": "a matter of time",
  "keeps-spreading": "a matter of time",
  "several-plants-affected": "a matter of comparing plants",
  "no-insects-seen": "it means that there is nothing to see",
  "otherwise-healthy": "a judgment of the whole",
  "damage-at-reach-height": "a matter of who passes by",
  "one-side-affected": "a matter of how the plant stands",
};

test("each finding that can be seen on plant, pot or culprit has its drawing", () => {
  const seen = edition.findings
    .filter(({ kind }) => kind === "sign" || kind === "symptom")
    .map(({ id }) => id);
  const missing = seen.filter((id) => !drawnFindings.has(id));
  expect(missing.toSorted()).toEqual(Object.keys(notToBeSeen).toSorted());
});

test("each way to check has its drawing, but for the one that is about names", () => {
  const missing = edition.questions
    .filter((question) => question.howToCheck.length > 0 && !pictures.ofCheck(question))
    .map(({ id }) => id);
  expect(missing).toEqual(["host"]);
});

test("each drawing is shown somewhere", () => {
  const idle = drawings.filter(
    ({ findings, checks, conditions, answers, presses }) =>
      findings.length + checks.length + conditions.length + answers.length + presses.length === 0,
  );
  expect(idle.map(({ id }) => id)).toEqual([]);
});

test.each(drawings.map((drawing) => [drawing.id, drawing] as const))(
  "%s weighs 4 kB at most",
  (_id, drawing) => {
    expect(brotliCompressSync(JSON.stringify(drawing)).length).toBeLessThanOrEqual(4_000);
  },
);

test("no meaning hangs on color alone: every accent is a line, a dot or a pattern of its own", () => {
  // An accent fill next to the same shape in ink would be told apart by its color only.
  const shapes = (parts: readonly DrawingPart[]): DrawingPart[] =>
    parts.flatMap((part) => [part, ...shapes(part.parts ?? [])]);
  for (const { id, parts } of drawings) {
    const geometry = (role: "mark" | "dark") =>
      shapes(parts)
        .filter(({ roles }) => roles.includes(role))
        .map(({ tag, shape }) => `${tag} ${shape.r ?? ""} ${shape.rx ?? ""} ${shape.ry ?? ""}`)
        .filter((form) => /\d/.test(form));
    const dark = new Set(geometry("dark"));
    expect(
      geometry("mark").filter((form) => dark.has(form)),
      id,
    ).toEqual([]);
  }
});

describe("look-alikes", () => {
  /** Pairs that one drawing stands for: their separating check is not about what is to be seen. */
  const alike = ["dry-air fluoride-injury"];
  it("do not share a drawing", () => {
    const shared = edition.conditions.flatMap((condition) =>
      condition.looksLike
        .filter(({ other }) => {
          const one = pictures.ofCondition(condition);
          return one !== undefined && one === pictures.ofCondition({ id: other });
        })
        .map(({ other }) => [condition.id, other].toSorted().join(" ")),
    );
    expect([...new Set(shared)]).toEqual(alike);
  });
});

describe("a picture to press", () => {
  const pressed = edition.questions.filter(({ pictures: uses }) => uses?.includes("press"));
  it("is there for the questions that ask where", () => {
    expect(pressed.map(({ id }) => id).toSorted()).toEqual([
      "brown-where",
      "damage-kind",
      "fly-where",
      "fuzz-where",
      "which-leaves",
    ]);
  });
  it.each(pressed.map((question) => [question.id, question] as const))(
    "%s leads to its answers",
    (_id, question) => {
      const found = pictures.pressedFor(question);
      const there = regionsIn(found?.drawing.parts ?? []);
      expect(found?.regions.length).toBeGreaterThan(1);
      for (const { option, region } of found?.regions ?? []) {
        expect(question.options.map(({ id }) => id)).toContain(option);
        expect(there).toContain(region);
      }
    },
  );
});

describe("the drawing of an answer", () => {
  const tiny = tinyFlow().edition;
  const ofTiny = openPictures(tiny.drawings ?? []);
  const optionOf = (to: string, is: string) => {
    const question = tiny.questions.find(({ id }) => id === to);
    const option = question?.options.find(({ id }) => id === is);
    if (!question || !option) throw new Error(`The tiny content has no ${to}=${is}.`);
    return ofTiny.ofOption(question, option)?.id;
  };
  it("is the one made for it, or that of what it establishes, or none", () => {
    expect(optionOf("tap-test", "dots")).toBe("paper-tap");
    expect(optionOf("white-look", "tufts")).toBe("tufts");
    expect(optionOf("white-look", "film")).toBeUndefined();
    expect(optionOf("white-look", "nothing")).toBeUndefined();
  });
  it("is noted at the question", () => {
    const noted = Object.fromEntries(tiny.questions.map(({ id, pictures: uses }) => [id, uses]));
    expect(noted["tap-test"]).toEqual(["options", "check"]);
    expect(noted["white-look"]).toEqual(["options"]);
    expect(noted["soil-check"]).toEqual([]);
  });
});
