import type { Drawing } from "../edition.ts";
import type { DrawingEntry } from "../pictures.ts";

/** Where the drawings belong, and in which group each travels. */
export interface DrawingIndex {
  entries: DrawingEntry[];
  /** Ids, group by group. */
  groups: string[][];
}

/** What a group of drawings holds, by id. */
export type DrawingGroup = Record<string, Pick<Drawing, "shows" | "parts">>;
