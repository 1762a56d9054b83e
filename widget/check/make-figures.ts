import { type AirReading, readAir } from "../../flows/amounts/air.ts";
import type { Answer } from "../../flows/amounts/answer.ts";
import { mixBottle, usualBottle } from "../../flows/amounts/mix.ts";
import { parseNumber } from "../../flows/amounts/numbers.ts";
import { listShopping, type ShoppingList } from "../../flows/amounts/shopping.ts";
import { type BottleUnit, bottleUnits, fromCelsius } from "../../flows/amounts/units.ts";
import { type CivilDate, isCaseDay } from "../../flows/calendar/civil-date.ts";
import { type CalendarDay, paceStep, planDays } from "../../flows/calendar/make-calendar.ts";
import { DEFAULT_ROOM_CELSIUS, readRoom } from "../../flows/calendar/room.ts";
import type { Schedule } from "../../flows/calendar/schedule.ts";
import type { Case } from "../../flows/case.ts";
import type { NumberName } from "../../flows/case-link.ts";
import { type Product, type Quantity, type UnitSystem, unitSystems } from "../../flows/edition.ts";
import { placeOf } from "../../flows/place.ts";
import type { Report } from "../views/report.ts";
import { type PotSums, sumPots } from "./pot-sums.ts";
import type { Typed } from "./read-request.ts";

/** A value to reckon with, and the sentence to say when what was typed is none: then a usual value stands in. */
export interface Given<T> {
  value: T;
  problem: string | null;
}

/** Pace of a step that repeats, with its days. */
export interface Pace {
  schedule: Schedule;
  dates: CivilDate[];
}

/** What to measure for one use of a product. */
export interface MixLine {
  /** Id of the product type. */
  product: string;
  /** The bottle for it: its own, else the one for all. */
  bottle: Given<Quantity<BottleUnit>>;
  /** Reads after "for"; null where there is one rate only. */
  use: string | null;
  mix: ReturnType<typeof mixBottle>;
}

/** Dates and amounts of a plan, for this room and these tools. */
export interface Figures {
  typed: Typed;
  system: UnitSystem;
  locale: string;
  /** IANA name of the branch's time zone. */
  timeZone: string;
  /** °C. */
  room: Given<number>;
  start: Given<CivilDate>;
  bottle: Given<Quantity<BottleUnit>>;
  /** Treatments and looks, in order. */
  days: CalendarDay[];
  paces: ReadonlyMap<string, Pace>;
  mixes: ReadonlyMap<string, MixLine[]>;
  /** Undefined where no step is about the air; null until the weather was told. */
  air: Answer<AirReading> | null | undefined;
  /** Undefined where no step is about the pot. */
  pots: PotSums | undefined;
  shopping: ShoppingList;
}

type Settings = Pick<Figures, "typed" | "system" | "locale" | "timeZone" | "room" | "start" | "bottle">;

const AIR_STEP = "raise-humidity";

/** `today` stands in for a first day that was not told. */
export function makeFigures(report: Report, kase: Case, typed: Typed, today: CivilDate): Figures {
  const { flow, plan } = report;
  const settings = readSettings(report, typed, today);
  const { system, locale, room, start, bottle } = settings;
  const wishes = { start: start.value, roomCelsius: room.value, units: system, locale };
  const steps = plan.steps.map(({ remedy }) => remedy);
  const every = planDays(flow, kase, { ...wishes, remedies: steps });
  const days = planDays(flow, kase, wishes);
  const paces = new Map<string, Pace>();
  for (const step of plan.steps) {
    const schedule = paceStep(flow, step, wishes);
    const dates = every.filter((day) => day.step === step.remedy).map(({ date }) => date);
    if (schedule && dates.length > 0) paces.set(step.remedy, { schedule, dates });
  }
  const pots = sumPots(flow, steps, settings);
  const mixes = mixSteps(report, settings);
  const chosen = new Set(days.map(({ step }) => step));
  return {
    ...settings,
    days,
    paces,
    mixes,
    air: steps.includes(AIR_STEP) ? weighAir(report, settings) : undefined,
    pots,
    shopping: listShopping({
      // Of several ways to the same end only the first is bought for.
      steps: plan.steps.filter(({ remedy }) => !paces.has(remedy) || chosen.has(remedy)),
      edition: flow.edition,
      ...{ system, locale, bottle: bottle.value },
      bottles: Object.fromEntries(
        [...mixes.values()].flat().map((line) => [line.product, line.bottle.value]),
      ),
      rounds: Object.fromEntries([...paces].map(([remedy, { schedule }]) => [remedy, schedule.rounds])),
      mixMl: pots?.mixMl,
      pot: pots?.pot,
    }),
  };
}

/** What was typed, or what is usual. A number that cannot be is told and stood in for. */
export function readSettings(report: Report, typed: Typed, today: CivilDate): Settings {
  const { units, locale, timeZone } = placeOf(report.flow.edition.shop, report.branch);
  const system = unitSystems.find((one) => one === typed.units) ?? units;
  return {
    ...{ typed, system, locale, timeZone },
    room: readWarmth(typed.room, system),
    start: readStart(typed.start, today),
    bottle: readBottle(typed, ["bottle", "bottle-unit"], usualBottle(system), locale),
  };
}

function readWarmth(text: string | undefined, system: UnitSystem): Given<number> {
  const room = readRoom(text ?? "", system);
  return room.ok
    ? { value: room.celsius, problem: null }
    : { value: DEFAULT_ROOM_CELSIUS, problem: room.sentence };
}

function readStart(text: string | undefined, today: CivilDate): Given<CivilDate> {
  if (text === undefined) return { value: today, problem: null };
  if (isCaseDay(text)) return { value: text, problem: null };
  return { value: today, problem: "Give the first day as year-month-day, from 2024-01-01 on." };
}

function readBottle(
  typed: Typed,
  [amountName, unitName]: readonly [NumberName, NumberName],
  usual: Quantity<BottleUnit>,
  locale: string,
): Given<Quantity<BottleUnit>> {
  const amount = typed[amountName];
  if (amount === undefined) return { value: usual, problem: null };
  const metric = usual.unit === "ml" || usual.unit === "litre";
  const unit = bottleUnits.find((one) => one === typed[unitName]) ?? (metric ? "ml" : "fl-oz");
  const value = { amount: parseNumber(amount, locale), unit };
  // Only the range matters here: something that is used as it is can be in any bottle of that range.
  const tried = mixBottle({ product: water, bottle: value, locale });
  return tried.ok ? { value, problem: null } : { value: usual, problem: tried.sentence };
}

const water: Product = {
  ...{ id: "water", name: "water", kind: "supply", atHome: true, madeFrom: null, insteadOf: null },
  ...{ rates: [], label: null, sizes: [], shelf: null, sources: [] },
};

/** The bottle for a product type. What cannot be read leaves the one for all in its place. */
function bottleFor(product: string, { typed, bottle, locale }: Settings): Given<Quantity<BottleUnit>> {
  const names = [`bottle.${product}`, `bottle-unit.${product}`] as const;
  return typed[names[0]] === undefined ? bottle : readBottle(typed, names, bottle.value, locale);
}

/** Steps that use something with a rate, and every chemical one. */
function mixSteps({ flow, plan }: Report, settings: Settings): Map<string, MixLine[]> {
  const products = new Map((flow.edition.products ?? []).map((product) => [product.id, product]));
  const mixes = new Map<string, MixLine[]>();
  for (const { remedy: id } of plan.steps) {
    const remedy = flow.remedy(id);
    const lines = (remedy?.uses ?? []).flatMap((use) => {
      const product = products.get(use);
      if (!product || product.kind === "supply") return [];
      if (product.rates.length === 0 && remedy?.method !== "chemical") return [];
      const madeFrom = product.madeFrom ? products.get(product.madeFrom) : undefined;
      const bottle = bottleFor(product.id, settings);
      const rates = product.rates.length > 1 ? product.rates : [undefined];
      return rates.map((rate) => ({
        product: product.id,
        bottle,
        use: rate?.use ?? null,
        mix: mixBottle({ product, madeFrom, bottle: bottle.value, rate: rate?.id, locale: settings.locale }),
      }));
    });
    if (lines.length > 0) mixes.set(id, lines);
  }
  return mixes;
}

function weighAir({ host }: Report, { typed, system, locale, room }: Settings): Answer<AirReading> | null {
  const { outdoor, "outdoor-humidity": outdoorHumidity } = typed;
  if (outdoor === undefined && outdoorHumidity === undefined) return null;
  const unit = system === "us" ? "F" : "C";
  return readAir({
    outdoor: parseNumber(outdoor ?? "", locale),
    outdoorHumidity: parseNumber(outdoorHumidity ?? "", locale),
    room: fromCelsius(room.value, unit),
    ...{ unit, locale },
    want: host?.humidity ?? "medium",
  });
}
