import type { Context, Hono } from "hono";
import { renderPage } from "../pages/page.tsx";
import type { PrivateSetting } from "../setting.ts";
import { toSampled } from "./agreement-rows.ts";
import { type BenchFinding, listFindings, readBook } from "./bench-findings.ts";
import { FIGURES, FINDINGS_FILE, inDesk } from "./desk-links.ts";
import { FiguresPage } from "./figures-page.tsx";
import { figuresWords } from "./figures-words.ts";
import { writeFindings } from "./findings-file.ts";

/** More samples than a shop sees in years; the newest ones count. */
const MOST = 20_000;

/** The page that sets the check against the bench, and its files; mounted behind the sign-in. */
export function addFigures(desk: Hono<PrivateSetting>): void {
  desk.get(inDesk(FIGURES), showFigures);
  desk.get(inDesk(FINDINGS_FILE), async (c) => {
    const book = await reach(c, (database) => readBook(database, MOST));
    if (book === null) return c.text(figuresWords.outOfReach, 503);
    return c.body(writeFindings(book), 200, {
      "Content-Type": "text/csv; charset=utf-8; header=present",
      "Content-Disposition": 'attachment; filename="bench-findings.csv"',
    });
  });
}

async function showFigures(c: Context<PrivateSetting>): Promise<Response> {
  const { live } = await c.var.openEditions();
  const findings = await reach<BenchFinding[]>(c, (database) => listFindings(database, { most: MOST }));
  const sampled = findings && toSampled(findings);
  const page = <FiguresPage live={live} person={c.var.person} sampled={sampled} />;
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
