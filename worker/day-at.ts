import type { CivilDate } from "../flows/calendar/civil-date.ts";

/** To make one costs as much as all else of a small page. A shop has few zones. */
const formats = new Map<string, Intl.DateTimeFormat>();

function formatOf(timeZone: string): Intl.DateTimeFormat {
  const format =
    formats.get(timeZone) ??
    new Intl.DateTimeFormat("en", {
      timeZone,
      ...{ calendar: "gregory", numberingSystem: "latn", year: "numeric", month: "2-digit", day: "2-digit" },
    });
  formats.set(timeZone, format);
  return format;
}

/** The day on the wall of a time zone at a moment, in milliseconds since 1970. Daylight saving is in the zone's own table. */
export function dayAt(timeZone: string, now: number): CivilDate {
  const parts = new Map(
    formatOf(timeZone)
      .formatToParts(now)
      .map(({ type, value }) => [type, value]),
  );
  return `${parts.get("year")?.padStart(4, "0")}-${parts.get("month")}-${parts.get("day")}`;
}
