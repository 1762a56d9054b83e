import type { CivilDate } from "../../flows/calendar/civil-date.ts";
import type { Shop } from "../../flows/edition.ts";

/** The day at the shop, by its own clock. */
export function dayAtShop({ timeZone = "UTC" }: Shop, now: number): CivilDate {
  const parts = new Intl.DateTimeFormat("en", {
    ...{ timeZone, year: "numeric", month: "2-digit", day: "2-digit" },
  }).formatToParts(now);
  const part = (type: string) => parts.find((one) => one.type === type)?.value ?? "";
  return `${part("year")}-${part("month")}-${part("day")}`;
}
