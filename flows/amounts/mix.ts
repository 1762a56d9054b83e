import type { Product, Quantity, Rate, UnitSystem } from "../edition.ts";
import { type Answer, refuse, refuseOutside } from "./answer.ts";
import { formatNumber } from "./numbers.ts";
import { leastSpoonMl, measureInKitchen, roundMillilitres } from "./spoons.ts";
import { type BottleUnit, formatQuantity, millilitresIn, toMillilitres, unitSource } from "./units.ts";

/** Bottles from a travel spray to a watering can, in mL. */
const bottleRange = [50, 20_000] as const;
const bottleSentence = "Give a bottle between 50 mL and 20 L (2 fl oz and 5 gallons).";

export interface Mix {
  way: "as-is" | "by-label" | "mix";
  /** What goes into the bottle, unrounded; null where only the label can say. */
  productMl: number | null;
  waterMl: number | null;
  /** Share of the finished mix, in percent by volume. */
  percent: number | null;
  /** For a spoon or a jug: `2 teaspoons (10 mL)`; null where nothing is measured. */
  measure: string | null;
  /** One line of instruction. */
  instruction: string;
  /** Says that the label comes first; null for what has no label rate. */
  label: string | null;
}

export interface MixRequest {
  product: Product;
  /** What the homemade mix is made from; its name is used. */
  madeFrom?: Product | undefined;
  bottle: Quantity<BottleUnit>;
  /** Id of one of the product's rates; the first one without it. */
  rate?: string | undefined;
  locale: string;
}

/** What to measure for a bottle filled to its mark. What is ready to use is never diluted. */
export function mixBottle({ product, madeFrom, bottle, rate: rateId, locale }: MixRequest): Answer<Mix> {
  const bottleMl = toMillilitres(bottle);
  const outside = refuseOutside(bottleMl, bottleRange, "BOTTLE_RANGE", bottleSentence);
  if (outside) return outside;
  const { kind, label, rates, sources } = product;
  if (kind === "ready-to-use" || kind === "supply") {
    const instruction = `Use ${product.name} as it is. Never dilute it.`;
    const working = "It is ready to use: nothing to mix.";
    const measured = { productMl: bottleMl, waterMl: 0, percent: 100, measure: null };
    return { ok: true, way: "as-is", ...measured, instruction, label, working, sources };
  }
  const rate = rateId === undefined ? rates[0] : rates.find(({ id }) => id === rateId);
  if (rate === undefined && rateId !== undefined)
    return refuse("RATE_UNKNOWN", `There is no rate “${rateId}” for ${product.name}.`);
  if (rate === undefined) {
    const measured = { productMl: null, waterMl: null, percent: null, measure: null };
    const instruction = `Measure ${product.name} as its label says.`;
    const working = "No published rate fits every product: only the label can say.";
    return { ok: true, way: "by-label", ...measured, instruction, label, working, sources };
  }
  return mixAtRate({ name: (madeFrom ?? product).name, label, rate, bottle, locale });
}

interface RateRequest {
  name: string;
  label: string | null;
  rate: Rate;
  bottle: Quantity<BottleUnit>;
  locale: string;
}

function mixAtRate({ name, label, rate, bottle, locale }: RateRequest): Answer<Mix> {
  const bottleMl = toMillilitres(bottle);
  const share = shareOf(rate);
  const productMl = bottleMl * share;
  if (productMl < leastSpoonMl) {
    const leastMl = Math.ceil(leastSpoonMl / share / 50) * 50;
    const sentence = `That is less than a quarter of a teaspoon. Mix at least ${formatNumber(leastMl, locale)} mL (${formatNumber(leastMl / millilitresIn["fl-oz"], locale, 1)} fl oz).`;
    return refuse("TOO_LITTLE", sentence);
  }
  const measure = measureInKitchen(productMl, locale);
  const full = formatQuantity(bottle, locale);
  const inMl =
    bottle.unit === "ml" ? full : `${full} (${formatNumber(roundMillilitres(bottleMl), locale)} mL)`;
  return {
    ok: true,
    way: "mix",
    productMl,
    waterMl: bottleMl - productMl,
    percent: share * 100,
    measure,
    instruction: `Put in ${measure} of ${name}. Fill up with water to ${full}.`,
    label,
    working: `${spellRate(rate, locale)}: ${inMl} × ${formatNumber(share * 100, locale)} % = ${formatNumber(productMl, locale, 1)} mL, so ${measure}.`,
    sources: [...new Set([...rate.sources, unitSource])],
  };
}

/** The product's share of the finished mix, from 0 to 1. */
export function shareOf({ strength }: Rate): number {
  if ("percent" in strength) return strength.percent / 100;
  const part = sizeOf(strength.measure);
  return part / (part + sizeOf(strength.water));
}

function sizeOf({ amount, unit }: Quantity<keyof typeof millilitresIn | "part">): number {
  return unit === "part" ? amount : amount * millilitresIn[unit];
}

function spellRate({ strength }: Rate, locale: string): string {
  if ("percent" in strength) return `${formatNumber(strength.percent, locale)} % of the mix`;
  return `${spellSide(strength.measure, locale)} to ${spellSide(strength.water, locale)} of water`;
}

function spellSide({ amount, unit }: Quantity<keyof typeof millilitresIn | "part">, locale: string): string {
  if (unit !== "part") return formatQuantity({ amount, unit }, locale);
  return `${formatNumber(amount, locale)} ${amount > 1 ? "parts" : "part"}`;
}

/** Bottle sizes that people have, to offer in a form: three in each system. */
export const usualBottles: Readonly<Record<UnitSystem, readonly Quantity<BottleUnit>[]>> = {
  metric: [
    { amount: 500, unit: "ml" },
    { amount: 750, unit: "ml" },
    { amount: 1, unit: "litre" },
  ],
  us: [
    { amount: 16, unit: "fl-oz" },
    { amount: 24, unit: "fl-oz" },
    { amount: 1, unit: "quart" },
  ],
};

/** The bottle to reckon with where none was told: a liter or a quart. */
export function usualBottle(system: UnitSystem): Quantity<BottleUnit> {
  return usualBottles[system].at(-1) ?? { amount: 1, unit: "litre" };
}
