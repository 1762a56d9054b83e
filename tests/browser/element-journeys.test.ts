import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, inject, test } from "vitest";
import { standings } from "../../flows/edition.ts";
import { openChromium } from "./chromium.ts";
import { answerAll, answerByKeys, fetchRest, readFocused, startCheck, tabTo } from "./element-driver.ts";
import { findJourneys, journeyTo } from "./find-journeys.ts";
import { type HostServer, openHost, serveHosts } from "./host-pages.ts";

const origin = inject("origin");
const journeys = findJourneys();
const headline = {
  suspected: /^This is most likely: /,
  leaning: /^This looks like: .*not sure$/,
  undetermined: /^We cannot tell from this/,
};
let browser: Browser;
let hosts: HostServer;

beforeAll(async () => {
  browser = await openChromium();
  hosts = await serveHosts(origin);
});
afterAll(async () => {
  await browser.close();
  await hosts.close();
});

const open = (name = "plain.html", attributes = "") =>
  openHost(browser, `${hosts.origin}/${name}?attributes=${encodeURIComponent(attributes)}`);

test.each(standings)("by keyboard alone, to %s", async (standing) => {
  const journey = journeyTo(journeys, standing);
  const { page, faults } = await open();
  await page.keyboard.press("Tab");
  await page.keyboard.press("Enter");
  await page.locator("#lt-now").waitFor();
  await answerByKeys(page, journey.answers);
  const check = page.locator("leafturn-check");
  expect(await check.locator("h2#lt-now").textContent()).toMatch(headline[standing]);
  expect(await readFocused(page, "id")).toBe("lt-now");
  expect(await check.getByRole("heading", { name: "Bring a sample", level: 3 }).count()).toBe(1);
  const link = await check.getByLabel("Link", { exact: true }).inputValue();
  expect(link.replace(/&made=\d{4}-\d\d-\d\d$/, "")).toBe(`${origin}/check?${journey.link}`);
  expect(faults).toEqual({ violations: [], messages: [] });
  await page.close();
});

test("an answer needs no network, and after opening a lost connection loses nothing", async () => {
  const journey = journeyTo(journeys, "suspected");
  const { page } = await open();
  const check = await startCheck(page);
  await fetchRest(page);
  await page.context().setOffline(true);
  const requests: string[] = [];
  page.on("request", (request) => {
    // Counts are sent and not waited for.
    if (!request.url().endsWith("/api/counts")) requests.push(request.url());
  });
  await answerAll(check, journey.answers);
  expect(await check.locator("h2#lt-now").textContent()).toMatch(headline.suspected);
  expect(await check.locator(".lt-step").count()).toBe(journey.steps);
  expect(requests).toEqual([]);
  await page.close();
});

test("an answer is changed in place, the later ones stay, and what was dropped is said", async () => {
  const { page } = await open("plain.html", 'case="e=1&what-you-see=white&host=basil&white-look=film"');
  const check = await startCheck(page);
  await check.getByRole("link", { name: "Change your answer to: What do you notice first?" }).click();
  expect(await check.locator(".lt-card").count()).toBe(1);
  expect(await check.getByRole("radio", { name: "Something white" }).isChecked()).toBe(true);
  await check.getByRole("link", { name: "Keep my answer" }).click();
  expect(await readFocused(page, "data-to")).toBe("what-you-see");
  await page.keyboard.press("Enter");
  await check.getByRole("radio", { name: "Tiny flies" }).check();
  await check.getByRole("button", { name: "Save this answer" }).click();
  expect(await check.getByRole("log").getByText("We set these answers aside").isVisible()).toBe(true);
  expect(await check.getByText("Basil", { exact: true }).isVisible()).toBe(true);
  await page.close();
});

test("one step back by key and by link, but never while a name is typed", async () => {
  const { page } = await open("plain.html", 'case="what-you-see=white"');
  const check = await startCheck(page);
  await tabTo(page, 'input[name="plant"]');
  await page.keyboard.type("bas");
  await page.keyboard.press("Backspace");
  expect(await check.getByLabel("Name of the plant").inputValue()).toBe("ba");
  await tabTo(page, '[data-lt="back"]');
  await page.keyboard.press("Backspace");
  expect(await check.getByText("What do you notice first?").isVisible()).toBe(true);
  await answerAll(check, [{ to: "what-you-see", is: "flies" }]);
  await check.getByRole("link", { name: "One step back" }).click();
  expect(await check.getByText("Question 1", { exact: true }).isVisible()).toBe(true);
  await page.close();
});

test("a reload in the tab goes on where it was, and a new tab starts afresh", async () => {
  const journey = journeyTo(journeys, "leaning");
  const { page } = await open();
  await answerAll(await startCheck(page), journey.answers.slice(0, 2));
  await page.reload();
  const check = page.locator("leafturn-check");
  await check.locator("#lt-now").waitFor();
  expect(await check.locator(".lt-line").count()).toBe(2);
  await answerAll(check, journey.answers.slice(2));
  await page.reload();
  expect(await check.locator("h2#lt-now").textContent()).toMatch(headline.leaning);
  expect(await page.context().cookies()).toEqual([]);
  expect(await page.evaluate(() => localStorage.length)).toBe(0);
  await page.close();
  const other = await open();
  expect(await other.page.locator("leafturn-check a").first().isVisible()).toBe(true);
  await other.page.close();
});

test("each message is announced once: the answer by the log, the question by the focus", async () => {
  const { page } = await open();
  const check = await startCheck(page);
  await check.getByRole("log").evaluate((log) => {
    const added: string[] = [];
    Object.assign(window, { added });
    new MutationObserver((changes) => {
      for (const { addedNodes } of changes) for (const node of addedNodes) added.push(node.textContent ?? "");
    }).observe(log, { childList: true, subtree: true, characterData: true });
  });
  await answerAll(check, [{ to: "what-you-see", is: "white" }]);
  const added = await page.evaluate(() => (window as unknown as { added: string[] }).added);
  expect(added).toHaveLength(1);
  expect(added[0]).toContain("Something white");
  expect(await check.getByRole("log").count()).toBe(1);
  expect(await readFocused(page, "id")).toBe("lt-now");
  await page.close();
});

test("the page around is told of start, verdict and sample, and of nothing personal", async () => {
  const journey = journeyTo(journeys, "undetermined");
  const { page } = await open("plain.html", 'branch="north-yard"');
  await page.evaluate(() => {
    const told: unknown[] = [];
    Object.assign(window, { told });
    for (const name of ["leafturn-started", "leafturn-verdict", "leafturn-sample"]) {
      document.addEventListener(name, (event) => told.push([name, (event as CustomEvent).detail]));
    }
  });
  await answerAll(await startCheck(page), journey.answers);
  expect(await page.evaluate(() => (window as unknown as { told: unknown[] }).told)).toEqual([
    ["leafturn-started", { edition: 1, resumed: false }],
    ["leafturn-verdict", { edition: 1, standing: "undetermined", condition: null }],
    ["leafturn-sample", { edition: 1, standing: "undetermined", branch: "north-yard" }],
  ]);
  await page.close();
});

test("nothing on the page moves but by a press", async () => {
  const journey = journeyTo(journeys, "suspected");
  const { page } = await openHost(browser, "about:blank");
  // A slow first script: the link is painted long before it becomes the check.
  await page.route("**/embed/**", async (route) => {
    await new Promise((resolve) => setTimeout(resolve, 700));
    await route.continue();
  });
  await page.goto(`${hosts.origin}/plain.html`);
  await page.evaluate(() => {
    let shift = 0;
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) {
        const { value, hadRecentInput } = entry as PerformanceEntry & {
          value: number;
          hadRecentInput: boolean;
        };
        if (!hadRecentInput) shift += value;
      }
      Object.assign(window, { shift });
    }).observe({ type: "layout-shift", buffered: true });
    Object.assign(window, { shift });
  });
  await page.waitForFunction(() => customElements.get("leafturn-check") !== undefined);
  const check = await startCheck(page);
  await page.waitForTimeout(1_000);
  await answerAll(check, journey.answers);
  await page.waitForTimeout(700);
  const readShift = () => page.evaluate(() => (window as unknown as { shift: number }).shift);
  expect(await readShift()).toBe(0);
  // The gauge itself works: a heading that moves by itself is noticed.
  await page.evaluate(() => {
    window.scrollTo(0, 0);
    const block = document.createElement("p");
    block.textContent = "Moved.";
    document.querySelector("main")?.prepend(block);
  });
  await page.waitForTimeout(700);
  expect(await readShift()).toBeGreaterThan(0);
  await page.close();
});
