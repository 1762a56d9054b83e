import type { Editions } from "../widget/check/replay.ts";
import type { Shelved } from "./editions.ts";
import type { SignedIn } from "./people/person.ts";
import type { RandomBytes } from "./people/token.ts";

/** What every handler finds in its context. */
export interface Setting {
  Bindings: Env;
  Variables: {
    /** The time in milliseconds. */
    now: number;
    randomBytes: RandomBytes;
    /** Opens the live edition and the one asked for, with at most one read of the database. */
    openEditions(asked?: number): Promise<Editions>;
    /** The same for several editions that may be meant, the likeliest first. */
    openAnyEditions(wanted: readonly number[]): Promise<Shelved>;
  };
}

/** What handlers find in it behind a sign-in. */
export interface PrivateSetting extends Setting {
  Variables: Setting["Variables"] & { person: SignedIn };
}
