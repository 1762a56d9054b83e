import type { CivilDate } from "../../flows/calendar/civil-date.ts";
import { type CalendarReading, makeCalendar } from "../../flows/calendar/make-calendar.ts";
import { answerTo, type Case } from "../../flows/case.ts";
import type { Report } from "../views/report.ts";
import { readSettings } from "./make-figures.ts";
import type { Typed } from "./read-request.ts";

interface CalendarRequest {
  report: Report;
  case: Case;
  typed: Typed;
  /** Stands in for a first day that was not told. */
  today: CivilDate;
  /** The time in milliseconds. */
  now: number;
  /** An earlier file was saved. A case that was opened from a calendar says so itself. */
  replace: boolean;
}

/** The days of a plan as a file. Numbers that cannot be are stood in for, as on the page. */
export function writeCalendar({
  report,
  case: kase,
  typed,
  today,
  now,
  replace,
}: CalendarRequest): CalendarReading {
  const { system, locale, timeZone, room, start } = readSettings(report, typed, today);
  return makeCalendar(report.flow, kase, {
    ...{ start: start.value, roomCelsius: room.value, units: system, locale, now, timeZone },
    replaces: replace || answerTo(kase, "began") !== undefined,
    origin: report.base.replace(/\/$/, ""),
  });
}
