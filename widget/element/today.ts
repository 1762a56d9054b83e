import type { CivilDate } from "../../flows/calendar/civil-date.ts";

/** The day where the shopper is, by the clock of the browser. */
export function readToday(): CivilDate {
  const now = new Date();
  const two = (part: number) => String(part).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
