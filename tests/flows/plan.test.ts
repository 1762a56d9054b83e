import { describe, expect, it } from "vitest";
import {
  type Fact,
  facts,
  type Host,
  type NeverWhen,
  neverWhens,
  type Standing,
} from "../../flows/edition.ts";
import { nextQuestion } from "../../flows/next-question.ts";
import { makePlan } from "../../flows/plan.ts";
import { judge } from "../../flows/verdict.ts";
import { caseOf } from "../support/cases.ts";
import {
  condition,
  finding,
  type GivenCondition,
  type GivenRemedy,
  host,
  makeFlow,
  question,
  remedy,
} from "../support/make-edition.ts";

const hosts: Host[] = [
  host({ id: "fern" }),
  host({ id: "basil", eaten: "always" }),
  host({ id: "citrus", eaten: "sometimes" }),
  host({ id: "touchy", harmedBy: ["soap", "oil", "alcohol", "wet-leaves"] }),
  host({ id: "cactus", keepDry: true }),
];

const factQuestions = facts.map((fact) =>
  question({
    id: fact,
    kind: "fact",
    options: [
      { id: "yes", facts: { [fact]: "yes" } },
      { id: "no", facts: { [fact]: "no" } },
    ],
  }),
);

/** One condition with the given remedies for its plan: suspected with "p", leaning with "q" and "r", else undetermined. */
function plan(remedies: GivenRemedy[], standing: Standing = "suspected", ...answers: string[]) {
  const flow = makeFlow({
    findings: ["p", "q", "r"],
    hosts,
    questions: [question({ id: "opening" }), ...factQuestions, question({ id: "host", kind: "host" })],
    conditions: [
      condition({
        id: "bug",
        howCommon: "common",
        evidence: { hallmark: ["p"], supports: ["q", "r"] },
        plan: remedies.map(({ id }) => id),
      }),
    ],
    remedies: remedies.map((given) => remedy(given)),
    conversation: { firstAid: remedies.map(({ id }) => id) },
  });
  const shown = { suspected: ["p"], leaning: ["q", "r"], undetermined: [] }[standing];
  const kase = caseOf(flow, ...shown, "opening=not-sure", ...answers);
  const verdict = judge(flow, kase);
  expect(verdict.standing).toBe(standing);
  const made = makePlan(flow, kase, verdict);
  return { ...made, ids: made.steps.map((step) => step.remedy), next: nextQuestion(flow, kase)?.id };
}

const allNo = facts.map((fact) => `${fact}=no`);

describe("the order of steps", () => {
  it("is by phase, then the gentlest method first, then the editor's order", () => {
    const given: GivenRemedy[] = [
      { id: "later-chemical", phase: "next-days", method: "chemical" },
      { id: "prevent", phase: "prevent", method: "cultural" },
      { id: "mechanical-2", method: "mechanical" },
      { id: "chemical", method: "chemical" },
      { id: "later-cultural", phase: "next-days", method: "cultural" },
      { id: "biological", method: "biological" },
      { id: "mechanical-1", method: "mechanical" },
      { id: "cultural", method: "cultural" },
    ];
    expect(plan(given).ids).toEqual([
      "cultural",
      "mechanical-2",
      "mechanical-1",
      "biological",
      "chemical",
      "later-cultural",
      "later-chemical",
      "prevent",
    ]);
  });
});

describe("never when", () => {
  const dangerous: Record<Exclude<NeverWhen, Fact>, string> = {
    "harmed-by-soap": "touchy",
    "harmed-by-oil": "touchy",
    "harmed-by-alcohol": "touchy",
    "harmed-by-wet-leaves": "touchy",
    "succulent-kept-dry": "cactus",
  };

  it.each(Object.entries(dangerous))("%s leaves the step out for %s, and only there", (when, plant) => {
    const given: GivenRemedy[] = [{ id: "spray", neverWhen: [when as NeverWhen] }];
    expect(plan(given, "suspected", `host=${plant}`)).toMatchObject({
      ids: [],
      leftOut: [{ remedy: "spray", because: when }],
    });
    expect(plan(given, "suspected", "host=fern").ids).toEqual(["spray"]);
  });

  it.each(facts)("%s leaves the step out when it is so, or not known", (fact) => {
    const given: GivenRemedy[] = [{ id: "spray", neverWhen: [fact] }];
    const out = { ids: [], leftOut: [{ remedy: "spray", because: fact }] };
    expect(plan(given, "suspected", `${fact}=yes`)).toMatchObject(out);
    expect(plan(given, "suspected", `${fact}=not-sure`)).toMatchObject(out);
    expect(plan(given, "suspected")).toMatchObject(out);
    expect(plan(given, "suspected", `${fact}=no`)).toMatchObject({ ids: ["spray"], leftOut: [] });
  });

  it("has been tried here for every value there is", () => {
    expect([...Object.keys(dangerous), ...facts].sort()).toEqual([...neverWhens].sort());
  });

  it("takes the plant's own word on whether it is eaten over the answer", () => {
    const given: GivenRemedy[] = [{ id: "spray", neverWhen: ["eaten"] }];
    expect(plan(given, "suspected", "host=basil", "eaten=no").ids).toEqual([]);
    expect(plan(given, "suspected", "host=fern").ids).toEqual(["spray"]);
    expect(plan(given, "suspected", "host=citrus").ids).toEqual([]);
    expect(plan(given, "suspected", "host=citrus", "eaten=no").ids).toEqual(["spray"]);
  });

  it("keeps a product not meant for food off what is or may be eaten, even if nothing else says so", () => {
    const given: GivenRemedy[] = [{ id: "dust", product: true, forFoodPlants: false }];
    expect(plan(given, "suspected", "host=citrus").leftOut).toEqual([{ remedy: "dust", because: "eaten" }]);
    expect(plan(given, "suspected", "host=basil").ids).toEqual([]);
    expect(plan(given, "suspected", "host=fern").ids).toEqual(["dust"]);
  });
});

describe("household facts", () => {
  it.each(facts)("%s is asked when a step is barred by it", (fact) => {
    expect(plan([{ id: "spray", neverWhen: [fact] }], "suspected", "host=citrus").next).toBe(fact);
  });

  it.each(facts)("%s is asked when a step needs a caution for it", (fact) => {
    const given: GivenRemedy[] = [{ id: "spray", cautions: { [fact]: ["Mind this."] } }];
    expect(plan(given, "suspected", "host=citrus").next).toBe(fact);
  });

  it("are not asked when no step depends on them", () => {
    expect(
      plan([{ id: "wash", cautions: { always: ["Mind this."] } }], "suspected", "host=citrus").next,
    ).toBeUndefined();
  });

  it("are not asked again", () => {
    const given: GivenRemedy[] = [{ id: "spray", neverWhen: ["pets"] }];
    expect(plan(given, "suspected", "host=citrus", "pets=not-sure").next).toBeUndefined();
  });

  it("are not asked when the plant settles whether it is eaten", () => {
    const given: GivenRemedy[] = [{ id: "spray", neverWhen: ["eaten"] }];
    expect(plan(given, "suspected", "host=fern").next).toBeUndefined();
    expect(plan(given, "suspected", "host=basil").next).toBeUndefined();
    expect(plan(given, "suspected", "host=not-sure").next).toBe("eaten");
  });

  it("are not asked for a step that the plant itself rules out", () => {
    const given: GivenRemedy[] = [{ id: "spray", neverWhen: ["harmed-by-soap", "pets"] }];
    expect(plan(given, "suspected", "host=touchy").next).toBeUndefined();
    expect(plan(given, "suspected", "host=fern").next).toBe("pets");
  });

  it("are listed with what is known of each", () => {
    expect(plan([{ id: "wash" }], "suspected", "host=basil", "pets=no", "children=yes").household).toEqual([
      { fact: "eaten", state: "yes" },
      { fact: "pets", state: "no" },
      { fact: "children", state: "yes" },
      { fact: "flowering-or-outdoors", state: "unknown" },
    ]);
  });
});

describe("cautions", () => {
  const cautions = {
    always: ["always"],
    eaten: ["eaten"],
    pets: ["pets"],
    children: ["children"],
    "flowering-or-outdoors": ["bees"],
  };
  const shown = (...answers: string[]) =>
    plan([{ id: "spray", cautions }], "suspected", "host=citrus", ...answers).steps[0]?.cautions;

  it("all stand while nothing is known", () => {
    expect(shown()).toEqual(["always", "eaten", "pets", "children", "bees"]);
  });

  it("stand for what is so, and fall only for what is not", () => {
    expect(shown(...allNo)).toEqual(["always"]);
    expect(shown(...allNo.filter((answer) => answer !== "pets=no"), "pets=yes")).toEqual(["always", "pets"]);
  });

  it("name the label on every bought product", () => {
    const { steps } = plan([{ id: "soap", product: true }, { id: "wash" }], "suspected", "eaten=no");
    expect(steps.map(({ labelIsLaw }) => labelIsLaw)).toEqual([true, false]);
  });
});

describe("the standing", () => {
  const given: GivenRemedy[] = [
    { id: "wash" },
    { id: "soap", method: "chemical", product: true, toxicity: 1 },
    { id: "poison", method: "chemical", needsStanding: "suspected" },
  ];

  it("suspected allows every step", () => {
    expect(plan(given, "suspected").ids).toEqual(["wash", "soap", "poison"]);
  });

  it("leaning leaves out what wants certainty", () => {
    expect(plan(given, "leaning").ids).toEqual(["wash", "soap"]);
  });

  it("undetermined gives first aid without anything chemical, for no condition in particular", () => {
    expect(plan(given, "undetermined").steps).toMatchObject([{ remedy: "wash", treats: [] }]);
  });
});

describe("what is treated", () => {
  const steps = (conditions: GivenCondition[], ...answers: string[]) => {
    const flow = makeFlow({
      findings: ["p", "q", finding({ id: "dry", kind: "site" })],
      conditions: conditions.map((entry) => condition({ plan: [`treat-${entry.id}`, "wash"], ...entry })),
      remedies: ["treat-bug", "treat-mite", "treat-air", "wash"].map((id) => remedy({ id })),
    });
    const kase = caseOf(flow, ...answers);
    return makePlan(flow, kase, judge(flow, kase)).steps.map(
      ({ remedy: id, treats }) => `${id}: ${treats.join()}`,
    );
  };
  const bug: GivenCondition = { id: "bug", howCommon: "common", evidence: { hallmark: ["p"] } };
  const mite: GivenCondition = { id: "mite", evidence: { hallmark: ["q"] } };
  const air: GivenCondition = { id: "air", evidence: { supports: ["dry"] } };

  it("is the leader alone when nothing else speaks", () => {
    expect(steps([bug, mite, air], "p")).toEqual(["treat-bug: bug", "wash: bug"]);
  });

  it("is a second cause too, each step once", () => {
    expect(steps([bug, mite], "p", "q")).toEqual(["treat-bug: bug", "wash: bug,mite", "treat-mite: mite"]);
  });

  it("is what brought it on, as far as something speaks for that", () => {
    const brought = { ...bug, broughtOnBy: ["air"] };
    expect(steps([brought, air], "p", "dry")).toEqual(["treat-bug: bug", "wash: bug,air", "treat-air: air"]);
    expect(steps([brought, air], "p")).toEqual(["treat-bug: bug", "wash: bug"]);
    expect(steps([bug, air], "p", "dry")).toEqual(["treat-bug: bug", "wash: bug"]);
  });

  it("is, of every other cause, the first four steps only", () => {
    const many = ["a", "b", "c", "d", "e"];
    const flow = makeFlow({
      findings: ["p", "q"],
      conditions: [
        condition({ ...bug, plan: many }),
        condition({ ...mite, plan: many.map((id) => `mite-${id}`) }),
      ],
      remedies: many.flatMap((id) => [remedy({ id }), remedy({ id: `mite-${id}` })]),
    });
    const kase = caseOf(flow, "p", "q");
    const made = makePlan(flow, kase, judge(flow, kase)).steps.map((step) => step.remedy);
    expect(made).toEqual([...many, "mite-a", "mite-b", "mite-c", "mite-d"]);
  });
});
