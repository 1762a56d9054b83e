import { type CivilDate, dayNumber } from "../../flows/calendar/civil-date.ts";
import type { Shop } from "../../flows/edition.ts";
import { figuresWords } from "./figures-words.ts";

/** Which lines of the records count: both days are among them; null leaves a side open. */
export interface Filter {
  branch: string | null;
  from: CivilDate | null;
  to: CivilDate | null;
}

export const everything: Filter = { branch: null, from: null, to: null };

const filterFields = ["branch", "from", "to"] as const;
export type FilterField = (typeof filterFields)[number];

/** A filter as it was asked for, and what of it could not be used. */
export interface FilterRead {
  filter: Filter;
  /** As typed, to be mended. */
  typed: Record<FilterField, string>;
  problems: readonly { field: FilterField; sentence: string }[];
}

const LONGEST = 40;

/** Reads the filter from a query. What cannot be is left out and told. */
export function readFilter(get: (name: FilterField) => string | undefined, { branches }: Shop): FilterRead {
  const read = (name: FilterField) => (get(name) ?? "").trim().slice(0, LONGEST);
  const typed = { branch: read("branch"), from: read("from"), to: read("to") };
  const problems: { field: FilterField; sentence: string }[] = [];
  const readDay = (field: "from" | "to"): CivilDate | null => {
    if (typed[field] === "") return null;
    if (dayNumber(typed[field]) !== undefined) return typed[field];
    problems.push({ field, sentence: figuresWords.noDay(typed[field]) });
    return null;
  };
  const [from, to] = [readDay("from"), readDay("to")];
  const isKnown = branches.some(({ id }) => id === typed.branch);
  if (typed.branch !== "" && !isKnown)
    problems.push({ field: "branch", sentence: figuresWords.noBranch(typed.branch) });
  const branch = isKnown ? typed.branch : null;
  if (from === null || to === null || from <= to) return { filter: { branch, from, to }, typed, problems };
  problems.push({ field: "to", sentence: figuresWords.daysReversed });
  return { filter: { branch, from: null, to: null }, typed, problems };
}

/** The filter as a query with its question mark; empty when everything counts. */
export function writeFilter(filter: Filter): string {
  const pairs = filterFields.flatMap((name) => (filter[name] === null ? [] : [`${name}=${filter[name]}`]));
  return pairs.length === 0 ? "" : `?${pairs.join("&")}`;
}
