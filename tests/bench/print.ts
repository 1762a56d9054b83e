/**
 * How many sheets the longest plans take, each with all its sums: the 200 longest of the random conversations with a fixed
 * seed, on A4 and on Letter. Needs `pdfinfo` (poppler-utils). Prints the figures; exits 1 when a plan takes more than two.
 * Run it with `npm run bench:print`.
 */
import { execFileSync } from "node:child_process";
import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { openChromium } from "../browser/chromium.ts";
import { findJourneys } from "../browser/find-journeys.ts";
import { startServer } from "../browser/serve.ts";

const PLANS = 200;
const MOST_SHEETS = 2;
const told = "units=metric&room=18&bottle=750&outdoor=2&outdoor-humidity=70&pot=15&roots=30";

const links = new Map(findJourneys().map(({ link, steps }) => [link, steps]));
const longest = [...links].sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1)).slice(0, PLANS);
const file = join(mkdtempSync(join(tmpdir(), "leafturn-print-")), "plan.pdf");
const server = await startServer();
const browser = await openChromium();
const page = await browser.newPage();
const counts = new Map<string, number>();
for (const [link] of longest) {
  await page.goto(`${server.origin}/check?${link}&${told}`);
  for (const format of ["A4", "Letter"]) {
    writeFileSync(file, await page.pdf({ format, preferCSSPageSize: true }));
    const [, sheets = ""] = /Pages:\s+(\d+)/.exec(execFileSync("pdfinfo", [file]).toString()) ?? [];
    const line = `${format}, sheets: ${sheets}`;
    counts.set(line, (counts.get(line) ?? 0) + 1);
    if (Number(sheets) > MOST_SHEETS) {
      console.info(`Too long on ${format}: ${link}`);
      process.exitCode = 1;
    }
  }
}
for (const [line, count] of counts) console.info(`${line}, plans: ${count}`);
await browser.close();
await server.stop();
