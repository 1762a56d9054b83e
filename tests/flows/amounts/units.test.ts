import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { formatNumber, formatRange, parseNumber } from "../../../flows/amounts/numbers.ts";
import { roundToSpoons, spellSpoons } from "../../../flows/amounts/spoons.ts";
import {
  formatVolume,
  fromCelsius,
  fromCentimetres,
  fromMillilitres,
  millilitresIn,
  nameUnit,
  toCelsius,
  toCentimetres,
  toMillilitres,
} from "../../../flows/amounts/units.ts";
import { volumeUnits } from "../../../flows/edition.ts";

describe("units against outside values", () => {
  // NIST Handbook 44, Appendix C: exact, from 1 US gallon = 231 in³ and 1 in = 2.54 cm.
  it.each([
    ["tsp", 4.92892159375],
    ["tbsp", 14.78676478125],
    ["fl-oz", 29.5735295625],
    ["cup", 236.5882365],
    ["quart", 946.352946],
    ["gallon", 3785.411784],
    ["litre", 1000],
    ["ml", 1],
  ] as const)("1 %s is %d mL (NIST Handbook 44, Appendix C)", (unit, ml) => {
    expect(millilitresIn[unit]).toBe(ml);
  });

  it("a gallon is 231 cubic inches, a dry quart a 32nd of a bushel of 2150.42 (NIST Handbook 44)", () => {
    expect(millilitresIn.gallon).toBeCloseTo(231 * 2.54 ** 3, 9);
    expect(millilitresIn["dry-quart"]).toBeCloseTo((2150.42 * 2.54 ** 3) / 32, 9);
  });

  // NIST SP 430, the household card: the relations, and its roundings within 3 %.
  it.each([
    ["tbsp", 3, "tsp", 15],
    ["fl-oz", 2, "tbsp", 30],
    ["cup", 16, "tbsp", 240],
    ["quart", 32, "fl-oz", 950],
    ["gallon", 128, "fl-oz", 3785],
  ] as const)("1 %s is %d %s (NIST SP 430)", (unit, count, smaller, card) => {
    expect(millilitresIn[unit]).toBeCloseTo(count * millilitresIn[smaller], 9);
    expect(Math.abs(millilitresIn[unit] / card - 1)).toBeLessThan(0.03);
  });
});

describe("units", () => {
  it("convert there and back", () => {
    const amount = fc.double({ min: 0.001, max: 1e6, noNaN: true });
    fc.assert(
      fc.property(amount, fc.constantFrom(...volumeUnits), (value, unit) => {
        expect(fromMillilitres(toMillilitres({ amount: value, unit }), unit) / value).toBeCloseTo(1, 12);
        expect(fromCentimetres(toCentimetres(value, "in"), "in") / value).toBeCloseTo(1, 12);
        expect(toCelsius(fromCelsius(value, "F"), "F") / value).toBeCloseTo(1, 9);
      }),
    );
    expect([fromCelsius(100, "F"), fromCelsius(-40, "F"), toCelsius(32, "F")]).toEqual([212, -40, 0]);
  });

  it("tell a volume as a jug does", () => {
    expect(formatVolume(487, "metric", "en")).toBe("500 mL");
    expect(formatVolume(980, "metric", "en")).toBe("1 L");
    expect(formatVolume(1960, "metric", "de")).toBe("2 L");
    expect(formatVolume(4730, "metric", "de")).toBe("4,7 L");
    expect(formatVolume(4730, "us", "en")).toBe("5 quarts");
    expect(formatVolume(500, "us", "en")).toBe("2 cups");
    expect(formatVolume(1, "us", "en")).toBe("0.25 cup");
    expect(formatVolume(20_000, "us", "en")).toBe("5.5 gallons");
    expect(nameUnit("dry-quart", 2)).toBe("dry quarts");
  });
});

describe("spoons", () => {
  it("spells what a set of spoons can measure", () => {
    expect([0.5, 1, 1.25, 3, 4.5, 12, 50, 192].map(spellSpoons)).toEqual([
      "½ teaspoon",
      "1 teaspoon",
      "1¼ teaspoons",
      "1 tablespoon",
      "1 tablespoon and 1½ teaspoons",
      "4 tablespoons",
      "1 cup and 2 teaspoons",
      "4 cups",
    ]);
  });

  it("is never more than an eighth off, from a quarter of a teaspoon to a gallon, and grows with the amount", () => {
    fc.assert(
      fc.property(fc.double({ min: millilitresIn.tsp / 4, max: millilitresIn.gallon, noNaN: true }), (ml) => {
        const exact = ml / millilitresIn.tsp;
        // The smallest spoon step, an eighth of a teaspoon, is coarse below half a teaspoon.
        expect(Math.abs(roundToSpoons(ml) - exact)).toBeLessThanOrEqual(Math.max(0.0626, exact / 8));
        expect(roundToSpoons(ml * 1.5)).toBeGreaterThanOrEqual(roundToSpoons(ml));
      }),
    );
  });
});

describe("numbers", () => {
  it("follow the locale, and an unknown one counts as English", () => {
    expect(formatNumber(1234.5, "en-US")).toBe("1,234.5");
    expect(formatNumber(1234.5, "de-DE")).toBe("1.234,5");
    expect(formatNumber(1.25, "no such locale")).toBe("1.25");
    expect(formatRange(2.5, 5, "de")).toBe("2,5 to 5");
    expect(formatRange(2.001, 2.002, "en")).toBe("2");
  });

  it.each([
    ["1.5", "en", 1.5],
    ["1,5", "en", 1.5],
    ["1,5", "de", 1.5],
    ["1,000", "en", 1000],
    ["1.000", "de", 1000],
    ["1\u202f000", "fr", 1000],
    ["1 1/2", "en", 1.5],
    ["1½", "en", 1.5],
    ["½", "en", 0.5],
    [" -7 ", "en", -7],
    ["\u22127", "en", -7],
  ])("reads %j under %s", (text, locale, value) => {
    expect(parseNumber(text, locale)).toBe(value);
  });

  it.each(["", "abc", "1e9", "1..2", "--1", "0x10", "Infinity", "1,2,3"])("reads no number in %j", (text) => {
    expect(parseNumber(text, "en")).toBeNaN();
  });

  it("reads what it wrote", () => {
    const value = fc.integer({ min: -9_999_999, max: 9_999_999 }).map((n) => n / 100);
    fc.assert(
      fc.property(value, fc.constantFrom("en-US", "de-DE", "fr-FR", "en-IN"), (number, locale) => {
        fc.pre(locale !== "en-IN" || Math.abs(number) < 100_000);
        // Three digits after a lone mark are read as thousands, as the locale writes them.
        expect(parseNumber(formatNumber(number, locale), locale)).toBe(number === 0 ? 0 : number);
      }),
    );
  });

  it("gives up on a long line at once", () => {
    const start = performance.now();
    expect(parseNumber(`${"1,111".repeat(20_000)}x`, "en")).toBeNaN();
    expect(performance.now() - start).toBeLessThan(200);
  });
});
