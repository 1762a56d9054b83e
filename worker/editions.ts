import type { Edition } from "../flows/edition.ts";
import { type Flow, openFlow } from "../flows/flow.ts";
import type { Editions } from "../widget/check/replay.ts";
import { OutOfReach, withPatience } from "./patience.ts";

/** The editions at hand in this isolate. */
export interface Shelf {
  /**
   * Reads the database once, so that what was just published is seen by the very next request, wherever it is answered.
   * Of an edition that is in memory only the number is read. Never throws and never waits longer than `PATIENCE`: without
   * a database that answers, the last edition seen is used, or the bundled one.
   */
  open(database: D1Database | undefined, now: number, asked?: number): Promise<Editions>;
  /** The same for several editions that may be meant, the likeliest first: the first few of them that exist, with one read. */
  openAny(database: D1Database | undefined, now: number, wanted: readonly number[]): Promise<Shelved>;
}

/** The live edition, and those of the wanted ones that were found. */
export interface Shelved {
  live: Flow;
  found: Flow[];
}

interface Row {
  number: number;
  hash: string;
  isLive: number;
  /** Null when memory holds this very edition. */
  body: string | null;
  /** A body that is too large for one row comes as one row for each part, in their order. */
  part: string | null;
}

/** How long, in milliseconds, a database that failed is left alone. */
const PAUSE = 5_000;
/**
 * How long, in milliseconds, a shopper waits for the database. A read takes some thousandths of a second, and about one
 * second where the database has to be woken first (from memory); whoever waits longer gets the edition at hand.
 */
export const PATIENCE = 3_000;
/** Old editions kept ready in memory. */
const MOST_OLD = 4;

/** Editions sent for one request beside the live one: enough for a slip in a code, too few to be worth a flood. */
const MOST_WANTED = 3;

/**
 * What memory holds is not sent again: the live edition as number ?2 with hash ?3. ?1 is a JSON array of the numbers that
 * are wanted and not in memory.
 */
const QUERY = `SELECT e.number, e.hash, l.number = e.number AS isLive, p.body AS part,
  CASE WHEN e.number = ?2 AND e.hash = ?3 THEN NULL ELSE e.body END AS body
  FROM live l JOIN editions e ON e.number = l.number OR e.number IN
    (SELECT a.number FROM json_each(?1) w JOIN editions a ON a.number = w.value ORDER BY w.key LIMIT ${MOST_WANTED})
  LEFT JOIN edition_parts p ON p.edition = e.number AND NOT (e.number = ?2 AND e.hash = ?3)
  ORDER BY e.number, p.part`;

export function keepEditions(bundled: Edition): Shelf {
  const atHand = openFlow(bundled);
  const old = new Map<number, Flow>();
  let live = atHand;
  let failedAt = Number.NEGATIVE_INFINITY;
  /** Reads are counted, so that one that took long does not undo a later one. */
  let begun = 0;
  let latest = 0;

  const inMemory = (asked: number) => (live.edition.number === asked ? live : old.get(asked));

  async function look(database: D1Database, wanted: readonly number[]): Promise<Shelved> {
    const before = live;
    const known = wanted.flatMap((number) => inMemory(number) ?? []);
    const missing = wanted.filter((number) => !known.some((flow) => isNumbered(flow, number)));
    const turn = ++begun;
    const { results } = await database
      .prepare(QUERY)
      .bind(JSON.stringify(missing), before.edition.number, before.edition.hash)
      .all<Row>();
    const rowsOf = (one: number) => results.filter(({ number, isLive }) => number === one && isLive !== 1);
    const current =
      openRows(
        results.filter((row) => row.isLive === 1),
        before,
      ) ?? atHand;
    const others = missing.flatMap((number) => openRows(rowsOf(number), before) ?? []);
    for (const flow of others) keep(flow);
    if (turn > latest) {
      latest = turn;
      live = current;
      if (before !== current && before !== atHand) keep(before);
    }
    return { live: current, found: pick(wanted, [current, ...others, ...known, atHand]) };
  }

  async function openAny(
    database: D1Database | undefined,
    now: number,
    wanted: readonly number[],
  ): Promise<Shelved> {
    if (database !== undefined && now - failedAt >= PAUSE) {
      try {
        return await withPatience(look(database, wanted), PATIENCE);
      } catch (error) {
        failedAt = error instanceof OutOfReach ? now + PATIENCE : now;
        console.error("The editions could not be read; going on with the one at hand.", error);
      }
    }
    const known = wanted.flatMap((number) => inMemory(number) ?? []);
    return { live, found: pick(wanted, [...known, atHand]) };
  }

  function keep(flow: Flow): void {
    const [eldest] = old.keys();
    if (old.size >= MOST_OLD && eldest !== undefined) old.delete(eldest);
    old.set(flow.edition.number, flow);
  }

  return {
    openAny,
    async open(database, now, asked) {
      const { live: current, found } = await openAny(database, now, asked === undefined ? [] : [asked]);
      return { live: current, asked: found[0] };
    },
  };
}

/** The first flow of each wanted number. */
function pick(wanted: readonly number[], flows: readonly Flow[]): Flow[] {
  return wanted.flatMap((number) => flows.find((flow) => isNumbered(flow, number)) ?? []);
}

function isNumbered(flow: Flow, number: number): boolean {
  return flow.edition.number === number;
}

/** Undefined when there are no rows. */
function openRows(rows: readonly Row[], inMemory: Flow): Flow | undefined {
  const [row] = rows;
  if (row === undefined) return undefined;
  if (row.body === null) return inMemory;
  const body = row.body + rows.map(({ part }) => part ?? "").join("");
  const edition = JSON.parse(body) as Edition;
  return openFlow({ ...edition, number: row.number, hash: row.hash });
}
