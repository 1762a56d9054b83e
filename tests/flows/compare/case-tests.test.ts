import { describe, expect, it } from "vitest";
import { readLink } from "../../../flows/case-link.ts";
import { type CaseTest, compareTests } from "../../../flows/compare/case-tests.ts";
import { type Flow, openFlow } from "../../../flows/flow.ts";
import { nextQuestion } from "../../../flows/next-question.ts";
import { judge } from "../../../flows/verdict.ts";
import { condition, makeEdition, option, question } from "../../support/make-edition.ts";

/** Two pests and what parts them: webbing proves the mite, scrapings the thrips. */
function makeLive() {
  return makeEdition({
    findings: ["spots", "webbing", "scrapings", "specks"],
    questions: [
      question({
        id: "what-you-see",
        options: [
          { id: "spots", present: ["spots"] },
          { id: "specks", present: ["specks"] },
        ],
      }),
      question({ id: "host", kind: "host" }),
      question({
        id: "closer",
        options: [
          { id: "webbing", present: ["webbing"] },
          { id: "scrapings", present: ["scrapings"] },
        ],
      }),
    ],
    conditions: [
      condition({
        ...{ id: "mite", looksLike: [{ other: "thrips", check: [] }] },
        evidence: { hallmark: ["webbing"], supports: ["spots"] },
      }),
      condition({ id: "thrips", evidence: { hallmark: ["scrapings"], supports: ["spots", "specks"] } }),
    ],
  });
}

function flowWith(change: (edition: ReturnType<typeof makeLive>) => void = () => {}): Flow {
  const edition = makeLive();
  change(edition);
  return openFlow(edition);
}

const live = flowWith();
const mite: CaseTest = {
  id: "mite",
  query: "e=1&what-you-see=spots&host=not-sure&closer=webbing",
  standing: "suspected",
  leader: "mite",
  reason: "Webbing is proof.",
};

/** The one kept case under a changed edition. */
function compare(test: CaseTest, change?: Parameters<typeof flowWith>[0]) {
  const [only] = compareTests(live, flowWith(change), [test]);
  if (!only) throw new Error("One case gives one answer.");
  return only;
}

describe("a kept case", () => {
  it("is a conversation that has come to its end, so that the tests below start from something true", () => {
    const kase = readLink(live, mite.query).case;
    expect(nextQuestion(live, kase)).toBeNull();
    expect(judge(live, kase)).toMatchObject({ standing: "suspected", leader: "mite" });
  });

  it("passes where nothing that it stands on changed", () => {
    const same = compare(mite, ({ conditions }) => {
      for (const one of conditions) one.name = `${one.name}, as we call it`;
    });
    expect(same.verdict).toBe("passes");
    expect(same.draft).toEqual({ ...same.live, query: same.draft.query });
    expect(same.draft.asksNew).toEqual([]);
  });

  it("breaks when it ends in another condition, in another standing, or undetermined", () => {
    const other = compare(mite, ({ conditions: [first, second] }) => {
      if (first) first.evidence.hallmark = [];
      second?.evidence.hallmark.push("webbing");
    });
    expect(other).toMatchObject({ verdict: "broke", draft: { passes: false, leader: "thrips" } });
    const weaker = compare(mite, ({ conditions: [first] }) => {
      if (first) first.evidence = { ...first.evidence, hallmark: [], supports: ["webbing", "spots"] };
    });
    expect(weaker).toMatchObject({ verdict: "broke", live: { passes: true }, draft: { passes: false } });
    const gone = compare(mite, (edition) => {
      edition.conditions = edition.conditions.filter(({ id }) => id !== "mite");
    });
    expect(gone).toMatchObject({ verdict: "broke", draft: { leader: null, standing: "undetermined" } });
  });

  it("asks something new without breaking, when it ends as it should after a further question", () => {
    const asked = compare(mite, (edition) => {
      edition.questions.push(
        question({ id: "tapped", options: [{ id: "slivers", present: ["scrapings"] }] }),
      );
      edition.conversation.order.push("tapped");
    });
    expect(asked.draft.asksNew).toEqual(["tapped"]);
    expect(asked).toMatchObject({ verdict: "passes", draft: { passes: true } });
    expect(asked.draft.query).toContain("tapped=not-sure");
  });

  it("meets an answer that is gone with “not sure”", () => {
    const lost = compare(mite, ({ questions }) => {
      const closer = questions.find(({ id }) => id === "closer");
      if (closer) closer.options = [option({ id: "scrapings", present: ["scrapings"] })];
    });
    expect(lost).toMatchObject({ verdict: "broke", draft: { asksNew: ["closer"] } });
  });

  it("counts what was told without being asked", () => {
    const told: CaseTest = { ...mite, query: "e=1&webbing=yes&what-you-see=spots&host=not-sure" };
    expect(compare(told)).toMatchObject({ verdict: "passes" });
    // A question that is never asked any more has been answered all the same.
    const unasked = compare(mite, ({ questions }) => {
      const closer = questions.find(({ id }) => id === "closer");
      if (closer) closer.askWhen.none = ["spots"];
    });
    expect(unasked).toMatchObject({ verdict: "passes" });
  });

  it("is mended when only the draft ends as it should, and fails when neither does", () => {
    const wanted: CaseTest = {
      ...mite,
      ...{ query: "e=1&what-you-see=specks&host=not-sure&closer=not-sure", leader: "thrips" },
    };
    const specks = ({ conditions }: ReturnType<typeof makeLive>) => {
      conditions.find(({ id }) => id === "thrips")?.evidence.hallmark.push("specks");
    };
    expect(compare(wanted, specks)).toMatchObject({ verdict: "mended" });
    expect(compare(wanted)).toMatchObject({ verdict: "fails" });
  });

  it("may have to end undetermined", () => {
    const unsure: CaseTest = {
      ...mite,
      ...{ query: "e=1&what-you-see=not-sure&host=not-sure&closer=not-sure" },
      ...{ standing: "undetermined", leader: null },
    };
    expect(compare(unsure)).toMatchObject({ verdict: "passes" });
  });
});
