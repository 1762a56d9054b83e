import { describe, expect, it } from "vitest";
import { choosePacks, choosePieces, smallestPack } from "../../../flows/amounts/packs.ts";
import { listShopping, type ShoppingRequest } from "../../../flows/amounts/shopping.ts";
import type { PlanStep } from "../../../flows/plan.ts";
import { shippedFlow } from "../../support/shipped-flow.ts";

const { edition } = shippedFlow();

function plan(...remedies: string[]): PlanStep[] {
  return remedies.map((remedy) => ({ remedy, treats: [], phase: "today", cautions: [], labelIsLaw: false }));
}

function shop(request: Partial<ShoppingRequest> & Pick<ShoppingRequest, "steps">) {
  return listShopping({ edition, system: "us", locale: "en", ...request });
}

const ids = (items: readonly { product: string }[]) => items.map(({ product }) => product);

describe("listShopping", () => {
  it("splits what is probably at home from what to buy, each named once, in the order of the plan", () => {
    const list = shop({ steps: plan("isolate", "soap-spray", "neem-spray", "inspect-weekly") });
    expect(ids(list.toBuy)).toEqual(["insecticidal-soap-concentrate", "eye-cover", "neem-concentrate"]);
    expect(ids(list.atHome)).toEqual(["saucer", "spray-bottle", "gloves", "measuring-spoons", "flashlight"]);
    expect(list.atHome.find(({ product }) => product === "gloves")?.remedies).toEqual([
      "soap-spray",
      "neem-spray",
    ]);
  });

  it("counts the bottles of all rounds and picks the pack", () => {
    const bottle = { amount: 1, unit: "quart" } as const;
    const [soap] = shop({ steps: plan("soap-spray"), bottle, rounds: { "soap-spray": 4 } }).toBuy;
    expect(soap).toMatchObject({
      orElse: ["ready-to-use insecticidal soap spray"],
      quantity: "8 fl oz",
      shelf: "aisle 2, plant care",
      working: "4 × 19 mL = 76 mL.",
      sources: ["n47", "n48", "n51", "n56"],
    });
    const can = { amount: 2, unit: "gallon" } as const;
    expect(shop({ steps: plan("soap-spray"), bottle: can }).toBuy[0]?.quantity).toBe("2 × 16 fl oz");
    expect(shop({ steps: plan("soap-spray"), bottle, system: "metric" }).toBuy[0]?.quantity).toBe("250 mL");
  });

  it("lists what a homemade mix is made from, with the dabs that use it too", () => {
    const steps = plan("alcohol-swab", "alcohol-spray");
    const { atHome } = shop({ steps, bottle: { amount: 500, unit: "ml" }, rounds: { "alcohol-spray": 4 } });
    expect(atHome[0]).toMatchObject({
      product: "rubbing-alcohol",
      remedies: ["alcohol-swab", "alcohol-spray"],
      working: "4 × 50 mL = 200 mL.",
      quantity: "8 fl oz",
    });
  });

  it("takes the mix and the pot from what was worked out", () => {
    const { toBuy } = shop({ steps: plan("pot-up-one-size"), mixMl: 6000, pot: "7 to 8 in" });
    expect(toBuy).toMatchObject([
      { product: "pot-with-holes", quantity: "7 to 8 in", shelf: "aisle 4, pots" },
      { product: "potting-mix", quantity: "8 dry quarts", working: "6 L of mix, settling included." },
    ]);
  });

  it("counts cards by rounds, and leaves out what no one measures", () => {
    expect(shop({ steps: plan("sticky-cards"), rounds: { "sticky-cards": 6 } }).toBuy[0]).toMatchObject({
      quantity: "10 pieces",
      working: "One for each round: 6.",
    });
    expect(shop({ steps: plan("raise-humidity") }).toBuy).toMatchObject([
      { quantity: null },
      { quantity: null },
    ]);
    expect(shop({ steps: plan("leave-alone", "no-such-remedy") })).toEqual({ atHome: [], toBuy: [] });
  });

  it("knows nothing of products in an edition from before there were any", () => {
    const old = { remedies: edition.remedies, shop: edition.shop };
    expect(shop({ steps: plan("soap-spray"), edition: old })).toEqual({ atHome: [], toBuy: [] });
  });

  it("has products for every remedy that needs something from a shop", () => {
    const without = edition.remedies.filter(
      ({ needs, uses }) => needs.length > 0 && (uses ?? []).length === 0,
    );
    // Water, tissue paper, a hand vacuum: nothing to buy for a plant.
    expect(without.map(({ id }) => id)).toEqual([
      "leach-salts",
      "low-fluoride-water",
      "move-from-draft",
      "soak-dry-ball",
      "tepid-water-off-leaves",
      "vacuum-fliers",
    ]);
    for (const product of edition.products ?? []) {
      const used = edition.remedies.some(({ uses }) => uses?.includes(product.id));
      const source = edition.products?.some(({ madeFrom }) => madeFrom === product.id);
      expect(used || source || product.insteadOf !== null, product.id).toBe(true);
    }
  });

  it("never lists a pesticide for a step that is not in the plan", () => {
    for (const remedy of edition.remedies) {
      const { atHome, toBuy } = shop({ steps: plan(remedy.id) });
      const allowed = new Set(
        (remedy.uses ?? []).map((id) => edition.products?.find((one) => one.id === id)?.madeFrom ?? id),
      );
      expect(new Set(ids([...atHome, ...toBuy]))).toEqual(allowed);
    }
  });
});

describe("packs", () => {
  const sizes = [
    { amount: 500, unit: "ml" },
    { amount: 1, unit: "litre" },
    { amount: 16, unit: "fl-oz" },
  ] as const;

  it("are the smallest that is enough, else several of the largest, in the units of the country", () => {
    expect(choosePacks(500, sizes, "metric", "en")).toMatchObject({ count: 1, text: "500 mL" });
    expect(choosePacks(501, sizes, "metric", "en")).toMatchObject({ text: "1 L" });
    expect(choosePacks(2500, sizes, "metric", "de")).toMatchObject({ count: 3, text: "3 × 1 L" });
    expect(choosePacks(400, sizes, "us", "en")).toMatchObject({ text: "16 fl oz" });
    expect(choosePacks(400, sizes.slice(0, 2), "us", "en")).toMatchObject({ text: "500 mL" });
    expect(choosePacks(1, [], "us", "en")).toBeNull();
    expect(choosePieces(7, [{ amount: 5, unit: "piece" }], "en")).toMatchObject({
      count: 2,
      text: "2 × 5 pieces",
    });
    expect(choosePieces(7, sizes, "en")).toBeNull();
    expect(smallestPack([{ amount: 100, unit: "g" }], "us", "en")).toMatchObject({ text: "100 g" });
  });
});
