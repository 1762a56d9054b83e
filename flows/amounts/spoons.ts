import { formatNumber } from "./numbers.ts";
import { millilitresIn } from "./units.ts";

/** A quarter of a teaspoon: less than this no kitchen spoon measures. */
export const leastSpoonMl = millilitresIn.tsp / 4;

/** From this many teaspoons on, steps of so many. */
const steps: readonly (readonly [from: number, step: number])[] = [
  [192, 12],
  [48, 3],
  [12, 1],
  [3, 0.5],
  [1, 0.25],
  [0, 0.125],
];

/** The nearest amount that spoons and cups can measure, in teaspoons; at most an eighth off. */
export function roundToSpoons(ml: number): number {
  const teaspoons = ml / millilitresIn.tsp;
  const step = steps.find(([from]) => teaspoons >= from)?.[1] ?? 0.125;
  return Math.round(teaspoons / step) * step;
}

/** `2 tablespoons and 1½ teaspoons`. */
export function spellSpoons(teaspoons: number): string {
  const cups = Math.floor(teaspoons / 12) / 4;
  const inCups = cups >= 1 ? cups : 0;
  const rest = teaspoons - inCups * 48;
  const tablespoons = Math.floor(rest / 3);
  const parts = [
    spell(inCups, "cup"),
    spell(tablespoons, "tablespoon"),
    spell(rest - tablespoons * 3, "teaspoon"),
  ].filter((part) => part !== "");
  return parts.join(" and ");
}

const fractions: Record<string, string> = {
  "0.125": "⅛",
  "0.25": "¼",
  "0.375": "⅜",
  "0.5": "½",
  "0.625": "⅝",
  "0.75": "¾",
  "0.875": "⅞",
};

function spell(amount: number, name: string): string {
  if (amount === 0) return "";
  const whole = Math.floor(amount);
  const glyph = fractions[String(amount - whole)] ?? "";
  return `${whole === 0 ? "" : whole}${glyph} ${name}${amount > 1 ? "s" : ""}`;
}

/** Millilitres as a syringe, a scale or a jug tells them. */
export function roundMillilitres(ml: number): number {
  const step = ml < 10 ? 0.5 : ml < 100 ? 1 : ml < 1000 ? 5 : 10;
  return Math.round(ml / step) * step;
}

/** `2 teaspoons (10 mL)`. */
export function measureInKitchen(ml: number, locale: string): string {
  return `${spellSpoons(roundToSpoons(ml))} (${formatNumber(roundMillilitres(ml), locale)} mL)`;
}
