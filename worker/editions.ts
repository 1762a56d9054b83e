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

/** What memory holds is not sent again: the live edition as number ?2 with hash ?3, and what was asked for if ?4 is 1. */
const QUERY = `SELECT e.number, e.hash, l.number = e.number AS isLive, p.body AS part,
  CASE WHEN e.number = ?2 AND e.hash = ?3 THEN NULL ELSE e.body END AS body
  FROM live l JOIN editions e ON e.number = l.number OR (e.number = ?1 AND ?4 = 0)
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

  async function look(database: D1Database, asked: number | undefined): Promise<Editions> {
    const before = live;
    const known = asked === undefined ? undefined : inMemory(asked);
    const turn = ++begun;
    const { results } = await database
      .prepare(QUERY)
      .bind(
        asked ?? 0,
        before.edition.number,
        before.edition.hash,
        Number(asked === undefined || known !== undefined),
      )
      .all<Row>();
    const current =
      openRows(
        results.filter((row) => row.isLive === 1),
        before,
      ) ?? atHand;
    const wanted = openRows(
      results.filter((row) => row.number === asked && row.isLive !== 1),
      before,
    );
    if (wanted) keep(wanted);
    if (turn > latest) {
      latest = turn;
      live = current;
      if (before !== current && before !== atHand) keep(before);
    }
    return { live: current, asked: [current, wanted, known, atHand].find((flow) => isNumbered(flow, asked)) };
  }

  function keep(flow: Flow): void {
    const [eldest] = old.keys();
    if (old.size >= MOST_OLD && eldest !== undefined) old.delete(eldest);
    old.set(flow.edition.number, flow);
  }

  return {
    async open(database, now, asked) {
      if (database !== undefined && now - failedAt >= PAUSE) {
        try {
          return await withPatience(look(database, asked), PATIENCE);
        } catch (error) {
          failedAt = error instanceof OutOfReach ? now + PATIENCE : now;
          console.error("The editions could not be read; going on with the one at hand.", error);
        }
      }
      const known = asked === undefined ? undefined : inMemory(asked);
      return { live, asked: known ?? (isNumbered(atHand, asked) ? atHand : undefined) };
    },
  };
}

function isNumbered(flow: Flow | undefined, number: number | undefined): boolean {
  return flow !== undefined && flow.edition.number === number;
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
