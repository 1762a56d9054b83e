import type { Context, Hono } from "hono";
import { addDays, type CivilDate } from "../../flows/calendar/civil-date.ts";
import { type CountFilter, readCounts, sumCounts, writeCounts } from "../counts/read-counts.ts";
import { renderPage } from "../pages/page.tsx";
import type { PrivateSetting } from "../setting.ts";
import { toSampled } from "./agreement-rows.ts";
import { type BenchFinding, listFindings, readBook } from "./bench-findings.ts";
import { CountsView } from "./counts-view.tsx";
import { COUNTS_FILE, FIGURES, FINDINGS_FILE, inDesk } from "./desk-links.ts";
import { type Filter, type FilterRead, readFilter } from "./figures-filter.ts";
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
  desk.get(inDesk(FINDINGS_FILE), (c) =>
    sendFile(c, "bench-findings", async (database, { filter }) =>
      writeFindings(await readBook(database, filter, MOST)),
    ),
  );
  desk.get(inDesk(COUNTS_FILE), (c) =>
    sendFile(c, "counts", async (database, { filter }, today) =>
      writeCounts(await readCounts(database, countsOf(filter, today, DAYS_IN_FILE), MOST)),
    ),
  );
}

type FiguresContext = Context<PrivateSetting>;
type WriteFile = (database: D1Database, read: FilterRead, today: CivilDate) => Promise<string>;

/** A file of what is chosen. Where the choice cannot be read there is none: it would hold something else. */
async function sendFile(c: FiguresContext, name: string, write: WriteFile): Promise<Response> {
  const { read, today } = await readChoice(c);
  if (read.problems.length > 0) return c.text(read.problems.map(({ sentence }) => sentence).join(" "), 400);
  const text = await reach(c, (database) => write(database, read, today));
  if (text === null) return c.text(figuresWords.outOfReach, 503);
  return sendCsv(c, `${[name, ...Object.values(read.filter).filter(Boolean)].join("-")}.csv`, text);
}

async function readChoice(c: FiguresContext) {
  const { live } = await c.var.openEditions();
  const { shop } = live.edition;
  return { live, today: dayAtShop(shop, c.var.now), read: readFilter((name) => c.req.query(name), shop) };
}

/** Counts have a first day: the one that is chosen, else so many days before the last. */
function countsOf({ branch, from, to }: Filter, today: CivilDate, days: number): CountFilter {
  return { branch, to, from: from ?? addDays(to ?? today, -days) };
}

function sendCsv(c: Context, name: string, text: string): Response {
  return c.body(text, 200, {
    "Content-Type": "text/csv; charset=utf-8; header=present",
    "Content-Disposition": `attachment; filename="${name}"`,
  });
}

async function showFigures(c: FiguresContext): Promise<Response> {
  const { live, today, read } = await readChoice(c);
  const { filter } = read;
  const wanted = countsOf(filter, today, DAYS_SHOWN);
  const findings = await reach<BenchFinding[]>(c, (database) =>
    listFindings(database, { filter, most: MOST }),
  );
  const sums = findings && (await reach(c, (database) => sumCounts(database, wanted)));
  const sampled = sums && toSampled(findings);
  const page = (
    <FiguresPage live={live} person={c.var.person} sampled={sampled} read={read}>
      {sums && <CountsView {...{ live, sums, from: wanted.from, to: wanted.to }} />}
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
