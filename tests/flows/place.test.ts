import { describe, expect, test } from "vitest";
import type { Branch, Shop } from "../../flows/edition.ts";
import { isLocale, isTimeZone, placeOf } from "../../flows/place.ts";

const branch = (more: Partial<Branch>): Branch => ({
  ...{ id: "here", name: "Here", address: "1 Street", hours: "9 to 5", phone: "+1-555-0100" },
  ...more,
});
const shop = (more: Partial<Shop>): Shop => ({
  ...{ name: "A shop", strapline: "", branches: [branch({})], poisonHelp: "" },
  ...more,
});

describe("units", () => {
  test.each([
    [{ phone: "+1-555-0100" }, "us"],
    [{ phone: "+44 20 7946 0000" }, "metric"],
    [{ phone: "+1-555-0100", units: "metric" }, "metric"],
    // Canada shares the telephone code +1 and measures in liters.
    [{ phone: "+1-555-0100", locale: "en-CA" }, "metric"],
    [{ phone: "+44 20 7946 0000", locale: "en-US" }, "us"],
  ] as const)("of %o are %s", (told, units) => {
    expect(placeOf(shop({}), branch(told)).units).toBe(units);
  });
});

test("a branch says more than its shop, and the first branch speaks for the shop", () => {
  const north = branch({ id: "north", locale: "en-GB", timeZone: "Europe/London" });
  const both = shop({ locale: "en-US", timeZone: "America/New_York", branches: [branch({}), north] });
  expect(placeOf(both, north)).toEqual({ units: "metric", locale: "en-GB", timeZone: "Europe/London" });
  expect(placeOf(both, null)).toEqual({ units: "us", locale: "en-US", timeZone: "America/New_York" });
  expect(placeOf(shop({}), null)).toEqual({ units: "us", locale: "en-US", timeZone: "UTC" });
});

// BCP 47 tags and names of the IANA time zone database.
test.each(["en-US", "en-CA", "en-GB", "de-CH", "fr-CA"])("%s is a locale", (text) => {
  expect(isLocale(text)).toBe(true);
});
test.each(["English", "en_US", "xx-XX", "", "e"])("%s is none", (text) => {
  expect(isLocale(text)).toBe(false);
});
test.each(["America/New_York", "Europe/Zurich", "UTC", "Asia/Kathmandu"])("%s is a time zone", (text) => {
  expect(isTimeZone(text)).toBe(true);
});
test.each(["Millbrook", "+05:45", "America/", ""])("%s is none", (text) => {
  expect(isTimeZone(text)).toBe(false);
});
