import type { Browser, Locator, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest";
import { standings } from "../../flows/edition.ts";
import { openChromium } from "./chromium.ts";
import { startCheck } from "./element-driver.ts";
import { findJourneys, journeyTo } from "./find-journeys.ts";
import { keepPicture } from "./keep-picture.ts";
import { runAxe } from "./run-axe.ts";

const origin = inject("origin");
const journeys = findJourneys();
let browser: Browser;

beforeAll(async () => {
  browser = await openChromium();
});
afterAll(() => browser.close());

/** Every state of the element: the case it begins with, and what to press then. */
const states: Record<string, { query: string; press?: (check: Locator) => Promise<unknown> }> = {
  "the opening": { query: "" },
  "the plant's name": { query: "what-you-see=white" },
  "near plant names": { query: "what-you-see=white", press: (check) => typePlant(check, "bazil") },
  "an unknown plant": { query: "what-you-see=white", press: (check) => typePlant(check, "qqqqzzzz") },
  "a question": { query: "what-you-see=white&host=basil" },
  "a reopened question": {
    query: "what-you-see=white&host=basil",
    press: (check) =>
      check
        .getByRole("link", { name: /^Change your answer/ })
        .first()
        .click(),
  },
  "a link with faults": { query: "e=99&what-you-see=white&bogus=1&host=basil" },
  ...Object.fromEntries(
    standings.map((standing) => [`the verdict ${standing}`, { query: journeyTo(journeys, standing).link }]),
  ),
};

describe.each([
  ["light", 320],
  ["light", 390],
  ["light", 768],
  ["light", 1280],
  ["dark", 320],
  ["dark", 390],
  ["dark", 768],
  ["dark", 1280],
] as const)("in %s at %i px", (colorScheme, width) => {
  test("every state is accessible, fits, and can be touched", async () => {
    const page = await browser.newPage({ viewport: { width, height: 800 }, colorScheme });
    await page.goto(`${origin}/help`);
    expect(await runAxe(page), "before the start").toEqual([]);
    for (const [name, { query, press }] of Object.entries(states)) {
      const check = await openState(page, query);
      await press?.(check);
      await check.evaluate((element) => {
        for (const details of element.shadowRoot?.querySelectorAll("details") ?? []) details.open = true;
      });
      await keepPicture(page, `${name} ${colorScheme} ${width}`);
      expect(await measureOverflow(page), name).toBeLessThanOrEqual(0);
      expect(await findSmallTargets(check), name).toEqual([]);
      expect(await runAxe(page), name).toEqual([]);
    }
    await page.close();
  });
});

test("text twice as large fits the smallest screen, though the page's root size is fixed", async () => {
  const large = await openChromium(["--blink-settings=defaultFontSize=32"]);
  const page = await large.newPage({ viewport: { width: 320, height: 800 } });
  await page.goto(`${origin}/help`);
  for (const [name, { query, press }] of Object.entries(states)) {
    const check = await openState(page, query);
    await press?.(check);
    expect(await measureOverflow(page), name).toBeLessThanOrEqual(0);
    await keepPicture(page, `${name} text 200`);
  }
  const size = await page
    .locator("leafturn-check .lt-verdict .lt-lead")
    .evaluate((element) => getComputedStyle(element).fontSize);
  expect(Number.parseFloat(size)).toBeGreaterThanOrEqual(34);
  await large.close();
});

test("forced colors keep the chosen answer, the fields and the buttons visible", async () => {
  const page = await browser.newPage({ forcedColors: "active", viewport: { width: 390, height: 800 } });
  await page.goto(`${origin}/help`);
  const check = await openState(page, "what-you-see=white&host=basil");
  await check
    .getByRole("link", { name: /^Change your answer/ })
    .first()
    .click();
  const outline = await check
    .locator(".lt-option:has(:checked)")
    .evaluate((element) => getComputedStyle(element).outlineStyle);
  expect(outline).toBe("solid");
  await keepPicture(page, "forced colors");
  await page.close();
});

test("with reduced motion nothing is animated", async () => {
  const page = await browser.newPage({ reducedMotion: "reduce" });
  await page.goto(`${origin}/help`);
  const check = await openState(page, "");
  const durations = await check.evaluate((element) =>
    [...(element.shadowRoot?.querySelectorAll("*") ?? [])].map(
      (node) => getComputedStyle(node).transitionDuration,
    ),
  );
  expect(new Set(durations)).toEqual(new Set(["0s"]));
  await page.close();
});

/** Puts a fresh element with that case in the place of the one on the page, and opens it. */
async function openState(page: Page, query: string): Promise<Locator> {
  await page.evaluate((given) => {
    sessionStorage.clear();
    const old = document.querySelector("leafturn-check");
    const fresh = document.createElement("leafturn-check");
    const link = document.createElement("a");
    link.href = "/check";
    link.className = "call";
    link.textContent = "Check my plant";
    fresh.append(link);
    fresh.setAttribute("case", given);
    old?.replaceWith(fresh);
  }, query);
  const check = await startCheck(page);
  await check.locator(".lt-card, .lt-keep").first().waitFor();
  if (await check.locator(".lt-verdict").count()) await check.locator(".lt-sample").waitFor();
  return check;
}

async function typePlant(check: Locator, name: string): Promise<void> {
  await check.getByLabel("Name of the plant").fill(name);
  await check.getByRole("button", { name: "Find this plant" }).click();
}

function measureOverflow(page: Page): Promise<number> {
  return page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
}

/** Buttons, fields, and links that stand alone must be at least 44 by 44 CSS pixels. */
function findSmallTargets(check: Locator): Promise<string[]> {
  return check.evaluate((element) => {
    const targets = element.shadowRoot?.querySelectorAll(
      "button, summary, label:has(input), input:not([type=hidden], [type=radio]), a",
    );
    return [...(targets ?? [])]
      .filter((target) => !target.matches(":is(p, li) > a:not(.lt-link, :only-child)"))
      .filter((target) => {
        const { width, height } = target.getBoundingClientRect();
        return width > 0 && (height < 43.5 || width < 43.5);
      })
      .map((target) => target.outerHTML);
  });
}
