import type { Case } from "../case.ts";
import { writeCode } from "../case-code.ts";
import { writeLink } from "../case-link.ts";
import type { Remedy } from "../edition.ts";
import type { Flow } from "../flow.ts";
import { makePlan, type PlanStep } from "../plan.ts";
import { secondLook } from "../second-look.ts";
import { beginPlan, firstCase } from "../second-look-due.ts";
import { judge } from "../verdict.ts";
import { addDays, type CivilDate, isCaseDay } from "./civil-date.ts";
import { type EventName, listEarlierEvents } from "./earlier-events.ts";
import { escapeText, type Line, writeLines } from "./icalendar.ts";
import { toPlainText } from "./plain-text.ts";
import { checkRoom, DEFAULT_ROOM_CELSIUS, type RoomProblem } from "./room.ts";
import { type RoomGiven, type Schedule, schedule, type Units } from "./schedule.ts";

export interface CalendarWishes {
  /** The day of the first step. */
  start: CivilDate;
  /** IANA name, "Europe/Zurich": only a hint to the reader, no event depends on it. */
  timeZone: string;
  roomCelsius?: number | undefined;
  /** BCP 47; chooses °C or °F where `units` does not. */
  locale: string;
  units?: Units | undefined;
  /** "https://shop.example", without a path. */
  origin: string;
  /** The moment of the download, in milliseconds since 1970: DTSTAMP, and what tells a newer file from an older one. */
  now: number;
  /**
   * An earlier file of this case was saved: its events that this one no longer has are taken back. Left out for a first
   * file, because some calendars show what was taken back, even what they never had.
   */
  replaces?: boolean | undefined;
  /** Only these remedies; by default the first of each method. */
  remedies?: readonly string[] | undefined;
}

export type CalendarProblem =
  | RoomProblem
  | {
      ok: false;
      code: "CALENDAR_START" | "CALENDAR_ZONE" | "CALENDAR_ORIGIN" | "CALENDAR_NOW";
      sentence: string;
    };

/** One day of the plan. */
export interface CalendarDay {
  date: CivilDate;
  /** Remedy id, or "look" for an inspection. */
  step: string;
  /** From 1, within the step. */
  round: number;
  rounds: number;
  title: string;
  text: string;
}

export type CalendarReading = { ok: true; text: string; days: CalendarDay[] } | CalendarProblem;

const INSPECT_EVERY = 7;
/** "Two checks a week apart": looks go on so long after the last round. */
const LOOKS_AFTER = 14;
/** A leaf is tested and watched for two days before a plant is sprayed. */
const LEAF_TEST_DAYS = 2;
const LONGEST_GAP = 60;
const EPOCH_2020 = 1_577_836_800_000;

/**
 * The plan as an iCalendar file (RFC 5545).
 *
 * Every event is a whole day: DTSTART and DTEND with VALUE=DATE. Such a day belongs to no zone, so it needs no VTIMEZONE
 * and no change to or from summer time can push it to another day or hour; it is the day on the wall, wherever it is
 * read. The alarm comes nine hours into that day by its own clock.
 */
export function makeCalendar(flow: Flow, kase: Case, wishes: CalendarWishes): CalendarReading {
  const problem = checkWishes(wishes);
  if (problem) return problem;
  const days = planDays(flow, kase, wishes);
  const stamp = `${new Date(wishes.now).toISOString().replace(/[-:]/g, "").slice(0, 15)}Z`;
  const begun = beginPlan(flow, kase, wishes.start);
  const code = writeCode(flow, firstCase(flow, kase));
  const common: Line[] = [
    ["DTSTAMP", stamp],
    ["LAST-MODIFIED", stamp],
    // Grows with every download, so that a later file replaces the events of an earlier one.
    ["SEQUENCE", String(Math.max(0, Math.floor((wishes.now - EPOCH_2020) / 60_000)))],
  ];
  const link = `${wishes.origin}/check?${writeLink(flow, begun)}`;
  const host = hostOf(wishes.origin);
  const takenBack = wishes.replaces ? listTakenBack(flow, kase, days) : [];
  const lines: Line[] = [
    ["BEGIN", "VCALENDAR"],
    ["VERSION", "2.0"],
    ["PRODID", "-//Leafturn//Plant check//EN"],
    ["CALSCALE", "GREGORIAN"],
    ["METHOD", "PUBLISH"],
    ["X-WR-CALNAME", escapeText(`${flow.edition.shop.name}: plant check`)],
    ["X-WR-TIMEZONE", escapeText(wishes.timeZone)],
    ...days.flatMap((day) => writeEvent(day, { common, code, link, host })),
    ...takenBack.flatMap((event) => writeTakenBack(event, { common, code, host, start: wishes.start })),
    ["END", "VCALENDAR"],
  ];
  return { ok: true, text: writeLines(lines), days };
}

function checkWishes({
  start,
  timeZone,
  roomCelsius,
  origin,
  now,
}: CalendarWishes): CalendarProblem | undefined {
  const room = checkRoom(roomCelsius ?? DEFAULT_ROOM_CELSIUS);
  if (!room.ok) return room;
  if (!isCaseDay(start)) {
    const sentence = "Give the first day as year-month-day, from 2024-01-01 on.";
    return { ok: false, code: "CALENDAR_START", sentence };
  }
  if (!/^[A-Za-z0-9_+\-/]{1,60}$/.test(timeZone)) {
    return {
      ok: false,
      code: "CALENDAR_ZONE",
      sentence: "Give the time zone by its name, such as Europe/Zurich.",
    };
  }
  if (!/^https?:\/\/[A-Za-z0-9.\-:[\]]{1,200}$/.test(origin)) {
    return { ok: false, code: "CALENDAR_ORIGIN", sentence: "The address of the shop must start with https." };
  }
  if (!Number.isFinite(now) || now < 0 || now > 4e12) {
    return { ok: false, code: "CALENDAR_NOW", sentence: "The moment of the download must be a date." };
  }
  return undefined;
}

function hostOf(origin: string): string {
  return origin.replace(/^https?:\/\//, "").replace(/[^A-Za-z0-9.-]/g, "-");
}

/** The days of the plan, in order: rounds of treatment, and looks each week until two weeks after the last round. */
export function planDays(
  flow: Flow,
  kase: Case,
  wishes: Pick<CalendarWishes, "start" | "roomCelsius" | "locale" | "units" | "remedies">,
): CalendarDay[] {
  const verdict = judge(flow, kase);
  const plan = makePlan(flow, kase, verdict);
  const look = secondLook(flow, kase, verdict);
  const allowed = new Set(look.remedies);
  const units = wishes.units ?? (/^en-(US|BS|BZ|KY|PW|LR)\b/i.test(wishes.locale) ? "us" : "metric");
  const room = { roomCelsius: wishes.roomCelsius, units };
  const series = plan.steps
    .filter(({ remedy }) => allowed.has(remedy))
    .flatMap((step) => {
      const remedy = flow.remedy(step.remedy);
      const pace = paceStep(flow, step, room);
      return remedy && pace ? [{ step, remedy, pace }] : [];
    });
  const chosen = series.filter(({ step, remedy }, i) =>
    wishes.remedies
      ? wishes.remedies.includes(step.remedy)
      : !series.slice(0, i).some((earlier) => overlaps(earlier, { step, remedy })),
  );
  const treatments = chosen.flatMap((one) => treatmentDays(flow, one, wishes.start));
  const last = [wishes.start, ...treatments.map(({ date }) => date)].sort().at(-1) ?? wishes.start;
  const days = [...treatments, ...lookDays(wishes.start, addDays(last, LOOKS_AFTER))];
  // Days written year first sort as texts.
  return days.sort((a, b) => Number(a.date > b.date) - Number(a.date < b.date));
}

/** The rounds of one step in a room; undefined for a step that is done once or never ends. */
export function paceStep(flow: Flow, step: PlanStep, room: RoomGiven): Schedule | undefined {
  const paces = step.treats.map((condition) => schedule(flow, condition, step.remedy, room));
  const pace = strictest(paces.filter((one): one is Schedule => one.ok));
  return pace && pace.everyDays <= LONGEST_GAP ? pace : undefined;
}

/** Two remedies of one method against one condition are a choice, not a pair. */
function overlaps(a: { step: PlanStep; remedy: Remedy }, b: { step: PlanStep; remedy: Remedy }): boolean {
  return (
    a.remedy.method === b.remedy.method &&
    a.step.treats.some((condition) => b.step.treats.includes(condition))
  );
}

/** Where one step treats several conditions, the shortest interval and the longest series keep up with all. */
function strictest(paces: readonly Schedule[]): Schedule | undefined {
  const [first, ...others] = [...paces].sort((a, b) => a.everyDays - b.everyDays);
  if (!first) return undefined;
  const span = Math.max(...paces.map(({ everyDays, rounds }) => everyDays * (rounds - 1)));
  const rounds = others.length === 0 ? first.rounds : 1 + Math.ceil(span / first.everyDays);
  return { ...first, rounds };
}

function treatmentDays(
  flow: Flow,
  { step, remedy, pace }: { step: PlanStep; remedy: Remedy; pace: Schedule },
  start: CivilDate,
): CalendarDay[] {
  const wait = remedy.phase === "today" ? 0 : remedy.method === "chemical" ? LEAF_TEST_DAYS : 1;
  const text = [
    pace.why,
    remedy.amount ?? "",
    toPlainText(remedy.steps),
    ...(step.labelIsLaw ? ["The label is the law. It comes before anything written here."] : []),
    ...step.cautions,
    pace.until ? `Stop when ${pace.until}.` : "",
    tellConditions(flow, step.treats),
  ].filter((part) => part !== "");
  return Array.from({ length: pace.rounds }, (_, i) => ({
    date: addDays(start, wait + i * pace.everyDays),
    step: remedy.id,
    round: i + 1,
    rounds: pace.rounds,
    title: `${remedy.name} (${i + 1} of ${pace.rounds})`,
    text: text.join("\n"),
  }));
}

function tellConditions(flow: Flow, conditions: readonly string[]): string {
  const names = conditions.flatMap((id) => flow.condition(id)?.name ?? []);
  return names.length > 0 ? `Against: ${names.join(", ")}.` : "";
}

function lookDays(start: CivilDate, end: CivilDate): CalendarDay[] {
  const days: CalendarDay[] = [];
  for (let date = addDays(start, INSPECT_EVERY); date <= end; date = addDays(date, INSPECT_EVERY)) {
    days.push({
      date,
      step: "look",
      round: days.length + 1,
      rounds: 0,
      title: "Look the plant over again",
      text: "Better, the same, worse, or something new? Look at the newest leaves and the backs of the old ones. Then open the link.",
    });
  }
  return days.map((day) => ({ ...day, rounds: days.length }));
}

/** What an earlier file may have held and this one does not. */
function listTakenBack(flow: Flow, kase: Case, days: readonly CalendarDay[]): EventName[] {
  const kept = new Set(days.map(({ step, round }) => `${step} ${round}`));
  return listEarlierEvents(flow, kase, {
    pace: (step, roomCelsius) => paceStep(flow, step, { roomCelsius }),
    looks: (lastDay) => Math.floor((lastDay + LOOKS_AFTER) / INSPECT_EVERY),
  }).filter(({ step, round }) => !kept.has(`${step} ${round}`));
}

function writeEvent(
  { date, step, round, title, text }: CalendarDay,
  { common, code, link, host }: { common: readonly Line[]; code: string; link: string; host: string },
): Line[] {
  const day = (of: CivilDate) => of.replaceAll("-", "");
  return [
    ["BEGIN", "VEVENT"],
    ["UID", writeUid({ step, round }, code, host)],
    ...common,
    ["DTSTART;VALUE=DATE", day(date)],
    ["DTEND;VALUE=DATE", day(addDays(date, 1))],
    ["SUMMARY", escapeText(title)],
    ["DESCRIPTION", escapeText(`${text}\n\n${link}`)],
    ["URL", link],
    ["TRANSP", "TRANSPARENT"],
    ["BEGIN", "VALARM"],
    ["ACTION", "DISPLAY"],
    ["DESCRIPTION", escapeText(title)],
    ["TRIGGER", "PT9H"],
    ["END", "VALARM"],
    ["END", "VEVENT"],
  ];
}

/** An event that is no more (RFC 5545, 3.8.1.11); a published file may hold such (RFC 5546, 3.2.1). */
function writeTakenBack(
  event: EventName,
  { common, code, host, start }: { common: readonly Line[]; code: string; host: string; start: CivilDate },
): Line[] {
  return [
    ["BEGIN", "VEVENT"],
    ["UID", writeUid(event, code, host)],
    ...common,
    ["DTSTART;VALUE=DATE", start.replaceAll("-", "")],
    ["SUMMARY", "No longer needed"],
    ["STATUS", "CANCELLED"],
    ["TRANSP", "TRANSPARENT"],
    ["END", "VEVENT"],
  ];
}

function writeUid({ step, round }: EventName, code: string, host: string): string {
  return `${uidPart(code)}-${step}-${round}@${host}`;
}

/** The check symbols of a code are no letters: they are spelled, so that a UID stays plain. */
function uidPart(code: string): string {
  return code.replace("*", "-star").replace("~", "-tilde").replace("$", "-dollar").replace("=", "-equals");
}
