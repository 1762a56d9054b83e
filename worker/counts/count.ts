import type { Context } from "hono";
import type { Edition } from "../../flows/edition.ts";
import { addressOf, type Gate } from "../people/rate-limit.ts";
import type { Setting } from "../setting.ts";
import { dayAtShop } from "../staff/shop-day.ts";
import { type CountSource, toTicks, type Visit } from "./visit.ts";

/** One statement, however much there is to count. */
const UPSERT = `INSERT INTO counts (day, branch, source, name, what, count)
  SELECT ?1, ?2, ?3, value ->> 'name', value ->> 'what', 1 FROM json_each(?4) WHERE true
  ON CONFLICT DO UPDATE SET count = count + 1`;

/** Whether this visit may be counted: the shop wants to know, and the visitor has not said no (Global Privacy Control). */
export function mayCount(c: Context<Setting>, { shop }: Edition): boolean {
  return shop.countVisits !== false && c.req.header("sec-gpc") !== "1";
}

/** Whether too much is sent from one place to be people. */
export async function isTooMuch(c: Context<Setting>, gate: Gate): Promise<number | null> {
  return gate.enter(addressOf({ header: (name) => c.req.header(name) }), c.var.now);
}

/** Counts behind the answer: it neither delays it nor makes it fail, whatever becomes of the count. */
export function countLater(c: Context<Setting>, { shop }: Edition, source: CountSource, visit: Visit): void {
  const ticks = toTicks(visit);
  const { DB } = c.env;
  if (ticks.length === 0 || DB === undefined) return;
  const counted = (async () => {
    await DB.prepare(UPSERT)
      .bind(dayAtShop(shop, c.var.now), visit.branch, source, JSON.stringify(ticks))
      .run();
  })().catch((error: unknown) => console.error("A visit could not be counted.", error));
  runLater(c, counted);
}

function runLater(c: Context<Setting>, work: Promise<void>): void {
  try {
    c.executionCtx.waitUntil(work);
  } catch {
    // Outside a Worker nothing has to be kept alive.
  }
}
