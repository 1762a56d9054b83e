import type { Answer, Refusal } from "../../flows/amounts/answer.ts";
import { type Leaching, leachPot, type MixToBuy, mixForPot } from "../../flows/amounts/fill-pot.ts";
import { parseNumber } from "../../flows/amounts/numbers.ts";
import { measurePot, namePot, nextPot, type Pot, smallerPot } from "../../flows/amounts/pots.ts";
import { lengthUnitOf } from "../../flows/amounts/units.ts";
import type { UnitSystem } from "../../flows/edition.ts";
import type { Flow } from "../../flows/flow.ts";
import type { Typed } from "./read-request.ts";

/** Steps that go by the pot, by what they need to know. */
const STEPS = {
  bigger: ["pot-up-one-size"],
  smaller: ["downsize-pot", "cut-out-rot", "wash-roots-repot"],
  same: ["repot-fresh-mix", "drain-freely"],
  leach: ["leach-salts"],
} as const;

export interface PotSums {
  /** Whether the loss of roots matters. */
  asksRoots: boolean;
  /** The pot as it is; null until it was told. */
  now: Answer<Pot> | null;
  leaching: Answer<Leaching> | null;
  /** The pot to move to; null where it stays in its own, or until told. */
  next: Answer<{ text: string; newStart?: boolean }> | null;
  mix: Answer<MixToBuy> | null;
  /** For the shopping list. */
  mixMl: number | undefined;
  pot: string | undefined;
}

interface Manner {
  typed: Typed;
  system: UnitSystem;
  locale: string;
}

/** Undefined when no step of the plan goes by the pot. */
export function sumPots(flow: Flow, steps: readonly string[], manner: Manner): PotSums | undefined {
  const has = (ids: readonly string[]) => ids.some((id) => steps.includes(id));
  if (!has(Object.values(STEPS).flat())) return undefined;
  const asksRoots = has(STEPS.smaller);
  const none = { now: null, leaching: null, next: null, mix: null, mixMl: undefined, pot: undefined };
  if (manner.typed.pot === undefined) return { asksRoots, ...none };
  const now = readPot(flow, manner);
  if (!now.ok) return { asksRoots, ...none, now };
  const { pots } = flow.edition;
  const move = asksRoots ? "smaller" : has(STEPS.bigger) ? "bigger" : has(STEPS.same) ? "same" : null;
  const next = move === null || move === "same" ? null : moveOn(flow, move, manner);
  const mix = move === null || (next && !next.ok) ? null : fill(flow, move, now, next, manner);
  return {
    asksRoots,
    now,
    leaching: has(STEPS.leach) ? leachPot({ volume: now.volume, pots, ...mannersOf(manner) }) : null,
    next,
    mix,
    mixMl: mix?.ok ? mix.ml : undefined,
    pot: next?.ok ? next.text : undefined,
  };
}

function mannersOf({ system, locale }: Manner) {
  return { system, locale, unit: lengthUnitOf(system) };
}

function widthOf({ typed, locale }: Manner): number {
  return parseNumber(typed.pot ?? "", locale);
}

/** Measured where all three measures were told, else by its name. */
function readPot(flow: Flow, manner: Manner): Answer<Pot> {
  const { typed, locale } = manner;
  const { "pot-bottom": bottom, "pot-height": height } = typed;
  const top = widthOf(manner);
  if (bottom === undefined && height === undefined)
    return namePot({ size: top, pots: flow.edition.pots, ...mannersOf(manner) });
  const read = (text: string | undefined) => parseNumber(text ?? "", locale);
  return measurePot({ top, bottom: read(bottom), height: read(height), ...mannersOf(manner) });
}

type NextPot = {
  ok: true;
  text: string;
  width: number;
  newStart?: boolean;
  working: string;
  sources: string[];
};

function moveOn(flow: Flow, move: "smaller" | "bigger", manner: Manner): NextPot | Refusal {
  const { pots } = flow.edition;
  const { typed, locale } = manner;
  const asked = { top: widthOf(manner), pots, ...mannersOf(manner) };
  if (move === "smaller")
    return smallerPot({
      ...asked,
      rootLoss: typed.roots === undefined ? 0 : parseNumber(typed.roots, locale),
    });
  const next = nextPot(asked);
  return next.ok ? { ...next, width: next.sold.at(-1) ?? next.widths[1] } : next;
}

function fill(
  flow: Flow,
  move: "smaller" | "bigger" | "same",
  now: Pot,
  next: NextPot | Refusal | null,
  manner: Manner,
): Answer<MixToBuy> {
  const { pots, products } = flow.edition;
  const sizes = products?.find(({ id }) => id === "potting-mix")?.sizes ?? [];
  const into = next?.ok ? namePot({ size: next.width, pots, ...mannersOf(manner) }) : null;
  if (into && !into.ok) return into;
  // Only a plant that moves up keeps its ball of old mix.
  const ball = move === "bigger" ? Math.min(now.volume.least, into?.volume.least ?? 0) : 0;
  return mixForPot({ volume: into?.volume ?? now.volume, ball, sizes, pots, ...mannersOf(manner) });
}
