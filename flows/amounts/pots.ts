import type { PotTable, UnitSystem } from "../edition.ts";
import { type Answer, refuse, refuseOutside } from "./answer.ts";
import { formatNumber, formatRange } from "./numbers.ts";
import { formatVolumes, fromCentimetres, type LengthUnit, toCentimetres, unitSource } from "./units.ts";

const widthRange = [3, 100] as const;
const heightRange = [3, 100] as const;
const sizes = "between 3 and 100 cm (1.2 and 39 in)";

/** Millilitres. Both are the same where the pot was measured. */
export interface PotVolume {
  least: number;
  most: number;
}

export interface Pot {
  /** Width across the top, in cm. */
  top: number;
  volume: PotVolume;
  /** `1.9 L`. */
  text: string;
}

interface Manner {
  unit: LengthUnit;
  system: UnitSystem;
  locale: string;
}

export interface Measures {
  /** Inside widths and the height of the soil space. */
  top: number;
  bottom: number;
  height: number;
}

/** The volume of a pot that narrows evenly, from its inside measures. */
export function measurePot({ top, bottom, height, unit, system, locale }: Measures & Manner): Answer<Pot> {
  const [D, d, h] = [top, bottom, height].map((length) => toCentimetres(length, unit)) as [
    number,
    number,
    number,
  ];
  const refusal = refuseWidth(D) ?? refuseWidth(d) ?? refuseHeight(h);
  if (refusal) return refusal;
  const ml = coneVolume(D, d, h);
  const text = formatVolumes(ml, ml, system, locale);
  const [a, b, c] = [top, bottom, height].map((length) => formatNumber(length, locale, 1));
  return {
    ok: true,
    top: D,
    volume: { least: ml, most: ml },
    text,
    working: `π ÷ 12 × ${c} × (${a}² + ${a} × ${b} + ${b}²) with all in ${unit}: ${text}.`,
    sources: [unitSource],
  };
}

/** Volume of a truncated cone from its two widths and its height; cubic in the unit given. */
export function coneVolume(top: number, bottom: number, height: number): number {
  return (Math.PI / 12) * height * (top * top + top * bottom + bottom * bottom);
}

/** The volume of a pot known by its name only, such as a 6-inch pot: a range, since such pots differ widely. */
export function namePot({
  size,
  pots,
  unit,
  system,
  locale,
}: { size: number; pots: PotTable | undefined } & Manner): Answer<Pot> {
  const top = toCentimetres(size, unit);
  const refusal = refuseWidth(top);
  if (refusal) return refusal;
  const row = [...(pots?.nominal ?? [])].sort((a, b) => Math.abs(a.cm - top) - Math.abs(b.cm - top))[0];
  if (row === undefined)
    return refuse("POT_SIZES_MISSING", "Measure the pot: no list of pot sizes is at hand.");
  // Rows are named by whole cm or whole inches: a row within half a cm is the same pot.
  const scale = Math.abs(row.cm - top) <= 0.5 ? 1 : (top / row.cm) ** 3;
  const [least, most] = row.litres.map((litres) => litres * 1000 * scale) as [number, number];
  const text = formatVolumes(least, most, system, locale);
  const rowName = `${formatNumber(fromCentimetres(row.cm, unit), locale, 0)} ${unit}`;
  const published = `Pots sold as ${rowName} are published with ${formatRange(...row.litres, locale)} L`;
  return {
    ok: true,
    top,
    volume: { least, most },
    text,
    working: scale === 1 ? `${published}.` : `${published}; scaled by the cube of the width: ${text}.`,
    sources: row.sources,
  };
}

function refuseWidth(cm: number) {
  return refuseOutside(cm, widthRange, "POT_RANGE", `Give widths of the pot ${sizes}.`);
}

function refuseHeight(cm: number) {
  return refuseOutside(cm, heightRange, "POT_RANGE", `Give a height of the pot ${sizes}.`);
}

export interface NextPot {
  /** Widths in the unit asked for, from the least to the most. */
  widths: readonly [number, number];
  /** Those of them that are sold. */
  sold: number[];
  text: string;
}

interface WidthRequest {
  /** Width across the top. */
  top: number;
  pots: PotTable | undefined;
  unit: LengthUnit;
  locale: string;
}

/** One size up, as the rule of thumb has it: never a pot that is much too big. */
export function nextPot({ top, pots, unit, locale }: WidthRequest): Answer<NextPot> {
  const cm = toCentimetres(top, unit);
  const refusal = refuseWidth(cm);
  if (refusal) return refusal;
  if (!pots) return refuse("POT_SIZES_MISSING", "No list of pot sizes is at hand.");
  const { below, small, large, sources } = pots.wider;
  // A shopper's 10 inches must not fall below 25.4 cm by a rounding error.
  const step = cm + 1e-9 < below ? small : large;
  const widths = step.map((wider) => roundWidth(fromCentimetres(cm + wider, unit))) as [number, number];
  const sold = soldIn(pots, unit).filter((size) => size >= widths[0] && size <= widths[1]);
  const [least, most] = step.map((wider) =>
    formatNumber(roundWidth(fromCentimetres(wider, unit)), locale, 1),
  );
  const text = `${formatRange(...widths, locale, 1)} ${unit}`;
  return {
    ok: true,
    widths,
    sold,
    text,
    working: `${formatNumber(top, locale, 1)} ${unit} and ${least} to ${most} ${unit} more: ${text} across the top.`,
    sources: [...new Set([...sources, ...pots.sold.sources])],
  };
}

/** To half a cm or half an inch, as a tape tells it. */
function roundWidth(width: number): number {
  return Math.round(width * 2) / 2;
}

function soldIn({ sold }: PotTable, unit: LengthUnit): number[] {
  return unit === "in" ? sold.inches : sold.cm;
}

export interface SmallerPot {
  /** Width in the unit asked for; one that is sold where there is one. */
  width: number;
  /** So much is lost that a new start is worth a thought. */
  newStart: boolean;
  text: string;
}

const lossRange = [0, 90] as const;

/** The pot for what is left of the roots: soil in proportion to roots, so the width shrinks by the cube root. */
export function smallerPot({
  top,
  rootLoss,
  pots,
  unit,
  locale,
}: WidthRequest & { /** Percent of the roots cut away. */ rootLoss: number }): Answer<SmallerPot> {
  const refusal =
    refuseWidth(toCentimetres(top, unit)) ??
    refuseOutside(
      rootLoss,
      lossRange,
      "ROOT_LOSS_RANGE",
      "Give a loss between 0 and 90 percent of the roots.",
    );
  if (refusal) return refusal;
  if (!pots) return refuse("POT_SIZES_MISSING", "No list of pot sizes is at hand.");
  const exact = top * Math.cbrt(1 - rootLoss / 100);
  const width = soldIn(pots, unit).findLast((size) => size <= exact + 0.25) ?? roundWidth(exact);
  const fitting = rootLoss === 0 ? top : Math.min(top, width);
  const text = `${formatNumber(fitting, locale, 1)} ${unit}`;
  const left = formatNumber(1 - rootLoss / 100, locale);
  return {
    ok: true,
    width: fitting,
    newStart: rootLoss >= pots.newStartFrom.percent,
    text,
    working: `${formatNumber(top, locale, 1)} ${unit} × ∛${left} = ${formatNumber(exact, locale, 1)} ${unit}, so a pot of ${text}.`,
    sources: [...new Set([...pots.newStartFrom.sources, ...pots.sold.sources, "from-memory"])],
  };
}
