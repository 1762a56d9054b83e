import type { HeatNeed, LifeCycle, Repeat } from "../edition.ts";
import type { Flow } from "../flow.ts";
import { checkRoom, DEFAULT_ROOM_CELSIUS, nameRoom, type RoomProblem } from "./room.ts";

export type Units = "metric" | "us";

/** The room a plan is made for. Without a temperature it is the default of 21 °C. */
export interface RoomGiven {
  roomCelsius?: number | undefined;
  units?: Units | undefined;
}

/** When to repeat a remedy against a condition, and why then. */
export interface Schedule {
  ok: true;
  /** Days between two rounds. */
  everyDays: number;
  rounds: number;
  /** "life": from degree-days, held within the table. "standstill": too cold to grow. "table": no figures for its life. */
  basis: "life" | "standstill" | "table";
  /** Days from the stage that survives to the egg-laying adult in this room; null without figures or growth. */
  generationDays: number | null;
  /** The longest interval that lets none lay, in days, before the table has its say; null likewise. */
  longestDays: number | null;
  /** The rounds cover one generation. False in a room so cool that no series could. */
  outlasts: boolean;
  /** Plain words: what survives, how fast it grows here, and what follows. */
  why: string;
  /** The arithmetic in one line; empty when nothing was computed. */
  working: string;
  until: string | null;
  sources: string[];
}

export type ScheduleReading =
  | Schedule
  | RoomProblem
  | { ok: false; code: "NOTHING_TO_REPEAT"; sentence: string };

/** More rounds than this are no plan: a look at the plant says more. */
export const MOST_ROUNDS = 12;

/** Days that a stage takes at a steady temperature; Infinity at or below its threshold, never negative. */
export function developmentDays({ threshold, degreeDays }: HeatNeed, celsius: number): number {
  return celsius > threshold ? degreeDays / (celsius - threshold) : Number.POSITIVE_INFINITY;
}

/**
 * How often and how many times to repeat a remedy. The interval is the whole number of days in which what survives a
 * round cannot lay yet, held within the product type's own interval; the rounds outlast one generation.
 */
export function schedule(
  flow: Flow,
  condition: string,
  remedy: string,
  room: RoomGiven = {},
): ScheduleReading {
  const reading = checkRoom(room.roomCelsius ?? DEFAULT_ROOM_CELSIUS);
  if (!reading.ok) return reading;
  const table = findTable(flow, condition, remedy);
  if (!table) {
    const sentence = "This step is done once, or as often as its label says.";
    return { ok: false, code: "NOTHING_TO_REPEAT", sentence };
  }
  const { pacing } = flow.edition;
  const cycle = pacing?.cycles.find((one) => one.condition === condition);
  const isPaced = pacing?.paced.includes(remedy) === true;
  const name = nameRoom(reading.celsius, room.units ?? "metric");
  if (!cycle || !isPaced) return scheduleByTable(table, isPaced);
  if (reading.celsius <= cycle.threshold) return scheduleStandstill(table, cycle, name);
  return scheduleByLife(table, cycle, reading.celsius, name);
}

interface Table extends Repeat {
  sources: string[];
  isProduct: boolean;
}

/** What extension tables say of this pest, else what the remedy itself says. */
function findTable(flow: Flow, condition: string, remedy: string): Table | undefined {
  const own = flow.remedy(remedy);
  if (!own?.repeat) return undefined;
  const special = flow.edition.pacing?.intervals.find(
    (interval) => interval.condition === condition && interval.remedies.includes(remedy),
  );
  const { everyDays, times, sources } = special ?? { ...own.repeat, sources: own.sources };
  return { everyDays, times, sources, until: own.repeat.until, isProduct: own.product };
}

function scheduleByTable({ everyDays, times, until, sources }: Table, isPaced: boolean): Schedule {
  // How fast it grows is not known, so the short interval and all of the rounds.
  const [every] = everyDays;
  const rounds = isPaced ? times[1] : times[0];
  const known = isPaced ? "We have no tested figures for how fast it grows. " : "";
  return {
    ok: true,
    everyDays: every,
    rounds,
    basis: "table",
    ...{ generationDays: null, longestDays: null, outlasts: true, working: "", until, sources },
    why: `${known}So keep to the usual: ${tellRounds(every, rounds)}.`.replace(/^So k/, "K"),
  };
}

function scheduleStandstill(
  { everyDays, times, until, sources }: Table,
  cycle: LifeCycle,
  room: string,
): Schedule {
  const [, every] = everyDays;
  const [rounds] = times;
  return {
    ok: true,
    everyDays: every,
    rounds,
    basis: "standstill",
    ...{ generationDays: null, longestDays: null, outlasts: false, until },
    why: `At ${room} they stand still. So keep to the usual: ${tellRounds(every, rounds)}. Look again when it is warmer.`,
    working: `No growth at or below ${cycle.threshold} °C.`,
    sources: [...new Set([...cycle.sources, ...sources])],
  };
}

function scheduleByLife(table: Table, cycle: LifeCycle, celsius: number, room: string): Schedule {
  const warmth = Math.min(celsius, cycle.holds[1]);
  const generation = developmentDays(cycle, warmth);
  // Just above the whole life's threshold the open stage may need more warmth than there is: then the whole sets it.
  const open = cycle.open ? Math.min(generation, developmentDays(cycle.open, warmth)) : generation;
  const longest = Math.floor(open);
  const [least, most] = table.everyDays;
  const every = Math.min(most, Math.max(least, longest));
  const needed = 1 + Math.ceil(generation / every);
  const outlasts = needed <= MOST_ROUNDS;
  const rounds = outlasts ? Math.max(needed, table.times[0]) : table.times[1];
  return {
    ok: true,
    everyDays: every,
    rounds,
    basis: "life",
    generationDays: generation,
    longestDays: longest,
    outlasts,
    why: [
      `${cycle.spared} At ${room} they are adults in about ${countDays(generation)}.`,
      outlasts ? `So ${tellRounds(every, rounds)}.` : tellTooLong(every, rounds),
      longest < least ? "In a room this warm some may be faster: look it over in between too." : "",
      outlasts && rounds > table.times[1] ? tellOverUsual(table) : "",
    ]
      .filter((sentence) => sentence !== "")
      .join(" "),
    working: tellWorking(cycle, warmth, { generation, open, longest, every, rounds }, table),
    until: table.until,
    sources: [...new Set([...cycle.sources, ...table.sources])],
  };
}

function tellTooLong(every: number, rounds: number): string {
  return `That is longer than a series can run. So ${tellRounds(every, rounds)}, then look each week.`;
}

function tellOverUsual({ times, until, isProduct }: Table): string {
  const stop = until ? ` Stop when ${until}.` : "";
  const limit = isProduct ? ": go on after that only if the label allows it" : "";
  return `The usual is up to ${times[1]} rounds${limit}.${stop}`;
}

function tellWorking(
  cycle: LifeCycle,
  warmth: number,
  found: { generation: number; open: number; longest: number; every: number; rounds: number },
  { everyDays: [least, most] }: Table,
): string {
  const share = ({ degreeDays, threshold }: HeatNeed, days: number) =>
    `${degreeDays} ÷ (${Math.round(warmth * 10) / 10} − ${threshold}) = ${days.toFixed(1)} days`;
  const { generation, open, longest, every, rounds } = found;
  const parts = [
    `Generation: ${share(cycle, generation)}.`,
    cycle.open ? `Open to treatment: ${share(cycle.open, open)}.` : "",
    `Rounded down ${longest}, usual ${least === most ? least : `${least} to ${most}`}: every ${every} days.`,
    `${rounds} rounds cover ${(rounds - 1) * every} days.`,
  ];
  return parts.filter((part) => part !== "").join(" ");
}

const numberWords = "no once two three four five six seven eight nine ten eleven twelve".split(" ");

function tellRounds(every: number, rounds: number): string {
  if (rounds <= 1) return "once";
  const times = rounds === 2 ? "twice" : `${numberWords[rounds] ?? rounds} times`;
  return `every ${every === 1 ? "day" : `${every} days`}, ${times}`;
}

function countDays(days: number): string {
  const whole = Math.round(days);
  return whole === 1 ? "1 day" : `${whole} days`;
}
