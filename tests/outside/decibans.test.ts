import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Weights } from "../../flows/edition.ts";
import { judge } from "../../flows/verdict.ts";
import { caseOf } from "../support/cases.ts";
import { condition, makeFlow, plainWeights } from "../support/make-edition.ts";
import { shippedFlow } from "../support/shipped-flow.ts";

// Decibans: tenths of a base-ten logarithm of the likelihood ratio, so that evidence adds up. A. M. Turing's unit, described by
// I. J. Good, Probability and the Weighing of Evidence (Griffin, 1950), and "Studies in the history of probability and
// statistics XXXVII: A. M. Turing's statistical work in World War II", Biometrika 66 (1979) 393-396.
const decibans = (ratio: number) => Math.round(10 * Math.log10(ratio));

/** Bayes' rule in odds form: odds after = odds before × likelihood ratio. */
function after(prior: number, weight: number): number {
  const odds = (prior / (1 - prior)) * 10 ** (weight / 10);
  return odds / (1 + odds);
}

/** What the engine adds to a condition for one finding whose weight is given in decibans. */
function engineWeight(...weights: number[]): number {
  const findings = weights.map((_, i) => `f${i}`);
  const sums = weights.map((weight, i) => {
    const table: Weights = { ...plainWeights, present: { ...plainWeights.present, supports: weight } };
    const flow = makeFlow({
      findings,
      weights: table,
      conditions: [condition({ id: "c", evidence: { supports: [`f${i}`] } })],
    });
    return judge(flow, caseOf(flow, `f${i}`)).candidates[0]?.weight ?? Number.NaN;
  });
  return sums.reduce((total, weight) => total + weight, 0);
}

/** Prior, likelihood ratio, probability after it (percent): the usual table of worked examples of Bayes' rule. */
const table = [
  [0.1, 2, 18.2],
  [0.1, 5, 35.7],
  [0.1, 10, 52.6],
  [0.25, 2, 40.0],
  [0.25, 5, 62.5],
  [0.25, 10, 76.9],
  [0.5, 2, 66.7],
  [0.5, 5, 83.3],
  [0.5, 10, 90.9],
  [0.75, 2, 85.7],
  [0.75, 5, 93.8],
  [0.75, 10, 96.8],
  [0.5, 0.5, 33.3],
  [0.5, 0.2, 16.7],
  [0.5, 0.1, 9.1],
  [0.25, 0.5, 14.3],
  [0.25, 0.2, 6.3],
  [0.25, 0.1, 3.2],
] as const;

describe("whole decibans", () => {
  it.each([
    [20, 13],
    [3, 5],
    [1 / 3, -5],
    [10, 10],
    [1, 0],
  ])("stand at the right place for a likelihood ratio of %d", (ratio, weight) => {
    expect(decibans(ratio)).toBe(weight);
  });

  it("are what the shipped table says of its words: 20 to 1, 3 to 1, 1 to 3", () => {
    const { present, absent, howCommon, host, lead, ...rest } = shippedFlow().edition.weights;
    expect(present).toMatchObject({
      hallmark: decibans(20),
      supports: decibans(3),
      against: decibans(1 / 3),
    });
    const all = [present, absent, howCommon, host, lead, rest].flatMap((group) => Object.values(group));
    expect(all.filter((weight) => !Number.isInteger(weight))).toEqual([]);
  });

  it.each(table)(
    "bring a prior of %d and a ratio of %d to the published %d percent",
    (prior, ratio, percent) => {
      const weight = engineWeight(decibans(ratio));
      // Rounding to a whole deciban moves these ratios by less than half a percent.
      expect(Math.abs(100 * after(prior, weight) - percent)).toBeLessThan(0.2);
    },
  );
});

describe("evidence in the engine", () => {
  const anyFindings = ["p", "q", "r", "s"];
  const flow = makeFlow({
    findings: anyFindings,
    conditions: [condition({ id: "c", evidence: { hallmark: ["p"], supports: ["q"], against: ["r"] } })],
  });
  const weigh = (...answers: string[]) => judge(flow, caseOf(flow, ...answers)).candidates[0]?.weight ?? 0;

  it("adds where likelihood ratios multiply, whatever comes first", () => {
    fc.assert(
      fc.property(fc.shuffledSubarray(anyFindings), (some) => {
        expect(weigh(...some)).toBe(some.reduce((sum, id) => sum + weigh(id), 0));
      }),
    );
  });

  it("is not moved by a ratio of 1, which is a finding without a word", () => {
    expect(weigh("p", "s")).toBe(weigh("p"));
  });

  it("is undone by the inverse ratio", () => {
    expect(weigh("q", "r")).toBe(weigh());
  });
});
