import type { CivilDate } from "../flows/calendar/civil-date.ts";

/** The day on the wall of a time zone at a moment, in milliseconds since 1970. Daylight saving is in the zone's own table. */
export function dayAt(timeZone: string, now: number): CivilDate {
  const format = new Intl.DateTimeFormat("en", {
    timeZone,
    ...{ calendar: "gregory", numberingSystem: "latn", year: "numeric", month: "2-digit", day: "2-digit" },
  });
  const parts = new Map(format.formatToParts(now).map(({ type, value }) => [type, value]));
  return `${parts.get("year")?.padStart(4, "0")}-${parts.get("month")}-${parts.get("day")}`;
}
