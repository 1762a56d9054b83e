import { describe, expect, it } from "vitest";
import type { Edition } from "../../flows/edition.ts";
import { NOT_SURE, openFlow } from "../../flows/flow.ts";
import { nextQuestion } from "../../flows/next-question.ts";
import { judge } from "../../flows/verdict.ts";
import { caseOf } from "../support/cases.ts";
import { makeEdition, makeFlow, question } from "../support/make-edition.ts";
import { tinyFlow } from "../support/tiny-flow.ts";

describe("openFlow", () => {
  it("ends the replies of every question with “not sure”, which tells nothing", () => {
    const { prompts, factPrompts } = tinyFlow();
    for (const { replies, question: asked } of [...prompts, ...factPrompts]) {
      expect(replies.at(-1), asked.id).toEqual({ id: NOT_SURE, present: [], absent: [], facts: {} });
      expect(replies.length).toBe(asked.options.length + 1);
    }
  });

  it("puts the opening first, then the editor's order", () => {
    const flow = makeFlow({
      findings: [],
      questions: ["last", "open", "next"].map((id) => question({ id })),
      conversation: { opening: "open", order: ["next", "last"] },
    });
    expect(flow.prompts.map((prompt) => prompt.question.id)).toEqual(["open", "next", "last"]);
  });

  it("lets “none of these” exclude each finding once, however often it is offered", () => {
    const options = [
      { id: "one", present: ["p"] },
      { id: "two", present: ["p", "q"] },
      { id: "none", none: true },
    ];
    const flow = makeFlow({ findings: ["p", "q"], questions: [question({ id: "open", options })] });
    expect(flow.promptById.get("open")?.replies[2]?.absent).toEqual([0, 1]);
  });

  it("finds entries by id, and nothing by an id it does not hold", () => {
    const flow = tinyFlow();
    expect(flow.finding("fine-webbing")?.kind).toBe("sign");
    expect(flow.host("basil")?.eaten).toBe("always");
    for (const id of ["", "moon", "__proto__", "constructor"]) {
      expect([
        flow.finding(id),
        flow.host(id),
        flow.remedy(id),
        flow.condition(id),
        flow.question(id),
      ]).toEqual([undefined, undefined, undefined, undefined, undefined]);
    }
  });

  it("throws on an edition that names a question it does not hold", () => {
    const edition = makeEdition({ findings: [], conversation: { order: ["missing"] } });
    expect(() => openFlow(edition)).toThrow('"missing"');
  });

  it("runs the same from an edition that has been through JSON", () => {
    const flow = tinyFlow();
    const again = openFlow(JSON.parse(JSON.stringify(flow.edition)) as Edition);
    const kase = caseOf(flow, "what-you-see=limp", "host=basil", "soil-dry-deep=no");
    expect(judge(again, kase)).toEqual(judge(flow, kase));
    expect(nextQuestion(again, kase)).toEqual(nextQuestion(flow, kase));
  });
});
