import { expect, test } from "vitest";
import { dayAt } from "../../worker/day-at.ts";

/**
 * Changes to and from daylight saving by law: United States, second Sunday of March and first of November at 2:00 (Energy
 * Policy Act of 2005, section 110); European Union and Switzerland, last Sundays of March and October at 1:00 UTC (directive
 * 2000/84/EC). Nepal keeps 5 h 45 min and Kiritimati 14 h ahead of UTC (IANA time zone database).
 */
test.each([
  ["America/New_York", "2026-03-08T04:59:00Z", "2026-03-07"],
  ["America/New_York", "2026-03-08T05:00:00Z", "2026-03-08"],
  ["America/New_York", "2026-03-09T03:59:00Z", "2026-03-08"],
  ["America/New_York", "2026-03-09T04:00:00Z", "2026-03-09"],
  ["America/New_York", "2026-11-01T03:59:00Z", "2026-10-31"],
  ["America/New_York", "2026-11-02T04:59:00Z", "2026-11-01"],
  ["America/New_York", "2026-11-02T05:00:00Z", "2026-11-02"],
  ["Europe/Zurich", "2026-03-28T22:59:00Z", "2026-03-28"],
  ["Europe/Zurich", "2026-03-28T23:00:00Z", "2026-03-29"],
  ["Europe/Zurich", "2026-03-29T22:00:00Z", "2026-03-30"],
  ["Europe/Zurich", "2026-10-25T22:59:00Z", "2026-10-25"],
  ["Asia/Kathmandu", "2026-06-30T18:15:00Z", "2026-07-01"],
  ["Pacific/Kiritimati", "2026-12-31T10:00:00Z", "2027-01-01"],
  ["UTC", "2028-02-29T23:59:59Z", "2028-02-29"],
] as const)("in %s at %s it is %s", (zone, moment, day) => {
  expect(dayAt(zone, Date.parse(moment))).toBe(day);
});
