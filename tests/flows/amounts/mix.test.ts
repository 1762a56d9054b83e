import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { mixBottle, shareOf } from "../../../flows/amounts/mix.ts";
import { bottleUnits, millilitresIn, toMillilitres } from "../../../flows/amounts/units.ts";
import type { Product, Quantity, Rate, RateUnit } from "../../../flows/edition.ts";
import { shippedFlow } from "../../support/shipped-flow.ts";

const products = new Map((shippedFlow().edition.products ?? []).map((product) => [product.id, product]));

function find(id: string): Product {
  const product = products.get(id);
  if (!product) throw new Error(`no product ${id}`);
  return product;
}

function makeRate(strength: Rate["strength"]): Rate {
  return { id: "r", use: "test", strength, sources: ["n49"] };
}

function concentrate(strength: Rate["strength"]): Product {
  const shell = { atHome: false, madeFrom: null, insteadOf: null, sizes: [], shelf: null, sources: [] };
  return {
    id: "c",
    name: "c",
    kind: "concentrate",
    ...shell,
    rates: [makeRate(strength)],
    label: "The label.",
  };
}

type Recipe = [
  name: string,
  measure: Quantity<RateUnit>,
  water: Quantity<RateUnit>,
  /** By arithmetic, in percent of the whole. */
  whole: number,
  published: number,
  source: string,
  /** Of what is diluted, in percent. */
  strength?: number,
];

describe("mixing against published recipes", () => {
  const of = (amount: number, unit: RateUnit): Quantity<RateUnit> => ({ amount, unit });
  // Table B2: what the extension tables call each recipe, and its share of the whole by arithmetic.
  const recipes: Recipe[] = [
    ["2½ tbsp per gallon", of(2.5, "tbsp"), of(1, "gallon"), 0.97, 1, "n49"],
    ["2 tsp per quart", of(2, "tsp"), of(1, "quart"), 1.03, 1, "n49"],
    ["5 tbsp per gallon", of(5, "tbsp"), of(1, "gallon"), 1.92, 2, "n49"],
    ["2.5 fl oz per gallon", of(2.5, "fl-oz"), of(1, "gallon"), 1.92, 2, "n49"],
    ["4 tsp per quart", of(4, "tsp"), of(1, "quart"), 2.04, 2, "n49"],
    ["2 tsp per half quart (pint)", of(2, "tsp"), of(0.5, "quart"), 2.04, 2, "n48"],
    ["8 tbsp per gallon", of(8, "tbsp"), of(1, "gallon"), 3.03, 3, "n49"],
    ["1 tbsp per quart", of(1, "tbsp"), of(1, "quart"), 1.54, 1.5, "n50"],
    ["1 tsp of neem per quart", of(1, "tsp"), of(1, "quart"), 0.52, 0.5, "n58"],
    ["2 tsp of neem per quart", of(2, "tsp"), of(1, "quart"), 1.03, 1, "n58"],
    ["1 part of alcohol to 3 of water, of 70 %", of(1, "part"), of(3, "part"), 25, 17.5, "n62", 70],
    ["1 part of peroxide to 4 of water, of 3 %", of(1, "part"), of(4, "part"), 20, 0.6, "n64", 3],
    ["1.5 cups of alcohol to 1 quart, of 70 %", of(1.5, "cup"), of(1, "quart"), 27.27, 19.1, "n61", 70],
  ];
  it.each(recipes)("%s", (name, measure, water, whole, published, source, strength = 100) => {
    const share = shareOf(makeRate({ measure, water }));
    expect(share * 100).toBeCloseTo(whole, 1);
    const percent = share * strength;
    expect(Math.abs(percent / published - 1)).toBeLessThan(0.05);
    console.log(`mix ${name}: ${percent.toFixed(2)} %, published ${published} % (${source})`);
  });

  it("finds the published recipe too weak that claims 0.5 to 1 % for 1 to 2 tbsp per gallon (n59)", () => {
    const share = (spoons: number) =>
      shareOf(makeRate({ measure: of(spoons, "tbsp"), water: of(1, "gallon") }));
    expect(share(1) * 100).toBeCloseTo(0.39, 2);
    expect(share(2) * 100).toBeCloseTo(0.78, 2);
  });

  // Exact target table of B2 (arithmetic on NIST factors).
  it.each([
    [1, 1, "litre", 10, "2 teaspoons (10 mL)"],
    [1, 1, "quart", 9.46, "2 teaspoons (9.5 mL)"],
    [1, 1, "gallon", 37.9, "2 tablespoons and 1½ teaspoons (38 mL)"],
    [2, 1, "litre", 20, "1 tablespoon and 1 teaspoon (20 mL)"],
    [2, 1, "quart", 18.9, "1 tablespoon and 1 teaspoon (19 mL)"],
    [2, 1, "gallon", 75.7, "5 tablespoons (76 mL)"],
    [0.5, 1, "litre", 5, "1 teaspoon (5 mL)"],
    [0.5, 1, "quart", 4.73, "1 teaspoon (4.5 mL)"],
    [0.5, 1, "gallon", 18.9, "1 tablespoon and 1 teaspoon (19 mL)"],
  ] as const)("%d %% of %d %s is %d mL: %s", (percent, amount, unit, ml, measure) => {
    const mix = mixBottle({ product: concentrate({ percent }), bottle: { amount, unit }, locale: "en" });
    if (!mix.ok) throw new Error(mix.sentence);
    expect(mix.productMl).toBeCloseTo(ml, ml < 10 ? 1 : 0);
    expect(mix.measure).toBe(measure);
  });
});

describe("mixBottle", () => {
  const bottle = { amount: 1, unit: "quart" } as const;

  it("shows its working in one line and says that the label comes first", () => {
    expect(mixBottle({ product: find("insecticidal-soap-concentrate"), bottle, locale: "en" })).toMatchObject(
      {
        ok: true,
        way: "mix",
        percent: 2,
        instruction:
          "Put in 1 tablespoon and 1 teaspoon (19 mL) of insecticidal soap concentrate labelled for houseplants. Fill up with water to 1 quart.",
        label: "The label comes first. If it gives another rate, use that one.",
        working: "2 % of the mix: 1 quart (945 mL) × 2 % = 18.9 mL, so 1 tablespoon and 1 teaspoon (19 mL).",
        sources: ["n47", "n48", "n56"],
      },
    );
  });

  it("never dilutes what is ready to use", () => {
    const ready = [...products.values()].filter(({ kind }) => kind === "ready-to-use" || kind === "supply");
    expect(ready.length).toBeGreaterThan(10);
    for (const product of ready) {
      expect(mixBottle({ product, bottle, locale: "en" })).toMatchObject({ way: "as-is", waterMl: 0 });
    }
  });

  it("leaves a concentrate without a published rate to its label", () => {
    const mix = mixBottle({ product: find("bti-product"), bottle, locale: "en" });
    expect(mix).toMatchObject({ way: "by-label", productMl: null, measure: null });
  });

  it("makes weak alcohol by parts, no stronger than one in ten", () => {
    const request = { product: find("weak-alcohol"), madeFrom: find("rubbing-alcohol") };
    const mix = mixBottle({ ...request, bottle: { amount: 500, unit: "ml" }, locale: "en" });
    expect(mix).toMatchObject({ productMl: 50, waterMl: 450, percent: 10 });
    expect(mix).toHaveProperty("instruction", expect.stringContaining("of 70 percent isopropyl alcohol."));
  });

  it("takes another of the product's rates by its id", () => {
    const product = find("neem-concentrate");
    expect(mixBottle({ product, bottle, rate: "one-percent", locale: "de" })).toMatchObject({
      working: expect.stringContaining("1,03 %"),
    });
    expect(mixBottle({ product, bottle, rate: "nine-percent", locale: "en" })).toMatchObject({
      ok: false,
      code: "RATE_UNKNOWN",
    });
  });

  it.each([
    [0, "ml", "BOTTLE_RANGE"],
    [-1, "litre", "BOTTLE_RANGE"],
    [6, "gallon", "BOTTLE_RANGE"],
    [Number.POSITIVE_INFINITY, "cup", "BOTTLE_RANGE"],
    [Number.NaN, "cup", "NOT_A_NUMBER"],
    [50, "ml", "TOO_LITTLE"],
  ] as const)("answers a bottle of %d %s with one sentence", (amount, unit, code) => {
    const answer = mixBottle({
      product: find("insecticidal-soap-concentrate"),
      bottle: { amount, unit },
      locale: "en",
    });
    expect(answer).toMatchObject({ ok: false, code });
    expect(answer).toHaveProperty("sentence", expect.stringMatching(/\d.*\.$/));
  });

  it("fills the bottle exactly, grows with it, and does not mind the unit", () => {
    const request = fc.record({
      ml: fc.double({ min: 400, max: 15_000, noNaN: true }),
      unit: fc.constantFrom(...bottleUnits),
      percent: fc.double({ min: 0.5, max: 10, noNaN: true }),
    });
    fc.assert(
      fc.property(request, ({ ml, unit, percent }) => {
        const product = concentrate({ percent });
        const make = (size: number) => {
          const answer = mixBottle({
            product,
            bottle: { amount: size / millilitresIn[unit], unit },
            locale: "en",
          });
          if (!answer.ok) throw new Error(answer.sentence);
          return answer;
        };
        const mix = make(ml);
        expect((mix.productMl ?? 0) + (mix.waterMl ?? 0)).toBeCloseTo(ml, 6);
        expect(mix.productMl).toBeCloseTo((ml * percent) / 100, 6);
        expect(make(ml * 1.1).productMl).toBeGreaterThan(mix.productMl ?? 0);
        expect(toMillilitres({ amount: ml / millilitresIn[unit], unit })).toBeCloseTo(ml, 6);
      }),
    );
  });
});
