import { execFileSync } from "node:child_process";
import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, inject, test } from "vitest";
import { openChromium } from "./chromium.ts";
import { findJourneys, finishCase } from "./find-journeys.ts";

const origin = inject("origin");
const journeys = findJourneys();
const told = "units=metric&room=18&bottle=750&outdoor=2&outdoor-humidity=70&pot=15&roots=30";
/** A plan to spray, so that it has days and amounts and a step up. */
const sprayed = finishCase("what-you-see=marks&host=pothos&mark-look=stipple&tap-test=dots");

let browser: Browser;
beforeAll(async () => {
  browser = await openChromium();
});
afterAll(() => browser.close());

test("without JavaScript: own numbers, a bad one, and the second look to a step up", async () => {
  const page = await browser.newPage({ javaScriptEnabled: false });
  await page.goto(`${origin}/check?${sprayed}`);
  const before = await readDays(page);
  await page.getByText("Your numbers:").click();
  await page.getByLabel("Units").selectOption("metric");
  await page.getByLabel("Warmth of the room").fill("28");
  await page.getByRole("button", { name: "Work it out" }).first().click();
  expect(await readDays(page)).not.toEqual(before);
  expect(new URL(page.url()).searchParams.get("room")).toBe("28");
  expect(new URL(page.url()).hash).toBe("#lt-numbers");

  await page.getByText("Your numbers:").click();
  await page.getByLabel("Warmth of the room").fill("300");
  await page.getByRole("button", { name: "Work it out" }).first().click();
  expect(await page.getByText("The room must be between 5 and 40 °C").isVisible()).toBe(true);
  expect(await page.getByLabel("Warmth of the room").inputValue()).toBe("300");

  await page.getByRole("link", { name: "Look again" }).click();
  await answer(page, "The same");
  await answer(page, "Washed, wiped, picked or cut");
  await answer(page, "No, all of it went well");
  expect(await page.getByText("Now go one step further").isVisible()).toBe(true);
  const code = await page.getByLabel("Code", { exact: true }).inputValue();
  await page.goto(`${origin}/c/${code}`);
  expect(await page.getByText("Now go one step further").isVisible()).toBe(true);
  await page.close();
});

test.each(["A4", "Letter"])(
  "the longest plans with all their sums fit on two pages of %s",
  async (format) => {
    const page = await browser.newPage();
    const file = join(mkdtempSync(join(tmpdir(), "leafturn-print-")), "plan.pdf");
    const longest = journeys.toSorted((a, b) => b.steps - a.steps).slice(0, 5);
    for (const { link } of longest) {
      await page.goto(`${origin}/check?${link}&${told}`);
      writeFileSync(file, await page.pdf({ format, preferCSSPageSize: true }));
      const [, pages] = /Pages:\s+(\d+)/.exec(execFileSync("pdfinfo", [file]).toString()) ?? [];
      expect(Number(pages), link).toBeLessThanOrEqual(2);
    }
    await page.close();
  },
);

async function answer(page: Page, label: string): Promise<void> {
  await page.getByRole("radio", { name: label, exact: true }).check();
  await page.getByRole("button", { name: "Next" }).click();
}

function readDays(page: Page): Promise<string[]> {
  return page.locator(".lt-days .lt-day").allTextContents();
}
