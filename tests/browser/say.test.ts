import type { Browser, Locator, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest";
import { openChromium } from "./chromium.ts";
import { startCheck, tabTo } from "./element-driver.ts";
import { keepPicture } from "./keep-picture.ts";
import { runAxe } from "./run-axe.ts";

const origin = inject("origin");
const sentence =
  "My basil has spider mites, white fuzzy stuff on the stems, no webs, the zebra is fine, and we have a cat";
let browser: Browser;

beforeAll(async () => {
  browser = await openChromium();
});
afterAll(() => browser.close());

/** Answers what is still asked with "not sure", until the verdict stands. */
async function goOn(check: Locator | Page): Promise<void> {
  for (let i = 0; i < 20; i++) {
    if ((await check.locator(".lt-plan, .lt-verdict-name").count()) > 0) return;
    const unknown = check.getByRole("button", { name: "I don’t know" });
    if ((await unknown.count()) > 0) {
      await unknown.click();
      continue;
    }
    await check.locator('input[type="radio"][value="not-sure"]').check();
    await check.getByRole("button", { name: "Next" }).click();
  }
}

describe("words typed into the element", () => {
  test("are read in the browser by keyboard alone; what is agreed to counts, the theory is remarked on", async () => {
    const page = await browser.newPage();
    const sent: string[] = [];
    page.on("request", (request) =>
      sent.push(`${request.method()} ${request.url()} ${request.postData() ?? ""}`),
    );
    await page.goto(`${origin}/help`);
    const check = await startCheck(page);
    expect(sent.filter((line) => /say\.js|lexicon/.test(line))).toEqual([]);
    await tabTo(page, "textarea");
    await page.keyboard.type(sentence);
    await page.keyboard.press("Tab");
    await page.keyboard.press("Enter");
    await check.getByRole("heading", { name: "Is that right?" }).waitFor();
    expect(sent.some((line) => line.includes("/lexicon.json"))).toBe(true);
    // From here on nothing needs the network.
    await page.context().setOffline(true);
    expect(await check.getByRole("checkbox", { name: /^white cottony tufts/ }).isChecked()).toBe(true);
    expect(await check.getByRole("checkbox", { name: /^Basil/ }).isChecked()).toBe(true);
    expect(await check.getByText("It may be: Spider mites").count()).toBe(1);
    expect(await check.getByText("the zebra is fine").count()).toBeGreaterThan(0);
    await tabTo(page, 'input[name="fine-webbing"]');
    await page.keyboard.press("Space");
    await check.getByRole("button", { name: "Yes, go on" }).focus();
    await page.keyboard.press("Enter");
    await check.locator(".lt-prompt").first().waitFor();
    const remembered = await page.evaluate(() => JSON.stringify(sessionStorage));
    expect(remembered).toContain("white-cottony-tufts=yes");
    expect(remembered).not.toContain("fine-webbing");
    expect(remembered).toContain("thought=spider-mites");
    await goOn(check);
    expect(await check.getByText("You thought of this: Spider mites.").count()).toBe(1);
    await check.locator("textarea").fill("Will it live?");
    await check.getByRole("button", { name: "Read this" }).click();
    await check.getByRole("heading", { name: "You asked" }).waitFor();
    expect(sent.filter((line) => /zebra|fuzzy|POST/i.test(line) && !/api\/counts/.test(line))).toEqual([]);
    expect(remembered).not.toContain("zebra");
    await page.close();
  });

  test("are not lost without a word when the reader cannot be fetched", async () => {
    const page = await browser.newPage();
    await page.goto(`${origin}/help`);
    await page.route("**/lexicon.json", (route) => route.abort());
    const check = await startCheck(page);
    await check.locator("textarea").fill(sentence);
    await check.getByRole("button", { name: "Read this" }).click();
    await check.getByText("We cannot read that just now").waitFor();
    expect(await check.locator("textarea").inputValue()).toBe(sentence);
    await page.unroute("**/lexicon.json");
    await check.getByRole("button", { name: "Read this" }).click();
    await check.getByRole("heading", { name: "Is that right?" }).waitFor();
    await page.close();
  });
});

test("words typed on the page without JavaScript are read by the server", async () => {
  const page = await browser.newPage({ javaScriptEnabled: false });
  await page.goto(`${origin}/check`);
  await page.getByLabel("Tell us in your own words").fill(sentence);
  await page.getByRole("button", { name: "Read this" }).click();
  expect(page.url()).not.toMatch(/zebra|fuzzy/);
  await page.getByRole("checkbox", { name: /^no fine webs/ }).uncheck();
  await page.getByRole("button", { name: "Yes, go on" }).click();
  const { search } = new URL(page.url());
  expect(search).toContain("white-cottony-tufts=yes");
  expect(search).toContain("host=basil");
  expect(search).toContain("thought=spider-mites");
  expect(search).not.toMatch(/fine-webbing|zebra|household=[a-z]/);
  await goOn(page);
  expect(await page.getByText("You thought of this: Spider mites.").count()).toBe(1);
  await page.close();
});

describe.each([
  ["light", 320],
  ["light", 390],
  ["light", 1280],
  ["dark", 320],
  ["dark", 390],
  ["dark", 1280],
] as const)("what was understood, in %s at %i px", (colorScheme, width) => {
  test("is accessible and fits", async () => {
    const page = await browser.newPage({ viewport: { width, height: 800 }, colorScheme });
    await page.goto(`${origin}/help`);
    const check = await startCheck(page);
    await check.locator("textarea").fill(`${sentence}. Will it live? My monstera is fine`);
    await keepPicture(page, `say field ${colorScheme} ${width}`);
    await check.getByRole("button", { name: "Read this" }).click();
    await check.getByRole("heading", { name: "Is that right?" }).waitFor();
    await keepPicture(page, `say ${colorScheme} ${width}`);
    expect(
      await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth),
    ).toBeLessThanOrEqual(0);
    expect(await runAxe(page)).toEqual([]);
    await page.close();
  });
});
