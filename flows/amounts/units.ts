import type { Quantity, UnitSystem, VolumeUnit } from "../edition.ts";
import { formatNumber } from "./numbers.ts";

/** Exact: 1 US gallon is 231 cubic inches and 1 inch is 2.54 cm (NIST Handbook 44, Appendix C: source n56). */
export const millilitresIn: Readonly<Record<VolumeUnit, number>> = {
  ml: 1,
  litre: 1000,
  tsp: 4.92892159375,
  tbsp: 14.78676478125,
  "fl-oz": 29.5735295625,
  cup: 236.5882365,
  quart: 946.352946,
  gallon: 3785.411784,
  // A 32nd of the US bushel of 2150.42 cubic inches: what "quart" means on a bag of potting mix.
  "dry-quart": 1101.220942715,
};
export const unitSource = "n56";

/** What a bottle or can may be given in. */
export const bottleUnits = ["ml", "litre", "fl-oz", "cup", "quart", "gallon"] as const;
export type BottleUnit = (typeof bottleUnits)[number];

export const lengthUnits = ["cm", "in"] as const;
export type LengthUnit = (typeof lengthUnits)[number];

export const temperatureUnits = ["C", "F"] as const;
export type TemperatureUnit = (typeof temperatureUnits)[number];

export const toMillilitres = ({ amount, unit }: Quantity<VolumeUnit>): number => amount * millilitresIn[unit];
export const fromMillilitres = (ml: number, unit: VolumeUnit): number => ml / millilitresIn[unit];

export const toCentimetres = (length: number, unit: LengthUnit): number =>
  unit === "in" ? length * 2.54 : length;
export const fromCentimetres = (cm: number, unit: LengthUnit): number => (unit === "in" ? cm / 2.54 : cm);

export const toCelsius = (degrees: number, unit: TemperatureUnit): number =>
  unit === "F" ? ((degrees - 32) * 5) / 9 : degrees;
export const fromCelsius = (celsius: number, unit: TemperatureUnit): number =>
  unit === "F" ? (celsius * 9) / 5 + 32 : celsius;

export const lengthUnitOf = (system: UnitSystem): LengthUnit => (system === "us" ? "in" : "cm");
export const temperatureUnitOf = (system: UnitSystem): TemperatureUnit => (system === "us" ? "F" : "C");

const names: Readonly<Record<VolumeUnit, [one: string, many: string]>> = {
  ml: ["mL", "mL"],
  litre: ["L", "L"],
  tsp: ["teaspoon", "teaspoons"],
  tbsp: ["tablespoon", "tablespoons"],
  "fl-oz": ["fl oz", "fl oz"],
  cup: ["cup", "cups"],
  quart: ["quart", "quarts"],
  gallon: ["gallon", "gallons"],
  "dry-quart": ["dry quart", "dry quarts"],
};

export function nameUnit(unit: VolumeUnit, amount: number): string {
  return names[unit][amount > 1 ? 1 : 0];
}

/** `1 quart`, `500 mL`. */
export function formatQuantity({ amount, unit }: Quantity<VolumeUnit>, locale: string): string {
  return `${formatNumber(amount, locale)} ${nameUnit(unit, amount)}`;
}

/** A volume of water or mix as a jug tells it: to 50 mL, a tenth of a litre or a litre; to a quarter cup or half a quart. */
export function formatVolume(ml: number, system: UnitSystem, locale: string): string {
  const [unit, step] = jugOf(ml, system);
  const amount = Math.max(step, Math.round(fromMillilitres(ml, unit) / step) * step);
  return formatQuantity({ amount, unit }, locale);
}

function jugOf(ml: number, system: UnitSystem): [VolumeUnit, number] {
  if (system === "metric") {
    if (ml < 975) return ["ml", 50];
    return ["litre", ml < 9950 ? 0.1 : 1];
  }
  if (ml < millilitresIn.quart) return ["cup", 0.25];
  return ml < millilitresIn.gallon * 4 ? ["quart", 0.5] : ["gallon", 0.5];
}

/** Both ends as a jug tells them; one volume where they come out alike. */
export function formatVolumes(least: number, most: number, system: UnitSystem, locale: string): string {
  const [low, high] = [formatVolume(least, system, locale), formatVolume(most, system, locale)];
  return low === high ? low : `${low} to ${high}`;
}
