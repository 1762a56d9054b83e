import type { Editions } from "../widget/check/replay.ts";

/** What every handler finds in its context. */
export interface Setting {
  Bindings: Env;
  Variables: {
    /** Opens the live edition and the one asked for, with at most one read of the database. */
    openEditions(asked?: number): Promise<Editions>;
  };
}
