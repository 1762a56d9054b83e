import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { leachPot, mixForPot } from "../../../flows/amounts/fill-pot.ts";
import { coneVolume, measurePot, namePot, nextPot, smallerPot } from "../../../flows/amounts/pots.ts";
import { millilitresIn } from "../../../flows/amounts/units.ts";
import { shippedFlow } from "../../support/shipped-flow.ts";

const pots = shippedFlow().edition.pots;
const us = { unit: "in", system: "us", locale: "en" } as const;
const metric = { unit: "cm", system: "metric", locale: "en" } as const;

function must<T extends { ok: boolean }>(answer: T): Extract<T, { ok: true }> {
  if (!answer.ok) throw new Error(JSON.stringify(answer));
  return answer as Extract<T, { ok: true }>;
}

describe("pots against published volumes", () => {
  // numbers.md F: cones in cubic inches and litres (arithmetic done apart from this code).
  it.each([
    [6, 4.25, 5.75, 120, 1.96],
    [4, 2.75, 3.5, 32, 0.52],
    [8, 5.75, 7.5, 281, 4.6],
    [10, 7.25, 9.5, 560, 9.17],
  ])("a pot %d by %d by %d in holds %d in³, %d L", (top, bottom, height, cubic, litres) => {
    const { volume } = must(measurePot({ top, bottom, height, ...us }));
    expect(Math.abs(volume.most / 16.387064 / cubic - 1)).toBeLessThan(0.011);
    expect(volume.most / 1000).toBeCloseTo(litres, 1);
  });

  it("a straight 12 by 11 in pot holds 1244 in³ and 18.5 dry quarts (n110)", () => {
    const { volume } = must(measurePot({ top: 12, bottom: 12, height: 11, ...us }));
    expect(volume.most / 16.387064).toBeCloseTo(1244, 0);
    expect(volume.most / millilitresIn["dry-quart"]).toBeCloseTo(18.5, 1);
  });

  // Charts that the table of named pots was made from: the range must hold what each of them says.
  it.each([
    [4, 0.5, "n108, n109"],
    [5, 1, "n108"],
    [6, 1, "n108, n109"],
    [6, 2.37, "n95: 10 cups"],
    [8, 3.8, "n108"],
    [10, 11.4, "n108"],
    [12, 18.9, "n108: 5 gal"],
  ])("a %d-inch pot may hold %d L (%s)", (size, litres) => {
    const { volume } = must(namePot({ size, pots, ...us }));
    expect(litres * 1000).toBeGreaterThanOrEqual(volume.least * 0.95);
    expect(litres * 1000).toBeLessThanOrEqual(volume.most * 1.05);
  });

  // Not used for the table: soil for each pot in a column of the University of Illinois Extension, in US gallons
  // (https://www.coquenexus5.com/tag/experimenting, "Experimenting with gardening containers").
  it.each([
    [10, 3],
    [12, 5],
    [14, 7],
    [16, 10],
    [18, 15],
  ])(
    "a %d-inch pot is within a fifth of the published %d gallons (Illinois Extension column)",
    (size, gallons) => {
      const { volume } = must(namePot({ size, pots, ...us }));
      const published = gallons * millilitresIn.gallon;
      const off =
        published < volume.least ? published / volume.least - 1 : Math.max(0, published / volume.most - 1);
      console.log(
        `pot ${size} in: ${(volume.least / 1000).toFixed(1)} to ${(volume.most / 1000).toFixed(1)} L, published ${(published / 1000).toFixed(1)} L: ${(off * 100).toFixed(0)} % outside`,
      );
      expect(Math.abs(off)).toBeLessThan(0.2);
    },
  );

  it("the named ranges hold the measured pots of the same size", () => {
    for (const [top, bottom, height] of [
      [6, 4.25, 5.75],
      [8, 5.75, 7.5],
    ] as const) {
      const named = must(namePot({ size: top, pots, ...us })).volume;
      const measured = must(measurePot({ top, bottom, height, ...us })).volume.most;
      expect(measured).toBeGreaterThan(named.least);
      expect(measured).toBeLessThanOrEqual(named.most * 1.01);
    }
  });

  it("leaching a 6-inch pot of 10 cups takes 20 cups (University of Arizona, n95); half a gallon takes a gallon (n96)", () => {
    const cups = { least: 10 * millilitresIn.cup, most: 10 * millilitresIn.cup };
    const { water, passes } = must(leachPot({ volume: cups, pots, ...us }));
    expect(water.most / millilitresIn.cup).toBeCloseTo(20, 9);
    expect(passes).toEqual([2, 3]);
    const half = { least: millilitresIn.gallon / 2, most: millilitresIn.gallon / 2 };
    expect(must(leachPot({ volume: half, pots, ...us })).text).toBe("4 quarts");
  });
});

describe("pots", () => {
  it("show their working", () => {
    expect(measurePot({ top: 15, bottom: 11, height: 14, ...metric })).toMatchObject({
      text: "1.9 L",
      working: "π ÷ 12 × 14 × (15² + 15 × 11 + 11²) with all in cm: 1.9 L.",
    });
    expect(must(namePot({ size: 15, pots, ...metric }))).toMatchObject({ text: "950 mL to 2.4 L" });
    expect(must(namePot({ size: 13, pots, ...metric })).working).toContain("scaled by the cube of the width");
  });

  it("grow with each measure, match the cylinder, and come out alike in inches and cm", () => {
    const length = fc.double({ min: 4, max: 90, noNaN: true });
    fc.assert(
      fc.property(length, length, length, (top, bottom, height) => {
        const ml = coneVolume(top, bottom, height);
        expect(coneVolume(top * 1.05, bottom, height)).toBeGreaterThan(ml);
        expect(coneVolume(top, bottom * 1.05, height)).toBeGreaterThan(ml);
        expect(coneVolume(top, bottom, height * 2)).toBeCloseTo(ml * 2, 4);
        expect(coneVolume(top, top, height)).toBeCloseTo((Math.PI / 4) * top * top * height, 4);
        const inches = { top: top / 2.54, bottom: bottom / 2.54, height: height / 2.54 };
        expect(must(measurePot({ ...inches, ...us })).volume.most / ml).toBeCloseTo(1, 9);
      }),
    );
  });

  it.each([
    [{ height: 210 }, "POT_RANGE", "Give a height of the pot between 3 and 100 cm (1.2 and 39 in)."],
    [{ top: 0 }, "POT_RANGE", "Give widths of the pot between 3 and 100 cm (1.2 and 39 in)."],
    [{ bottom: -3 }, "POT_RANGE", "Give widths of the pot between 3 and 100 cm (1.2 and 39 in)."],
    [
      { top: Number.NaN },
      "NOT_A_NUMBER",
      "That is not a number. Give widths of the pot between 3 and 100 cm (1.2 and 39 in).",
    ],
  ] as const)("answer %j with one sentence", (bad, code, sentence) => {
    expect(measurePot({ top: 15, bottom: 11, height: 14, ...metric, ...bad })).toEqual({
      ok: false,
      code,
      sentence,
    });
  });

  it("want their table, but never throw without it", () => {
    const none = { ok: false, code: "POT_SIZES_MISSING" };
    const volume = { least: 1000, most: 1000 };
    const width = { top: 15, pots: undefined, ...metric };
    expect([
      namePot({ size: 15, pots: undefined, ...metric }),
      nextPot(width),
      smallerPot({ ...width, rootLoss: 30 }),
      leachPot({ volume, pots: undefined, ...metric }),
      mixForPot({ volume, sizes: [], pots: undefined, ...metric }),
    ]).toMatchObject([none, none, none, none, none]);
  });
});

describe("the next pot", () => {
  // The rule of n111: 1 to 2 in wider below 10 in, 2 to 4 in from 10 in on.
  it.each([
    [4, [5, 6], [5, 6]],
    [6, [7, 8], [7, 8]],
    [8, [9, 10], [10]],
    [10, [12, 14], [12, 14]],
  ])("after %d in is %j in", (top, widths, sold) => {
    expect(must(nextPot({ top, pots, ...us }))).toMatchObject({ widths, sold });
  });

  it("is told in whole and half cm", () => {
    expect(must(nextPot({ top: 15, pots, ...metric }))).toMatchObject({
      widths: [17.5, 20],
      sold: [19],
      text: "17.5 to 20 cm",
      working: "15 cm and 2.5 to 5 cm more: 17.5 to 20 cm across the top.",
    });
  });

  it("is always wider, by 4 in at most", () => {
    fc.assert(
      fc.property(fc.double({ min: 3, max: 90, noNaN: true }), (top) => {
        const { widths } = must(nextPot({ top, pots, ...metric }));
        expect(widths[0]).toBeGreaterThan(top);
        expect(widths[1] - top).toBeLessThanOrEqual(4 * 2.54 + 0.5);
      }),
    );
  });
});

describe("the smaller pot", () => {
  it("shrinks with the cube root of what is left", () => {
    expect(must(smallerPot({ top: 15, rootLoss: 50, pots, ...metric }))).toMatchObject({
      width: 12,
      newStart: true,
      working: "15 cm × ∛0.5 = 11.9 cm, so a pot of 12 cm.",
    });
    expect(must(smallerPot({ top: 6, rootLoss: 30, pots, ...us }))).toMatchObject({
      width: 5,
      newStart: false,
    });
    expect(must(smallerPot({ top: 16.5, rootLoss: 0, pots, ...metric }))).toMatchObject({ width: 16.5 });
  });

  it("is never wider than the old one, nor wider for a greater loss", () => {
    const loss = fc.integer({ min: 0, max: 89 });
    fc.assert(
      fc.property(fc.double({ min: 6, max: 60, noNaN: true }), loss, (top, rootLoss) => {
        const width = (lost: number) => must(smallerPot({ top, rootLoss: lost, pots, ...metric })).width;
        expect(width(rootLoss)).toBeLessThanOrEqual(top);
        expect(width(rootLoss + 1)).toBeLessThanOrEqual(width(rootLoss));
      }),
    );
  });

  it("refuses a loss that leaves nothing", () => {
    expect(smallerPot({ top: 15, rootLoss: 100, pots, ...metric })).toEqual({
      ok: false,
      code: "ROOT_LOSS_RANGE",
      sentence: "Give a loss between 0 and 90 percent of the roots.",
    });
  });
});

describe("mix for a pot", () => {
  const volume = { least: 1900, most: 1900 };
  const sizes = [
    { amount: 5, unit: "litre" },
    { amount: 10, unit: "litre" },
    { amount: 4, unit: "dry-quart" },
    { amount: 8, unit: "dry-quart" },
  ] as const;

  it("allows for settling (n109) and picks the bag", () => {
    expect(must(mixForPot({ volume, sizes, pots, ...metric }))).toMatchObject({
      text: "2.3 L",
      bags: { text: "5 L" },
      working: "1.9 L to fill and 20 % for settling: 2.3 L.",
    });
    expect(must(mixForPot({ volume, sizes, pots, ...us }))).toMatchObject({
      text: "2.5 quarts (dry)",
      bags: { text: "4 dry quarts" },
    });
    const tub = { least: 20_000, most: 20_000 };
    expect(must(mixForPot({ volume: tub, sizes, pots, ...metric })).bags).toMatchObject({
      count: 3,
      text: "3 × 10 L",
    });
  });

  it("takes less where the root ball stays, never less than nothing", () => {
    expect(must(mixForPot({ volume, ball: 1000, sizes, pots, ...metric })).ml).toBeCloseTo(1080, 6);
    expect(must(mixForPot({ volume, ball: 5000, sizes, pots, ...metric })).ml).toBe(0);
  });
});
