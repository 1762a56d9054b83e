import type { Branch, Shop, UnitSystem } from "./edition.ts";

/** How and when things are told at a branch. */
export interface Place {
  units: UnitSystem;
  /** BCP 47, for numbers. */
  locale: string;
  /** IANA name of the time zone. */
  timeZone: string;
}

/** Countries whose people measure in cups and Fahrenheit. */
const usRegions = ["US", "BS", "BZ", "KY", "LR", "PW", "FM", "MH"];

/** As the content says for the branch, else for the shop; a shopper without a branch is at the first one. */
export function placeOf(shop: Shop, branch: Branch | null): Place {
  const at = branch ?? shop.branches[0];
  const locale = at?.locale ?? shop.locale;
  const units = at?.units ?? guessUnits(locale, at?.phone);
  return {
    units,
    locale: locale ?? (units === "us" ? "en-US" : "en"),
    timeZone: at?.timeZone ?? shop.timeZone ?? "UTC",
  };
}

/** By the country of the locale; without one, US units for a phone number that starts with +1. */
function guessUnits(locale: string | undefined, phone = ""): UnitSystem {
  const region = locale === undefined ? undefined : new Intl.Locale(locale).region;
  const us = region === undefined ? phone.trim().startsWith("+1") : usRegions.includes(region);
  return us ? "us" : "metric";
}

/** Whether numbers can be written for this language and country. */
export function isLocale(text: string): boolean {
  try {
    return Intl.NumberFormat.supportedLocalesOf(text).length === 1;
  } catch {
    return false;
  }
}

/** Whether this is the name of a time zone, such as Europe/Zurich. */
export function isTimeZone(text: string): boolean {
  try {
    // Bare offsets know no daylight saving.
    return !/^[+-]/.test(text) && new Intl.DateTimeFormat("en", { timeZone: text }) !== null;
  } catch {
    return false;
  }
}
