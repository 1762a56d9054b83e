import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, inject, test } from "vitest";
import { openChromium } from "./chromium.ts";
import { answerAll, startCheck } from "./element-driver.ts";
import { findJourneys, journeyTo } from "./find-journeys.ts";
import { type HostServer, openHost, serveHosts } from "./host-pages.ts";
import { keepPicture } from "./keep-picture.ts";
import { runAxe } from "./run-axe.ts";

const origin = inject("origin");
const journey = journeyTo(findJourneys(), "suspected");
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

const open = (attributes = "") =>
  openHost(browser, `${hosts.origin}/plain.html?attributes=${encodeURIComponent(attributes)}`);

test("unknown values of every attribute mean the visible default, and the console stays empty", async () => {
  const { page, faults } = await open(
    'branch="moon" lang="xx" language="tlh" host="" case="" base="javascript:alert(1)" theme="loud"',
  );
  const check = await startCheck(page);
  await answerAll(check, journey.answers);
  expect(await check.locator(".lt-branches li").count()).toBe(2);
  expect(await check.locator(".lt").getAttribute("lang")).toBe("en");
  expect(faults).toEqual({ violations: [], messages: [] });
  await page.close();
});

test("a known branch is the only one shown, and goes along to the slip", async () => {
  const { page } = await open('branch="north-yard"');
  const check = await startCheck(page);
  await answerAll(check, journey.answers);
  expect(await check.locator(".lt-branches li").allTextContents()).toEqual([
    expect.stringContaining("North Yard"),
  ]);
  const slip = await check.getByRole("link", { name: "Print a slip" }).getAttribute("href");
  expect(slip?.replace(/&made=\d{4}-\d\d-\d\d/, "")).toBe(`${origin}/slip?${journey.link}&branch=north-yard`);
  await page.close();
});

test.each([
  ["a whole link", () => `${origin}/check?${journey.link}#lt-now`],
  ["its query", () => journey.link],
])("a case begins from %s", async (_kind, given) => {
  const { page } = await open(`case="${given()}"`);
  const check = await startCheck(page);
  expect(await check.locator("h2#lt-now").textContent()).toMatch(/^This is most likely/);
  await page.close();
});

test("a case begins from its code, and a wrong code is named", async () => {
  const response = await fetch(`${origin}/api/case?${journey.link}`);
  const { code } = (await response.json()) as { code: string };
  const { page } = await open(`case="${code.toLowerCase()}"`);
  const check = await startCheck(page);
  await check.getByRole("link", { name: "Show the plan again" }).click();
  expect(await check.locator("h2#lt-now").textContent()).toMatch(/^This is most likely/);
  await page.close();
  const wrong = await open('case="AAAA1"');
  const fresh = await startCheck(wrong.page);
  expect(await fresh.getByText("One character of the code is not right").isVisible()).toBe(true);
  expect(await fresh.getByText("What do you notice first?").isVisible()).toBe(true);
  expect(wrong.faults).toEqual({ violations: [], messages: [] });
  await wrong.page.close();
});

test("of a broken case the valid part is kept and the rest named", async () => {
  const { page, faults } = await open('case="e=99&what-you-see=white&bogus=1&host=basil&white-look=zzz"');
  const check = await startCheck(page);
  for (const part of ["bogus", "white-look=zzz", "guide number 99"]) {
    expect(await check.getByText(part).isVisible(), part).toBe(true);
  }
  expect(await check.locator(".lt-line").count()).toBe(2);
  // The old edition is asked for and is gone; nothing else may be said.
  expect(faults).toEqual({ violations: [], messages: [] });
  await page.close();
});

test.each(["live.json", "first.json", "check.js"])(
  "without %s there are the link and the phone",
  async (file) => {
    const { page } = await open('branch="canal-street"');
    await page.route(`**/${file}*`, (route) => route.abort());
    await page.locator("leafturn-check a").click();
    const call = page.getByRole("link", { name: "Canal Street: +1-555-0100" });
    await call.waitFor();
    expect(await call.getAttribute("href")).toBe("tel:+1-555-0100");
    await keepPicture(page, `fault without ${file}`);
    expect(await runAxe(page)).toEqual([]);
    await page.unroute(`**/${file}*`);
    if (file !== "check.js") {
      await page.getByRole("button", { name: "Try again" }).click();
      await page.getByText("What do you notice first?").waitFor();
    } else {
      await page.locator("leafturn-check a").first().click();
      await page.waitForURL(`${origin}/check`);
    }
    await page.close();
  },
);

test("a program with another byte in it is refused", async () => {
  const { page } = await open();
  await page.route("**/check.js", async (route) => {
    const response = await route.fetch();
    await route.fulfill({ response, body: `${await response.text()}\n` });
  });
  await page.locator("leafturn-check a").click();
  await page.getByRole("link", { name: /^Canal Street/ }).waitFor();
  await page.close();
});

test("a verdict that comes before its prose says so, keeps the answers, and fetches again", async () => {
  const { page } = await open();
  await page.route("**/prose.json", (route) => route.abort());
  const check = await startCheck(page);
  await answerAll(check, journey.answers);
  await check.getByText("We could not fetch the steps").waitFor();
  expect(await check.locator("h2#lt-now").textContent()).toMatch(/^This is most likely/);
  expect(await check.locator(".lt-step").count()).toBe(0);
  await keepPicture(page, "fault without prose");
  expect(await runAxe(page)).toEqual([]);
  await page.unroute("**/prose.json");
  await check.getByRole("button", { name: "Try again" }).click();
  await check.locator(".lt-step").first().waitFor();
  expect(await check.locator(".lt-step").count()).toBe(journey.steps);
  await page.close();
});

test("where storage is forbidden the check works all the same", async () => {
  const { page, faults } = await open();
  await page.addInitScript(() => {
    Object.defineProperty(window, "sessionStorage", {
      get() {
        throw new DOMException("denied", "SecurityError");
      },
    });
  });
  await page.reload();
  await answerAll(await startCheck(page), journey.answers);
  expect(faults.messages).toEqual([]);
  await page.close();
});
