import { type PackUnit, type Quantity, type UnitSystem, type VolumeUnit, volumeUnits } from "../edition.ts";
import { formatNumber } from "./numbers.ts";
import { formatQuantity, toMillilitres } from "./units.ts";

export interface Packs {
  count: number;
  size: Quantity<PackUnit>;
  /** `2 × 10 L`. */
  text: string;
}

const metricUnits: readonly PackUnit[] = ["ml", "litre"];

/** The packs that hold at least `ml`: the smallest that is enough, else several of the largest. Null without a size. */
export function choosePacks(
  ml: number,
  sizes: readonly Quantity<PackUnit>[],
  system: UnitSystem,
  locale: string,
): Packs | null {
  const inMl = packsIn(sizes, system)
    .flatMap((size) => (isVolume(size) ? [{ size, ml: toMillilitres(size) }] : []))
    .sort((a, b) => a.ml - b.ml);
  const chosen = inMl.find((pack) => pack.ml >= ml) ?? inMl.at(-1);
  if (chosen === undefined) return null;
  return makePacks(Math.max(1, Math.ceil(ml / chosen.ml - 1e-9)), chosen.size, locale);
}

/** The packs that hold at least so many pieces. */
export function choosePieces(
  pieces: number,
  sizes: readonly Quantity<PackUnit>[],
  locale: string,
): Packs | null {
  const packs = sizes.filter(({ unit }) => unit === "piece").sort((a, b) => a.amount - b.amount);
  const size = packs.find(({ amount }) => amount >= pieces) ?? packs.at(-1);
  return size === undefined ? null : makePacks(Math.max(1, Math.ceil(pieces / size.amount)), size, locale);
}

/** The smallest pack, where nothing says how much is needed. */
export function smallestPack(
  sizes: readonly Quantity<PackUnit>[],
  system: UnitSystem,
  locale: string,
): Packs | null {
  const size = packsIn(sizes, system)[0];
  return size === undefined ? null : makePacks(1, size, locale);
}

/** Sizes as the country sells them; all of them where it has none of its own. */
function packsIn(sizes: readonly Quantity<PackUnit>[], system: UnitSystem): readonly Quantity<PackUnit>[] {
  const own = sizes.filter(
    (size) => !isVolume(size) || metricUnits.includes(size.unit) === (system === "metric"),
  );
  return own.length > 0 ? own : sizes;
}

function isVolume(size: Quantity<PackUnit>): size is Quantity<VolumeUnit> {
  return (volumeUnits as readonly string[]).includes(size.unit);
}

function makePacks(count: number, size: Quantity<PackUnit>, locale: string): Packs {
  const one = isVolume(size)
    ? formatQuantity(size, locale)
    : `${formatNumber(size.amount, locale)} ${size.unit === "g" ? "g" : size.amount > 1 ? "pieces" : "piece"}`;
  return { count, size, text: count === 1 ? one : `${formatNumber(count, locale)} × ${one}` };
}
