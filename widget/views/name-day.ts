import { type CivilDate, dayNumber } from "../../flows/calendar/civil-date.ts";
import type { UnitSystem } from "../../flows/edition.ts";

const weekdays = "Thu Fri Sat Sun Mon Tue Wed".split(" ");
const months = "Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec".split(" ");

/** "Wed, Nov 25" or "Wed 25 Nov": no one can read it as another day. 1970-01-01 was a Thursday. */
export function nameDay(date: CivilDate, system: UnitSystem): string {
  const number = dayNumber(date) ?? 0;
  const weekday = weekdays[((number % 7) + 7) % 7];
  const month = months[Number(date.slice(5, 7)) - 1];
  const day = Number(date.slice(8));
  return system === "us" ? `${weekday}, ${month} ${day}` : `${weekday} ${day} ${month}`;
}
