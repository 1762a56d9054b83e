import { describe, expect, it } from "vitest";
import { assess } from "../../flows/assess.ts";
import { know } from "../../flows/case.ts";
import type { Weights } from "../../flows/edition.ts";
import type { Flow } from "../../flows/flow.ts";
import { caseOf } from "../support/cases.ts";
import {
  condition,
  finding,
  type GivenCondition,
  host,
  makeFlow,
  plainWeights,
} from "../support/make-edition.ts";

type Conditions = GivenCondition[];

const vague = finding({ id: "vague", vague: true });
const dull = finding({ id: "dull", vague: true });
const sharp = finding({ id: "sharp", implies: ["vague"] });
const dry = finding({ id: "dry", kind: "site" });
const plain = ["p", "q", "r", "s"];

function flowOf(conditions: Conditions, weights: Partial<Weights> = {}): Flow {
  return makeFlow({
    findings: [vague, dull, sharp, dry, ...plain],
    conditions: conditions.map((given) => condition(given)),
    weights: { ...plainWeights, ...weights },
    hosts: [host({ id: "fern" })],
  });
}

function read(flow: Flow, ...answers: string[]) {
  const { known, host: plant } = know(flow, caseOf(flow, ...answers));
  const { leader, rival, beside, ranking, scores, lead, standing } = assess(flow, known, plant);
  const id = (c: number) => flow.edition.conditions[c]?.id;
  return {
    leader: id(leader),
    rival: id(rival),
    beside: beside.map(id),
    ranking: ranking.map(id),
    scores: [...scores],
    lead,
    standing,
  };
}

describe("weights", () => {
  const flow = flowOf([
    { id: "a", howCommon: "common", evidence: { hallmark: ["p"], supports: ["q"], against: ["r"] } },
  ]);

  it("add up from base rate and evidence, present and absent", () => {
    expect(read(flow).scores).toEqual([3]);
    expect(read(flow, "p").scores).toEqual([3 + 13]);
    expect(read(flow, "p", "q", "r").scores).toEqual([3 + 13 + 5 - 5]);
    expect(read(flow, "p=no", "q=no", "r=no").scores).toEqual([3 - 4 - 1]);
  });

  it("do not count a vague finding twice when a sharper one is there", () => {
    const two = flowOf([{ id: "a", evidence: { supports: ["vague", "sharp"] } }]);
    expect(read(two, "vague").scores).toEqual([5]);
    expect(read(two, "sharp").scores).toEqual([5]);
    expect(read(two, "vague", "sharp").scores).toEqual([5]);
  });
});

describe("excludes", () => {
  const flow = flowOf([{ id: "a", evidence: { hallmark: ["p"], excludes: ["q", "r"] } }]);

  it("weighs as the table says, once for each finding", () => {
    expect(read(flow, "q").scores).toEqual([-30]);
    expect(read(flow, "q", "r").scores).toEqual([-60]);
  });

  it("merely speaks against when the condition has a hallmark of its own", () => {
    expect(read(flow, "p", "q").scores).toEqual([13 - 5]);
    expect(read(flow, "p", "q", "r").scores).toEqual([13 - 10]);
  });

  it("is not overruled by the hallmark of another condition", () => {
    const two = flowOf([
      { id: "a", evidence: { supports: ["p"], excludes: ["q"] } },
      { id: "b", evidence: { hallmark: ["p"] } },
    ]);
    expect(read(two, "p", "q").scores).toEqual([5 - 30, 13]);
  });

  it("works for a finding that must be there and is not", () => {
    const needs = flowOf([
      {
        id: "a",
        evidence: { hallmark: ["p"], supports: ["q"] },
        whenAbsent: { against: [], excludes: ["q"] },
      },
    ]);
    expect(read(needs, "q=no").scores).toEqual([-30]);
    expect(read(needs, "p", "q=no").scores).toEqual([13 - 5]);
  });
});

describe("standing", () => {
  const marked: Conditions = [{ id: "a", evidence: { hallmark: ["p"], supports: ["q", "r", "s"] } }];

  it.each([
    [8, "suspected"],
    [7, "leaning"],
    [3, "leaning"],
    [2, "undetermined"],
  ])("with a hallmark and a lead of %i is %s", (lead, standing) => {
    const flow = flowOf(marked, { silentRival: 13 - lead });
    expect(read(flow, "p")).toMatchObject({ lead, standing });
  });

  it("is never suspected without a hallmark, however large the lead", () => {
    expect(read(flowOf(marked, { silentRival: 0 }), "q", "r", "s")).toMatchObject({
      lead: 15,
      standing: "leaning",
    });
  });

  it.each([
    [3, "leaning"],
    [2, "undetermined"],
  ])("without a hallmark and with a lead of %i is %s", (lead, standing) => {
    const flow = flowOf(marked, { silentRival: 10 - lead });
    expect(read(flow, "q", "r")).toMatchObject({ lead, standing });
  });

  it("needs two things that speak for it, one of them more than a first word", () => {
    const flow = flowOf([{ id: "a", evidence: { supports: ["vague", "dull", "p", "q"] } }], {
      silentRival: 0,
    });
    expect(read(flow, "p").standing).toBe("undetermined");
    expect(read(flow, "vague", "dull").standing).toBe("undetermined");
    expect(read(flow, "vague", "p").standing).toBe("leaning");
  });
});

describe("a prone host plant", () => {
  it("counts as one of the two things that speak for a condition", () => {
    const flow = flowOf([{ id: "a", prone: ["fern"], evidence: { supports: ["p"] } }], { silentRival: 0 });
    expect(read(flow, "p").standing).toBe("undetermined");
    expect(read(flow, "p", "host=fern").standing).toBe("leaning");
    expect(read(flow, "host=fern").standing).toBe("undetermined");
  });
});

describe("the silent rival", () => {
  it("keeps weak evidence from winning by being alone", () => {
    const flow = flowOf([{ id: "a", evidence: { supports: ["p"] } }]);
    expect(read(flow, "p")).toMatchObject({ leader: "a", lead: 5 - 6, standing: "undetermined" });
  });

  it("gives way to a rival that is stronger than itself", () => {
    const flow = flowOf([
      { id: "a", evidence: { hallmark: ["p"], supports: ["q"] } },
      { id: "b", evidence: { supports: ["p", "q"] } },
    ]);
    expect(read(flow, "p", "q")).toMatchObject({ leader: "a", rival: "b", lead: 18 - 10 });
  });
});

describe("contenders", () => {
  it("are not made by place and care alone, nor by the base rate", () => {
    const flow = flowOf([{ id: "a", howCommon: "everyday", evidence: { supports: ["dry"] } }]);
    expect(read(flow)).toMatchObject({ leader: undefined, standing: "undetermined" });
    expect(read(flow, "dry")).toMatchObject({ leader: undefined, standing: "undetermined" });
  });

  it("are made by a state that is the condition", () => {
    const flow = flowOf([{ id: "a", evidence: { hallmark: ["dry"] } }]);
    expect(read(flow, "dry").leader).toBe("a");
  });

  it("gain from circumstances once something is seen", () => {
    const flow = flowOf([{ id: "a", evidence: { hallmark: ["p"], supports: ["dry"] } }]);
    expect(read(flow, "p", "dry").scores).toEqual([18]);
  });
});

describe("ties", () => {
  const alike = (kind: "abiotic" | "harmless" | "pest" | "pathogen") => ({
    id: kind,
    kind,
    evidence: { supports: ["p"] },
  });

  it("go to the kind that is met more often", () => {
    const flow = flowOf([alike("pathogen"), alike("pest"), alike("harmless"), alike("abiotic")]);
    expect(read(flow, "p")).toMatchObject({
      leader: "abiotic",
      ranking: ["abiotic", "harmless", "pest", "pathogen"],
    });
  });

  it("go by the order of the edition within a kind, and stay undetermined", () => {
    const twins = flowOf([
      { id: "first", evidence: { hallmark: ["p"] } },
      { id: "second", evidence: { hallmark: ["p"] } },
    ]);
    expect(read(twins, "p")).toMatchObject({
      leader: "first",
      rival: "second",
      lead: 0,
      standing: "undetermined",
    });
  });
});

describe("ranking", () => {
  it("puts what explains something before what merely is common, and harmless last", () => {
    const flow = flowOf([
      { id: "harmless", kind: "harmless", howCommon: "everyday" },
      { id: "common", howCommon: "everyday" },
      { id: "explains", howCommon: "rare", evidence: { supports: ["p"] } },
    ]);
    expect(read(flow, "p").ranking).toEqual(["explains", "common", "harmless"]);
  });

  it("holds each condition once", () => {
    const flow = flowOf([{ id: "a" }, { id: "b", evidence: { hallmark: ["p"] } }, { id: "c" }]);
    expect(read(flow, "p").ranking.sort()).toEqual(["a", "b", "c"]);
  });
});

describe("the host plant", () => {
  it("counts the same whether not asked or not known", () => {
    const flow = flowOf([{ id: "a", onlyOn: ["fern"], evidence: { hallmark: ["p"] } }]);
    expect(read(flow, "p").scores).toEqual([13 - 4]);
    const { known } = know(flow, caseOf(flow, "p"));
    expect(assess(flow, known, null)).toEqual(assess(flow, known, undefined));
    expect([...assess(flow, known, "fern").scores]).toEqual([13]);
  });
});
