import type { CivilDate } from "../../flows/calendar/civil-date.ts";
import type { Shop } from "../../flows/edition.ts";
import { dayAt } from "../day-at.ts";

/** The day at the shop, by its own clock. */
export function dayAtShop({ timeZone = "UTC" }: Shop, now: number): CivilDate {
  return dayAt(timeZone, now);
}
