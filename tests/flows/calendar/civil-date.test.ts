import fc from "fast-check";
import { expect, it } from "vitest";
import { addDays, caseDays, civilDate, dayNumber, isCaseDay } from "../../../flows/calendar/civil-date.ts";

it("a day and its number are inverses", () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 60_000 }), (day) => {
      expect(dayNumber(civilDate(day))).toBe(day);
    }),
  );
});

it.each(["2026-02-30", "2025-02-29", "2026-13-01", "26-01-01", "2026-1-1", "", "2026-05-04T00:00", "now"])(
  "“%s” is no day",
  (text) => {
    expect(dayNumber(text)).toBeUndefined();
    expect(isCaseDay(text)).toBe(false);
  },
);

it("counts over leap days and the change of the clocks", () => {
  expect(addDays("2028-02-28", 1)).toBe("2028-02-29");
  expect(addDays("2026-02-28", 1)).toBe("2026-03-01");
  expect(addDays("2026-03-28", 2)).toBe("2026-03-30");
  expect(addDays("2026-10-24", 2)).toBe("2026-10-26");
  expect(addDays("2026-12-31", 1)).toBe("2027-01-01");
});

it("a case holds the days of one century", () => {
  expect(caseDays()[0]).toBe("2024-01-01");
  expect(caseDays().every(isCaseDay)).toBe(true);
  expect(isCaseDay("2023-12-31")).toBe(false);
  expect(isCaseDay(addDays(caseDays().at(-1) ?? "", 1))).toBe(false);
});
