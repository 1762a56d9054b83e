import type { Context, Hono } from "hono";
import { addDays } from "../../flows/calendar/civil-date.ts";
import { readCounts, sumCounts, writeCounts } from "../counts/read-counts.ts";
import { renderPage } from "../pages/page.tsx";
import type { PrivateSetting } from "../setting.ts";
import { toSampled } from "./agreement-rows.ts";
import { type BenchFinding, listFindings, readBook } from "./bench-findings.ts";
import { CountsView } from "./counts-view.tsx";
import { COUNTS_FILE, FIGURES, FINDINGS_FILE, inDesk } from "./desk-links.ts";
import { FiguresPage } from "./figures-page.tsx";
import { figuresWords } from "./figures-words.ts";
import { writeFindings } from "./findings-file.ts";
import { dayAtShop } from "./shop-day.ts";

/** More samples than a shop sees in years; the newest ones count. */
const MOST = 20_000;

/** Days of counts that the page sums up, and that the file holds. */
const DAYS_SHOWN = 30;
const DAYS_IN_FILE = 400;

/** The page that sets the check against the bench, and its files; mounted behind the sign-in. */
export function addFigures(desk: Hono<PrivateSetting>): void {
  desk.get(inDesk(FIGURES), showFigures);
  desk.get(inDesk(FINDINGS_FILE), async (c) => {
    const book = await reach(c, (database) => readBook(database, MOST));
    if (book === null) return c.text(figuresWords.outOfReach, 503);
    return sendCsv(c, "bench-findings.csv", writeFindings(book));
  });
  desk.get(inDesk(COUNTS_FILE), async (c) => {
    const { live } = await c.var.openEditions();
    const from = addDays(dayAtShop(live.edition.shop, c.var.now), -DAYS_IN_FILE);
    const rows = await reach(c, (database) => readCounts(database, from, MOST));
    if (rows === null) return c.text(figuresWords.outOfReach, 503);
    return sendCsv(c, "counts.csv", writeCounts(rows));
  });
}

function sendCsv(c: Context, name: string, text: string): Response {
  return c.body(text, 200, {
    "Content-Type": "text/csv; charset=utf-8; header=present",
    "Content-Disposition": `attachment; filename="${name}"`,
  });
}

async function showFigures(c: Context<PrivateSetting>): Promise<Response> {
  const { live } = await c.var.openEditions();
  const findings = await reach<BenchFinding[]>(c, (database) => listFindings(database, { most: MOST }));
  const from = addDays(dayAtShop(live.edition.shop, c.var.now), -DAYS_SHOWN);
  const sums = findings && (await reach(c, (database) => sumCounts(database, from)));
  const sampled = sums && toSampled(findings);
  const page = (
    <FiguresPage live={live} person={c.var.person} sampled={sampled}>
      {sums && <CountsView {...{ live, sums, from }} />}
    </FiguresPage>
  );
  return c.html(renderPage(page), sampled === null ? 503 : 200);
}

/** What the records hold; null when they are out of reach. */
async function reach<T>(
  c: Context<PrivateSetting>,
  read: (database: D1Database) => Promise<T>,
): Promise<T | null> {
  if (c.env.DB === undefined) return null;
  try {
    return await read(c.env.DB);
  } catch (error) {
    console.error("The records could not be read.", error);
    return null;
  }
}
