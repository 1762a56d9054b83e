import type { PackUnit, PotTable, Quantity, UnitSystem } from "../edition.ts";
import { type Answer, refuse } from "./answer.ts";
import { formatNumber, formatRange } from "./numbers.ts";
import { choosePacks, type Packs } from "./packs.ts";
import type { PotVolume } from "./pots.ts";
import { formatVolume, formatVolumes, fromMillilitres } from "./units.ts";

interface Manner {
  pots: PotTable | undefined;
  system: UnitSystem;
  locale: string;
}

export interface MixToBuy {
  /** Enough for the largest pot of that name, settling included. */
  ml: number;
  text: string;
  bags: Packs | null;
}

/** Potting mix for a pot. `ball` is what the root ball takes up already, in mL. */
export function mixForPot({
  volume,
  ball = 0,
  sizes,
  pots,
  system,
  locale,
}: {
  volume: PotVolume;
  ball?: number;
  /** Sizes of the bags that are sold. */
  sizes: readonly Quantity<PackUnit>[];
} & Manner): Answer<MixToBuy> {
  if (!pots) return refuse("POT_SIZES_MISSING", "No list of pot sizes is at hand.");
  const { percent, sources } = pots.settling;
  const space = Math.max(0, volume.most - ball);
  const ml = space * (1 + percent[1] / 100);
  const text = tellMix(ml, system, locale);
  const pot = formatVolume(space, system, locale);
  return {
    ok: true,
    ml,
    text,
    bags: choosePacks(ml, sizes, system, locale),
    working: `${pot} to fill and ${formatNumber(percent[1], locale)} % for settling: ${text}.`,
    sources,
  };
}

/** Mix is sold by the litre or the dry quart. */
function tellMix(ml: number, system: UnitSystem, locale: string): string {
  if (system === "metric") return formatVolume(ml, system, locale);
  const quarts = Math.max(0.5, Math.ceil(fromMillilitres(ml, "dry-quart") * 2) / 2);
  return `${formatNumber(quarts, locale)} ${quarts > 1 ? "quarts" : "quart"} (dry)`;
}

export interface Leaching {
  /** Millilitres of water: by those who ask for less and by those who ask for more. */
  water: PotVolume;
  /** Rounds of one pot volume each. */
  passes: readonly [number, number];
  text: string;
}

/** Water to flush salts out: so many pot volumes, one at a time. */
export function leachPot({ volume, pots, system, locale }: { volume: PotVolume } & Manner): Answer<Leaching> {
  if (!pots) return refuse("POT_SIZES_MISSING", "No list of pot sizes is at hand.");
  const { potVolumes, sources } = pots.leaching;
  const [fewer, more] = potVolumes;
  const water = { least: volume.least * fewer, most: volume.most * fewer };
  const text = formatVolumes(water.least, water.most, system, locale);
  const pot = formatVolumes(volume.least, volume.most, system, locale);
  const passes = [Math.ceil(fewer), Math.ceil(more)] as const;
  const asMuch = formatVolumes(volume.least * more, volume.most * more, system, locale);
  return {
    ok: true,
    water,
    passes,
    text,
    working: `The pot holds ${pot}, times ${formatNumber(fewer, locale)}: ${text}, in ${formatRange(...passes, locale)} rounds. One source asks for ${formatNumber(more, locale)} times (${asMuch}).`,
    sources,
  };
}
