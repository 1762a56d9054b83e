import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { standings } from "../../../flows/edition.ts";
import { binByLead, type Judged, promisedBy, tally, tallyBy } from "../../../flows/statistics/agreement.ts";

const judged = fc.array(
  fc.record({
    standing: fc.constantFrom(...standings),
    condition: fc.constantFrom("mites", "thrips", null),
    lead: fc.integer({ min: -5, max: 60 }),
    agreed: fc.boolean(),
  }),
);

const one = (lead: number, agreed: boolean): Judged => ({
  standing: "suspected",
  condition: "mites",
  lead,
  agreed,
});

describe("tallies", () => {
  test("lose no sample and invent none", () => {
    fc.assert(
      fc.property(judged, (all) => {
        const lines = tallyBy(all, ({ standing }) => standing);
        expect(lines.reduce((sum, line) => sum + line.all, 0)).toBe(all.length);
        expect(lines.reduce((sum, line) => sum + line.agreed, 0)).toBe(tally(all).agreed);
        expect(binByLead(all).reduce((sum, bin) => sum + bin.all, 0)).toBe(all.length);
        for (const line of lines) expect(line.agreed / line.all).toBeLessThanOrEqual(line.interval.high);
      }),
    );
  });

  test("leave out what has no key, and put the greatest first", () => {
    const all = [
      one(1, true),
      { ...one(1, true), condition: null },
      ...Array(3).fill({ ...one(1, false), condition: "thrips" }),
    ];
    expect(tallyBy(all, ({ condition }) => condition)).toMatchObject([
      { key: "thrips", all: 3, agreed: 0 },
      { key: "mites", all: 1, agreed: 1 },
    ]);
  });
});

describe("what a lead promises", () => {
  test("is what decibans mean: ten are ten to one, none is even", () => {
    expect(promisedBy(0)).toBe(0.5);
    expect(promisedBy(10)).toBeCloseTo(10 / 11, 12);
    expect(promisedBy(20)).toBeCloseTo(100 / 101, 12);
  });

  test("is set against what the bench saw, lead by lead", () => {
    expect(binByLead([one(10, true), one(14, false), one(40, true), one(-2, false)])).toMatchObject([
      { from: 0, to: 2, all: 1, agreed: 0, promised: promisedBy(-2) },
      { from: 10, to: 14, all: 2, agreed: 1, promised: (promisedBy(10) + promisedBy(14)) / 2 },
      { from: 20, to: null, all: 1, agreed: 1 },
    ]);
  });
});
