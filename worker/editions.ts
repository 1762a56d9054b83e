import type { Edition } from "../flows/edition.ts";
import { type Flow, openFlow } from "../flows/flow.ts";
import type { Editions } from "../widget/check/replay.ts";

/** The editions at hand in this isolate. */
export interface Shelf {
  /**
   * Reads the database at most once, and not at all while what is in memory is fresh.
   * Never throws: without a database the last edition seen is used, or the bundled one.
   */
  open(database: D1Database | undefined, now: number, asked?: number): Promise<Editions>;
}

interface Row {
  number: number;
  hash: string;
  isLive: number;
  /** Null when memory holds this very edition. */
  body: string | null;
}

/** How long, in milliseconds, the live pointer is trusted before it is looked at again. */
const FRESH = 5_000;
/** Old editions kept ready in memory. */
const MOST_OLD = 4;

const QUERY = `SELECT e.number, e.hash, l.number = e.number AS isLive,
  CASE WHEN e.number = ?2 AND e.hash = ?3 THEN NULL ELSE e.body END AS body
  FROM live l JOIN editions e ON e.number = l.number OR e.number = ?1`;

export function keepEditions(bundled: Edition): Shelf {
  const atHand = openFlow(bundled);
  const old = new Map<number, Flow>();
  let live = atHand;
  let checkedAt = Number.NEGATIVE_INFINITY;

  function find(asked: number | undefined): Flow | undefined {
    if (asked === undefined) return undefined;
    return [live, old.get(asked), atHand].find((flow) => flow?.edition.number === asked);
  }

  async function look(database: D1Database, asked: number | undefined): Promise<void> {
    const { number, hash } = live.edition;
    const { results } = await database
      .prepare(QUERY)
      .bind(asked ?? 0, number, hash)
      .all<Row>();
    const current = results.find((row) => row.isLive === 1);
    const wanted = results.find((row) => row.number === asked && row.isLive !== 1);
    const before = live;
    live = current ? openRow(current, before) : atHand;
    if (wanted) keep(openRow(wanted, before));
  }

  function keep(flow: Flow): void {
    const [eldest] = old.keys();
    if (old.size >= MOST_OLD && eldest !== undefined) old.delete(eldest);
    old.set(flow.edition.number, flow);
  }

  return {
    async open(database, now, asked) {
      const stale = now - checkedAt >= FRESH;
      if (database !== undefined && (stale || (asked !== undefined && find(asked) === undefined))) {
        checkedAt = now;
        try {
          await look(database, asked);
        } catch (error) {
          console.error("The editions could not be read; going on with the one at hand.", error);
        }
      }
      return { live, asked: find(asked) };
    },
  };
}

function openRow(row: Row, inMemory: Flow): Flow {
  if (row.body === null) return inMemory;
  const edition = JSON.parse(row.body) as Edition;
  return openFlow({ ...edition, number: row.number, hash: row.hash });
}
