/**
 * Days of the calendar without clock or zone: "2026-05-04". Arithmetic on days since 1970-01-01 in the Gregorian
 * calendar; nothing here reads the date of today.
 */
export type CivilDate = string;

const DAY = 86_400_000;
/** The days that a case can hold: a century, so that a day costs few characters of a code. */
const FIRST_DAY = Date.UTC(2024, 0, 1) / DAY;
export const DAYS_KNOWN = 36_525;

/** Whole days since 1970-01-01, or undefined when the text is no day of the calendar ("2026-02-30"). */
export function dayNumber(date: string): number | undefined {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(date);
  if (!parts) return undefined;
  const [year, month, dayOfMonth] = parts.slice(1).map(Number) as [number, number, number];
  const at = new Date(0);
  // Unlike Date.UTC, this takes the years 0 to 99 for what they are.
  at.setUTCFullYear(year, month - 1, dayOfMonth);
  const exists = at.getUTCMonth() === month - 1 && at.getUTCDate() === dayOfMonth;
  return exists ? at.getTime() / DAY : undefined;
}

export function civilDate(day: number): CivilDate {
  return new Date(day * DAY).toISOString().slice(0, 10);
}

/** A day that a case can hold: from 2024 on, for a hundred years. */
export function isCaseDay(date: string): boolean {
  const day = dayNumber(date);
  return day !== undefined && day >= FIRST_DAY && day < FIRST_DAY + DAYS_KNOWN;
}

let days: string[] | undefined;

/** Every day that a case can hold, in order: their places are their ranks in a case code. */
export function caseDays(): readonly string[] {
  days ??= Array.from({ length: DAYS_KNOWN }, (_, i) => civilDate(FIRST_DAY + i));
  return days;
}

/** `days` later; the date must be one. */
export function addDays(date: CivilDate, days: number): CivilDate {
  return civilDate((dayNumber(date) ?? 0) + days);
}
