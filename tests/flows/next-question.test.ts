import fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import { know, newCase } from "../../flows/case.ts";
import type { Conversation } from "../../flows/edition.ts";
import type { Flow } from "../../flows/flow.ts";
import { nextQuestion, openQuestions } from "../../flows/next-question.ts";
import { judge } from "../../flows/verdict.ts";
import { caseOf } from "../support/cases.ts";
import {
  condition,
  finding,
  type GivenCondition,
  host,
  makeFlow,
  question,
} from "../support/make-edition.ts";
import { arbitraryConversation, converse } from "../support/random-case.ts";
import { shippedFlow } from "../support/shipped-flow.ts";
import { tinyFlow } from "../support/tiny-flow.ts";

// Slow machines may take their time.
vi.setConfig({ testTimeout: 60_000 });

/** A yes-or-no question about one finding, asked when `any` is there and `none` is not. */
const ask = (id: string, any: string[] = [], none: string[] = []) =>
  question({
    id: `${id}?`,
    askWhen: { any, none },
    options: [
      { id: "yes", present: [id] },
      { id: "no", absent: [id] },
    ],
  });

const opening = question({
  id: "opening",
  options: [
    { id: "white", present: ["white"] },
    { id: "limp", present: ["limp"] },
  ],
});

function flowOf(
  conditions: GivenCondition[],
  asks: ReturnType<typeof ask>[],
  conversation: Partial<Conversation> = {},
): Flow {
  return makeFlow({
    findings: [
      finding({ id: "white", vague: true }),
      finding({ id: "limp", vague: true }),
      ...["p", "q", "r", "s", "t"],
    ],
    conditions: conditions.map((given) => condition(given)),
    hosts: [host({ id: "fern" })],
    questions: [opening, ...asks, question({ id: "host", kind: "host" })],
    conversation,
  });
}

const next = (flow: Flow, ...answers: string[]) => nextQuestion(flow, caseOf(flow, ...answers))?.id ?? null;
const begun = ["opening=white", "host=not-sure"];

describe("the beginning", () => {
  const flow = flowOf([{ id: "a", evidence: { hallmark: ["p"] } }], [ask("p")]);

  it("is the opening, then the host plant, then the editor's order", () => {
    expect(next(flow)).toBe("opening");
    expect(next(flow, "opening=white")).toBe("host");
    expect(next(flow, ...begun)).toBe("p?");
  });

  it("asks for the plant even when the opening brought nothing", () => {
    expect(next(flow, "opening=not-sure")).toBe("host");
  });

  it("does not ask the opening once something was volunteered", () => {
    expect(next(flow, "q")).toBe("host");
    expect(next(flow, "q", "host=fern")).toBe("p?");
  });

  it("still asks it when all that was said is what is not there", () => {
    expect(next(flow, "q=no", "host=fern")).toBe("opening");
  });
});

describe("a question", () => {
  const both: GivenCondition[] = [
    { id: "a", evidence: { hallmark: ["p"], supports: ["white"] } },
    { id: "b", evidence: { hallmark: ["q"], supports: ["white"] } },
  ];

  it("is not asked again, whatever the answer was", () => {
    const flow = flowOf(both, [ask("p"), ask("q")]);
    expect(next(flow, ...begun, "p?=not-sure")).toBe("q?");
    expect(next(flow, ...begun, "p?=no")).toBe("q?");
  });

  it("waits for its condition, and is barred by what rules it out", () => {
    const flow = flowOf(both, [ask("p", ["limp"]), ask("q", ["white"], ["r"])]);
    expect(next(flow, ...begun)).toBe("q?");
    expect(next(flow, ...begun, "limp")).toBe("p?");
    expect(next(flow, ...begun, "r")).toBeNull();
  });

  it("is not asked when what it asks was volunteered", () => {
    const flow = flowOf(both, [ask("p"), ask("q")]);
    expect(next(flow, ...begun, "p=no")).not.toBe("p?");
    expect(next(flow, ...begun, "p")).not.toBe("p?");
  });

  it("is not asked when one of its answers was volunteered, though others would be news", () => {
    const which = question({
      id: "which?",
      options: [
        { id: "p", present: ["p"] },
        { id: "q", present: ["q"] },
      ],
    });
    const alike: GivenCondition[] = [
      { id: "a", evidence: { supports: ["p"] } },
      { id: "b", evidence: { hallmark: ["q"] } },
    ];
    expect(next(flowOf(alike, [which]), ...begun)).toBe("which?");
    expect(next(flowOf(alike, [which]), ...begun, "p")).toBeNull();
  });

  it("is not asked when no answer bears on any condition", () => {
    expect(next(flowOf(both, [ask("t"), ask("q")]), ...begun)).toBe("q?");
  });

  it("is asked even of an unlikely cause while nothing leads", () => {
    const flow = flowOf([{ id: "a", howCommon: "rare", evidence: { hallmark: ["p"] } }], [ask("p")]);
    expect(next(flow, ...begun)).toBe("p?");
  });
});

describe("the end", () => {
  const sure: GivenCondition = {
    id: "sure",
    howCommon: "common",
    evidence: { hallmark: ["p"], supports: ["r"] },
  };
  const settled = [...begun, "p"];

  it("comes when a condition is suspected and no answer can unseat it", () => {
    const far: GivenCondition = { id: "far", evidence: { hallmark: ["q"] } };
    const flow = flowOf([sure, far], [ask("q"), ask("r")]);
    expect(judge(flow, caseOf(flow, ...settled)).standing).toBe("suspected");
    expect(next(flow, ...settled)).toBeNull();
  });

  it("waits for the answer that could raise a look-alike", () => {
    const alike: GivenCondition = {
      id: "alike",
      evidence: { hallmark: ["q"] },
      looksLike: [{ other: "sure", check: [] }],
    };
    expect(next(flowOf([sure, alike], [ask("q")]), ...settled)).toBe("q?");
  });

  it("waits for the answer that could weaken the leader below suspicion", () => {
    const shaky: GivenCondition = {
      id: "shaky",
      howCommon: "common",
      evidence: { hallmark: ["p"], against: ["q"] },
    };
    expect(next(flowOf([shaky], [ask("q")]), ...settled)).toBe("q?");
  });

  it("waits for the answer that tells what brought it on", () => {
    const cause: GivenCondition = { id: "cause", howCommon: "rare", evidence: { supports: ["q"] } };
    expect(next(flowOf([sure, cause], [ask("q")]), ...settled)).toBeNull();
    expect(next(flowOf([{ ...sure, broughtOnBy: ["cause"] }, cause], [ask("q")]), ...settled)).toBe("q?");
  });

  it("does not wait, while leaning, for an answer that leaves the rival out of reach", () => {
    const leader: GivenCondition = { id: "leader", howCommon: "common", evidence: { supports: ["p", "r"] } };
    // The leader stands at 13; a rival must come within 5 decibans to be worth a question.
    const rival = (supports: string[]): GivenCondition => ({ id: "rival", evidence: { supports } });
    const open = [...begun, "p", "r"];
    expect(next(flowOf([leader, rival(["q"])], [ask("q")]), ...open)).toBeNull();
    const near: GivenCondition = { ...rival(["q"]), howCommon: "common" };
    expect(next(flowOf([leader, near], [ask("q")]), ...open)).toBe("q?");
  });

  it("comes after the most questions the editor allows, host and opening apart", () => {
    const asks = ["p", "q", "r", "s"].map((id) => ask(id));
    const flow = flowOf([{ id: "a", evidence: { supports: ["p", "q", "r", "s"] } }], asks, {
      mostQuestions: 2,
    });
    expect(next(flow, ...begun, "p?=not-sure")).toBe("q?");
    expect(next(flow, ...begun, "p?=not-sure", "q?=not-sure")).toBeNull();
  });
});

describe("when nothing at all is known to be there", () => {
  const unsure = ["opening=not-sure", "host=not-sure"];
  const conditions: GivenCondition[] = [{ id: "a", evidence: { hallmark: ["p"] } }];

  it("asks what the editor set aside for that, whatever their own conditions say", () => {
    const flow = flowOf(conditions, [ask("p", ["limp"])], { whenUnsure: ["p?"] });
    expect(next(flow, ...unsure)).toBe("p?");
    expect(next(flowOf(conditions, [ask("p", ["limp"])]), ...unsure)).toBeNull();
  });

  it("goes back to the conditions as soon as something is there", () => {
    const flow = flowOf(conditions, [ask("p", ["limp"])], { whenUnsure: ["p?"] });
    expect(next(flow, ...begun)).toBeNull();
  });
});

describe("openQuestions", () => {
  it("lists the next one first and each only once", () => {
    const flow = flowOf(
      [{ id: "a", evidence: { supports: ["p", "q"] } }],
      [ask("p"), ask("q"), ask("r", ["limp"])],
    );
    const ids = (...answers: string[]) => openQuestions(flow, caseOf(flow, ...answers)).map(({ id }) => id);
    expect(ids("opening=white")).toEqual(["host", "p?", "q?"]);
    expect(ids(...begun, "p?=no")).toEqual(["q?"]);
  });
});

describe.each([
  ["the tiny content", tinyFlow()],
  ["the shipped content", shippedFlow()],
])("any conversation of %s", (_, flow) => {
  const { mostQuestions } = flow.edition.conversation;

  it("ends, and asks no more than it promises", () => {
    fc.assert(
      fc.property(arbitraryConversation(flow), (kase) => {
        expect(nextQuestion(flow, kase)).toBeNull();
        const finding = kase.answers.filter(({ to }) => flow.promptById.get(to)?.question.kind === "finding");
        expect(finding.length).toBeLessThanOrEqual(mostQuestions + 1);
        expect(kase.answers.length).toBeLessThanOrEqual(14);
      }),
      { numRuns: 400 },
    );
  });

  it("asks nothing twice and nothing about what is known already", () => {
    fc.assert(
      fc.property(fc.array(fc.nat({ max: 10_000 }), { maxLength: 12 }), (choices) => {
        const kase = converse(flow, newCase(flow), choices);
        const due = nextQuestion(flow, kase);
        if (!due) return;
        expect(kase.answers.some(({ to }) => to === due.id)).toBe(false);
        const prompt = flow.promptById.get(due.id);
        if (!prompt || due.kind !== "finding") return;
        const { known } = know(flow, kase);
        const news = prompt.replies.some(({ present, absent }) =>
          [...present, ...absent].some((f) => known[f] === 0),
        );
        expect(news, due.id).toBe(true);
      }),
      { numRuns: 300 },
    );
  });
});
