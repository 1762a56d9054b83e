import { describe, expect, it } from "vitest";
import { mixBottle, usualBottles } from "../../../flows/amounts/mix.ts";
import { lengthUnitOf, temperatureUnitOf } from "../../../flows/amounts/units.ts";
import { readContent } from "../../../flows/content/read-content.ts";
import { unitSystems } from "../../../flows/edition.ts";
import { shippedFlow } from "../../support/shipped-flow.ts";
import { loadFiles, tinyContent } from "../content/content-files.ts";

const tiny = loadFiles(tinyContent);
const soap = "- { id: soap, name: soap, kind: concentrate, label: The label. }\n";

function problemsWith(files: Record<string, string>): string[] {
  return readContent({ ...tiny, ...files }).problems.map(({ code, sentence }) => `${code} ${sentence}`);
}

describe("the product list", () => {
  it("may be missing, and so may the pots", () => {
    const { edition } = readContent(tiny);
    expect(edition?.products).toEqual([]);
    expect(edition?.pots).toBeUndefined();
  });

  it.each([
    [
      "a rate for what is ready to use",
      "kind: ready-to-use, label: L., rates: [{ id: r, use: u, percent: 2, sources: [p1] }]",
      /never diluted/,
    ],
    ["a concentrate without its label", "kind: concentrate", /label comes first/],
    ["a homemade mix of nothing", "kind: homemade", /made_from/],
    [
      "a rate of two kinds",
      "kind: concentrate, label: L., rates: [{ id: r, use: u, percent: 2, measure: { amount: 1, unit: tsp }, water: { amount: 1, unit: cup }, sources: [p1] }]",
      /either percent/,
    ],
    [
      "parts of spoons",
      "kind: concentrate, label: L., rates: [{ id: r, use: u, measure: { amount: 1, unit: part }, water: { amount: 1, unit: cup }, sources: [p1] }]",
      /parts on both sides/,
    ],
    [
      "a rate without a source",
      "kind: concentrate, label: L., rates: [{ id: r, use: u, percent: 2, sources: [] }]",
      /sources/,
    ],
    [
      "a rate above half",
      "kind: concentrate, label: L., rates: [{ id: r, use: u, percent: 60, sources: [p1] }]",
      /above 50/,
    ],
  ])("does not take %s", (_, keys, sentence) => {
    const problems = problemsWith({ "products.yaml": `- { id: soap, name: soap, ${keys} }` });
    expect(problems).toEqual([expect.stringMatching(sentence)]);
    expect(problems[0]).toMatch(/^VALUE_BAD /);
  });

  it("follows every id: shelves, stand-ins, ingredients and sources", () => {
    const shop = `${tiny["shop.yaml"]}\nshelves: { sope: aisle 1 }\n`;
    expect(problemsWith({ "products.yaml": soap, "shop.yaml": shop })).toEqual([
      "PRODUCT_UNKNOWN There is no product “sope”.",
    ]);
    const other = "- { id: spray, name: spray, kind: supply, instead_of: sope, sources: [p9] }\n";
    expect(
      problemsWith({ "products.yaml": soap + other })
        .map((line) => line.split(" ")[0])
        .sort(),
    ).toEqual(["PRODUCT_UNKNOWN", "SOURCE_UNKNOWN"]);
    expect(problemsWith({ "products.yaml": soap + soap })).toEqual([
      "ID_TWICE The id “soap” is taken already.",
    ]);
  });
});

describe("the shipped products", () => {
  const products = shippedFlow().edition.products ?? [];

  it("can all be worked out for the usual bottles", () => {
    for (const system of unitSystems) {
      for (const bottle of usualBottles[system]) {
        for (const product of products) {
          const madeFrom = products.find(({ id }) => id === product.madeFrom);
          expect(mixBottle({ product, madeFrom, bottle, locale: "en" }), product.id).toMatchObject({
            ok: true,
          });
        }
      }
    }
  });

  it("cite a source or own up to memory for every rate", () => {
    for (const { id, rates } of products)
      for (const { sources } of rates) expect(sources.length, id).toBeGreaterThan(0);
  });

  it("come with units for lengths and temperatures in each system", () => {
    expect(unitSystems.map((system) => [lengthUnitOf(system), temperatureUnitOf(system)])).toEqual([
      ["cm", "C"],
      ["in", "F"],
    ]);
  });
});
