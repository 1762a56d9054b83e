import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest";
import { standings } from "../../flows/edition.ts";
import { openChromium } from "./chromium.ts";
import { findJourneys, journeyTo } from "./find-journeys.ts";
import { runAxe } from "./run-axe.ts";

const origin = inject("origin");
const journeys = findJourneys();
const start = "/check?e=1&what-you-see=white";

/** Every kind of page there is. */
const kinds: Record<string, string> = {
  "the shop's home page": "/",
  "the shop's houseplants": "/houseplants",
  "the shop's help page": "/help",
  "an empty slip": "/slip",
  "a slip": `/slip?${journeyTo(journeys, "leaning").link}&branch=north-yard`,
  "the opening": "/check",
  "the plant's name": start,
  "near plant names": `${start}&plant=bazil`,
  "an unknown plant": `${start}&plant=qqqqzzzz`,
  "a question": `${start}&host=basil`,
  "a reopened question": `${start}&host=basil&change=what-you-see`,
  "a reopened plant's name": `${start}&host=basil&change=host`,
  "a link with faults": `/check?e=99&what-you-see=white&bogus=1&host=basil&dropped=soil-check`,
  "a code that cannot be read": "/c/AAAA1",
  "an unknown address": "/nothing-here",
  ...Object.fromEntries(
    standings.map((standing) => [`the verdict ${standing}`, `/check?${journeyTo(journeys, standing).link}`]),
  ),
  "the longest plan": `/check?${longestPlan()}`,
};

let browser: Browser;
beforeAll(async () => {
  browser = await openChromium();
});
afterAll(() => browser.close());

describe.each([
  ["light", 320],
  ["light", 1280],
  ["dark", 320],
  ["dark", 1280],
] as const)("in %s at %i px", (colorScheme, width) => {
  test.each(Object.entries(kinds))("%s is accessible and fits", async (_kind, path) => {
    const page = await browser.newPage({ viewport: { width, height: 800 }, colorScheme });
    const faults: string[] = [];
    page.on(
      "console",
      (message) => message.text().includes("Content Security Policy") && faults.push(message.text()),
    );
    await page.goto(origin + path);
    await page.evaluate(() => {
      for (const details of document.querySelectorAll("details")) details.open = true;
    });
    expect(
      await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth),
    ).toBeLessThanOrEqual(0);
    expect(await findSmallTargets(page)).toEqual([]);
    expect(await runAxe(page)).toEqual([]);
    expect(faults).toEqual([]);
    await page.close();
  });
});

test("text twice as large still fits the smallest screen", async () => {
  const page = await browser.newPage({ viewport: { width: 320, height: 800 } });
  for (const path of Object.values(kinds)) {
    await page.goto(origin + path);
    // The reader's own text size is what rem follows.
    await page.evaluate(() => {
      document.documentElement.style.fontSize = "200%";
    });
    const over = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    expect(over, path).toBeLessThanOrEqual(0);
  }
  await page.close();
});

test.each(["A4", "Letter"])("the longest plan fits on two pages of %s", async (format) => {
  const page = await browser.newPage();
  await page.goto(`${origin}/check?${longestPlan()}`);
  const pdf = await page.pdf({ format, preferCSSPageSize: true });
  expect(countPages(pdf)).toBeLessThanOrEqual(2);
  expect(countPages(pdf)).toBeGreaterThan(0);
  await page.close();
});

test("forced colours keep the chosen answer and the fields visible", async () => {
  const page = await browser.newPage({ forcedColors: "active" });
  await page.goto(`${origin}${kinds["a reopened question"]}`);
  const outline = await page
    .locator(".lt-option:has(:checked)")
    .evaluate((element) => getComputedStyle(element).outlineStyle);
  expect(outline).toBe("solid");
  await page.close();
});

function longestPlan(): string {
  return journeys.toSorted((a, b) => b.steps - a.steps)[0]?.link ?? "";
}

/** Buttons, fields, and links that stand alone must be at least 44 by 44 CSS pixels. */
function findSmallTargets(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const targets = document.querySelectorAll(
      "button, summary, label:has(input), input:not([type=hidden], [type=radio]), a",
    );
    return [...targets]
      .filter(
        (target) =>
          !target.matches(":is(p, li) > a:not(.lt-link, .call, :only-child)") && !target.matches(".lt-skip"),
      )
      .filter((target) => {
        const { width, height } = target.getBoundingClientRect();
        return width > 0 && (height < 43.5 || width < 43.5);
      })
      .map((target) => target.outerHTML);
  });
}

/** Counts the page objects of a PDF. */
function countPages(pdf: Buffer): number {
  return pdf.toString("latin1").match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;
}
