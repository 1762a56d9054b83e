import type { CivilDate } from "../../flows/calendar/civil-date.ts";
import { nameDay } from "../../widget/views/name-day.ts";

/** "Wed, Nov 25, 2026": figures may go back over years. */
export function sayDay(date: CivilDate): string {
  return `${nameDay(date, "us")}, ${date.slice(0, 4)}`;
}
