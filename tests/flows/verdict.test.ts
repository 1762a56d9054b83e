import fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import { nextQuestion } from "../../flows/next-question.ts";
import { makePlan } from "../../flows/plan.ts";
import { judge } from "../../flows/verdict.ts";
import { caseOf } from "../support/cases.ts";
import { condition, finding, host, makeFlow } from "../support/make-edition.ts";
import { arbitraryCase, arbitraryReordered } from "../support/random-case.ts";
import { shippedFlow } from "../support/shipped-flow.ts";
import { tinyFlow } from "../support/tiny-flow.ts";

// Slow machines may take their time.
vi.setConfig({ testTimeout: 60_000 });

const text = (said: string) => [{ t: "p" as const, of: [{ t: "text" as const, text: said }] }];

const flow = makeFlow({
  findings: [finding({ id: "vague", vague: true }), finding({ id: "p", implies: ["vague"] }), "q", "r", "s"],
  conditions: [
    condition({
      id: "scale",
      prone: ["fern"],
      evidence: { hallmark: ["p"], supports: ["q", "vague"], against: ["r"] },
      looksLike: [
        { other: "edema", check: text("scrape") },
        { other: "rust", check: text("rub") },
      ],
    }),
    condition({ id: "edema", evidence: { supports: ["s"], against: ["p"] }, immune: ["fern"] }),
    condition({ id: "rust", evidence: { supports: ["p", "q"] }, needsSample: true }),
    condition({
      id: "soot",
      evidence: { hallmark: ["s"] },
      looksLike: [{ other: "scale", check: text("wipe") }],
    }),
  ],
  hosts: [host({ id: "fern" })],
});

function reasons(id: string, ...answers: string[]) {
  const found = judge(flow, caseOf(flow, ...answers)).candidates.find(({ condition: c }) => c === id);
  const short = (all: { finding: string; known: string; word: string; weight: number }[] = []) =>
    all.map(({ finding: f, known, word, weight }) => `${f} ${known} ${word} ${weight}`);
  return { for: short(found?.reasonsFor), against: short(found?.reasonsAgainst), weight: found?.weight };
}

describe("reasons", () => {
  it("name what speaks for and against, the heaviest first, the host plant too", () => {
    expect(reasons("scale", "q", "p", "r", "host=fern")).toEqual({
      for: ["p present hallmark 13", "q present supports 5", "fern present prone 4"],
      against: ["r present against -5"],
      weight: 17,
    });
  });

  it("leave out a vague finding when a sharper one is there", () => {
    expect(reasons("scale", "vague").for).toEqual(["vague present supports 5"]);
    expect(reasons("scale", "vague", "p").for).toEqual(["p present hallmark 13"]);
  });

  it("tell what was looked for and not found", () => {
    expect(reasons("scale", "p=no").against).toEqual(["p absent against -4"]);
  });

  it("say nothing of the host plant when it is not known", () => {
    expect(reasons("edema", "host=not-sure")).toEqual({ for: [], against: [], weight: 0 });
    expect(reasons("edema", "host=fern").against).toEqual(["fern present immune -40"]);
  });

  it("add up to the weight of the candidate in the shipped content, exclusions and base rate aside", () => {
    const shipped = shippedFlow();
    const { weights } = shipped.edition;
    fc.assert(
      fc.property(arbitraryCase(shipped), (kase) => {
        for (const candidate of judge(shipped, kase).candidates) {
          const all = [...candidate.reasonsFor, ...candidate.reasonsAgainst];
          const known = kase.answers.find(({ to }) => to === "host")?.is ?? "not-sure";
          if (all.some(({ word }) => word === "excludes") || known === "not-sure") continue;
          const frequency = shipped.condition(candidate.condition)?.howCommon ?? "rare";
          const sum = all.reduce((total, { weight }) => total + weight, weights.howCommon[frequency]);
          expect(candidate.weight, candidate.condition).toBe(sum);
        }
      }),
      { numRuns: 50 },
    );
  });
});

describe("the separating check", () => {
  const from = (...answers: string[]) => judge(flow, caseOf(flow, ...answers)).separatingCheck;

  it("is the one against the nearest rival that explains something", () => {
    expect(from("p", "q")).toEqual({ from: "rust", check: text("rub") });
  });

  it("is taken from either side", () => {
    expect(from("p", "s")).toMatchObject({ from: "soot", check: text("wipe") });
  });

  it("falls back on the leader's first look-alike", () => {
    expect(from("p", "r")).toMatchObject({ from: "rust" });
    const alone = makeFlow({
      findings: ["p"],
      conditions: [
        condition({ id: "a", evidence: { hallmark: ["p"] }, looksLike: [{ other: "b", check: text("x") }] }),
        condition({ id: "b" }),
      ],
    });
    expect(judge(alone, caseOf(alone, "p")).separatingCheck).toEqual({ from: "b", check: text("x") });
  });

  it("is not given when nothing leads", () => {
    expect(from()).toBeNull();
  });
});

describe("a sample", () => {
  it("is asked for while nothing is clear", () => {
    expect(judge(flow, caseOf(flow))).toMatchObject({ standing: "undetermined", bringSample: true });
  });

  it("is not asked for once the lead is clear", () => {
    const verdict = judge(flow, caseOf(flow, "p", "host=fern"));
    expect(verdict).toMatchObject({ standing: "suspected", leader: "scale", bringSample: false });
  });

  it("is asked for a condition that only the bench can tell", () => {
    const bench = makeFlow({
      findings: ["p"],
      conditions: [
        condition({ id: "virus", howCommon: "common", needsSample: true, evidence: { hallmark: ["p"] } }),
      ],
    });
    expect(judge(bench, caseOf(bench, "p"))).toMatchObject({ standing: "suspected", bringSample: true });
  });
});

describe.each([
  ["the tiny content", tinyFlow()],
  ["the shipped content", shippedFlow()],
])("in any case of %s", (_, of) => {
  it("the order of the answers never matters: to the verdict, the plan and the next question", () => {
    fc.assert(
      fc.property(arbitraryReordered(of), ({ kase, reordered }) => {
        const verdict = judge(of, kase);
        const again = judge(of, reordered);
        expect(again).toEqual(verdict);
        expect(makePlan(of, reordered, again)).toEqual(makePlan(of, kase, verdict));
        expect(nextQuestion(of, reordered)?.id).toBe(nextQuestion(of, kase)?.id);
      }),
      { numRuns: 300 },
    );
  });

  it("“not sure” changes nothing in the verdict and the plan", () => {
    const questions = [...of.promptById.keys(), of.hostQuestion?.id ?? "host"];
    fc.assert(
      fc.property(arbitraryCase(of), fc.subarray(questions), (kase, unsure) => {
        const fresh = unsure.filter((to) => !kase.answers.some((answer) => answer.to === to));
        const more = { ...kase, answers: [...kase.answers, ...fresh.map((to) => ({ to, is: "not-sure" }))] };
        const verdict = judge(of, kase);
        expect(judge(of, more)).toEqual(verdict);
        expect(makePlan(of, more, verdict)).toEqual(makePlan(of, kase, verdict));
      }),
      { numRuns: 300 },
    );
  });

  it("“not sure” to everything ends in a request for a sample, with no leader", () => {
    const questions = [...of.promptById.keys(), of.hostQuestion?.id ?? "host"];
    const verdict = judge(of, caseOf(of, ...questions.map((to) => `${to}=not-sure`)));
    expect(verdict).toMatchObject({ standing: "undetermined", leader: null, bringSample: true });
  });
});
