import { execFileSync } from "node:child_process";
import { mkdtempSync, writeFileSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import ICAL from "ical.js";
import type { Browser, Locator, Page } from "playwright-core";
import { afterAll, beforeAll, expect, inject, test } from "vitest";
import { openChromium } from "./chromium.ts";
import { fetchRest, readFocused, startCheck } from "./element-driver.ts";
import { finishCase } from "./find-journeys.ts";
import { type HostServer, openHost, serveHosts } from "./host-pages.ts";

const origin = inject("origin");
/** A plan to spray, in dry air. */
const sprayed = finishCase("what-you-see=marks&host=pothos&mark-look=stipple&tap-test=dots&air=dry");
const repotted = finishCase("what-you-see=droop&host=pothos&soil-check=soggy&roots-look=brown-soft");

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

/** Opens the case in the element on the strictest page, waits for all of the program, and cuts the line. */
async function openOffline(query: string, attributes = "") {
  const asked = encodeURIComponent(`case="${query}" ${attributes}`);
  const { page, faults } = await openHost(browser, `${hosts.origin}/plain.html?attributes=${asked}`);
  const check = await startCheck(page);
  await check.locator(".lt-days").waitFor();
  await fetchRest(page);
  await page.context().setOffline(true);
  return { page, check, faults };
}

const readDays = (check: Locator) => check.locator(".lt-days .lt-day").allTextContents();

async function fillRoom(check: Locator, room: string) {
  await check
    .locator(".lt-numbers:not([open]) > summary")
    .click({ timeout: 500 })
    .catch(() => {});
  await check.getByLabel("Warmth of the room").fill(room);
  await check.locator("#lt-numbers").getByRole("button", { name: "Work it out" }).click();
}

test("days follow the room without a connection, and a bad number harms nothing", async () => {
  const { page, check, faults } = await openOffline(sprayed);
  const requests: string[] = [];
  page.on("request", (request) => requests.push(request.url()));
  const usual = await readDays(check);
  await fillRoom(check, "82");
  const warm = await readDays(check);
  expect(warm).not.toEqual(usual);
  expect(await check.getByText("At 82 °F").first().isVisible()).toBe(true);

  await fillRoom(check, "300");
  expect(await check.getByText("The room must be between 5 and 40 °C").isVisible()).toBe(true);
  expect(await check.getByLabel("Warmth of the room").inputValue()).toBe("300");
  expect(await readFocused(page, "id")).toBe("lt-room");
  expect(await readDays(check)).toEqual(usual);
  expect(await check.locator(".lt-shopping li").count()).toBeGreaterThan(1);

  await check.getByLabel("Units").selectOption("metric");
  await fillRoom(check, "21,5");
  expect(await check.locator("#lt-numbers > summary").textContent()).toContain("21.5 °C");
  expect(requests).toEqual([]);
  expect(faults).toEqual({ violations: [], messages: [] });
  await page.close();
});

test("air, pot and water are worked out in place, and what is typed elsewhere stays", async () => {
  const { page, check } = await openOffline(repotted);
  await check.getByText("How big a pot").click();
  await check.getByLabel("Width across the top").fill("6");
  await check.getByLabel("Roots you cut away").fill("90 of all");
  await check.locator("#lt-pot-sum").getByRole("button", { name: "Work it out" }).click();
  expect(await check.getByLabel("Roots you cut away").getAttribute("aria-invalid")).toBe("true");
  await check.getByLabel("Roots you cut away").fill("40");
  await check.getByText("Your numbers:").click();
  await check.getByLabel("Size of your spray bottle").fill("16");
  await check.locator("#lt-pot-sum").getByRole("button", { name: "Work it out" }).click();
  expect(await check.getByText("Move it to a pot of").isVisible()).toBe(true);
  expect(await check.getByLabel("Size of your spray bottle").inputValue()).toBe("16");
  expect(
    await check.locator(".lt-shopping").getByText("potting mix", { exact: false }).first().isVisible(),
  ).toBe(true);
  await page.close();
});

test("a reload in the tab brings the numbers back", async () => {
  const { page, check } = await openOffline(sprayed);
  await fillRoom(check, "18 C");
  const days = await readDays(check);
  await page.context().setOffline(false);
  await page.reload();
  await check.locator(".lt-days").waitFor();
  expect(await readDays(check)).toEqual(days);
  await check.getByText("Your numbers:").click();
  expect(await check.getByLabel("Warmth of the room").inputValue()).toBe("18 C");
  await page.close();
});

test("the calendar file is made in place, and says what the server's says", async () => {
  const { page, check, faults } = await openOffline(`${sprayed}&start=2027-03-01&room=18&units=metric`);
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    check.getByRole("link", { name: "Put these days into my calendar" }).click(),
  ]);
  expect(download.suggestedFilename()).toBe("plant-check.ics");
  const made = await readFile(await download.path(), "utf8");
  const href = await check
    .getByRole("link", { name: "Put these days into my calendar" })
    .getAttribute("href");
  await page.context().setOffline(false);
  const sent = await (await fetch(href ?? "")).text();
  const steady = (text: string) => text.replace(/^(DTSTAMP|LAST-MODIFIED|SEQUENCE):.*\r\n/gm, "");
  expect(steady(made)).toBe(steady(sent));
  const events = new ICAL.Component(ICAL.parse(made)).getAllSubcomponents("vevent");
  const dates = new Set(events.map((event) => String(event.getFirstPropertyValue("dtstart"))));
  expect(dates.size).toBe((await readDays(check)).length);
  expect(faults).toEqual({ violations: [], messages: [] });
  await page.close();
});

test("paper holds the check alone, and comes without a connection", async () => {
  const { page, check, faults } = await openOffline(sprayed);
  await check.getByRole("link", { name: "Print this check" }).click();
  const paper = await readPaper(page);
  expect(paper.text).toContain("Days to tick off");
  expect(paper.text).not.toContain("What comes after.");
  expect(paper.folded).toBe(0);
  expect(page.context().pages()).toHaveLength(1);
  expect(await countSheets(paper)).toBeLessThanOrEqual(2);
  expect(faults).toEqual({ violations: [], messages: [] });
  await page.close();
});

test("the second look is asked and answered in place", async () => {
  const { page, check, faults } = await openOffline(sprayed);
  await check.getByRole("link", { name: "Look again" }).click();
  await check.getByRole("radio", { name: "Better" }).check();
  await check.getByRole("button", { name: "Next" }).click();
  expect(await check.getByText("Finish the rounds you have begun").isVisible()).toBe(true);
  expect(faults).toEqual({ violations: [], messages: [] });
  await page.close();
});

test("a link from an earlier day and a code ask first how it went, and the plan is one press away", async () => {
  const link = `${sprayed}&made=2026-01-05`;
  for (const given of [link, await readCode()]) {
    const asked = encodeURIComponent(`case="${given}"`);
    const { page } = await openHost(browser, `${hosts.origin}/plain.html?attributes=${asked}`);
    const check = await startCheck(page);
    expect(await check.getByText("How is the plant now?").isVisible()).toBe(true);
    expect(await check.getByText("Have you been treating it?").count()).toBe(given === link ? 0 : 1);
    await check.getByRole("link", { name: "Show the plan again" }).click();
    await check.locator(".lt-days").waitFor();
    // The tab remembers that the plan was seen today.
    await page.reload();
    await check.locator(".lt-days").waitFor();
    await page.close();
  }
});

async function readCode(): Promise<string> {
  const response = await fetch(`${origin}/api/case?${sprayed}`);
  const { code } = (await response.json()) as { code: string };
  return code;
}

/** How many sheets of A4 that frame takes. */
async function countSheets({ html, css }: { html: string; css: string }): Promise<number> {
  const page = await browser.newPage();
  await page.setContent(html);
  await page.addStyleTag({ content: css });
  const file = join(mkdtempSync(join(tmpdir(), "leafturn-print-")), "paper.pdf");
  writeFileSync(file, await page.pdf({ format: "A4", preferCSSPageSize: true }));
  await page.close();
  return Number(/Pages:\s+(\d+)/.exec(execFileSync("pdfinfo", [file]).toString())?.[1]);
}

/** What stands in the frame that goes to paper. */
function readPaper(page: Page) {
  return page.evaluate(() => {
    const root = document.querySelector("leafturn-check")?.shadowRoot;
    const paper = root?.querySelector("iframe")?.contentDocument;
    return {
      html: paper?.documentElement.outerHTML ?? "",
      css: (paper?.adoptedStyleSheets ?? [])
        .flatMap(({ cssRules }) => [...cssRules].map(({ cssText }) => cssText))
        .join("\n"),
      text: paper?.body.textContent ?? "",
      folded: paper?.querySelectorAll(".lt-fold:not([open])").length ?? -1,
    };
  });
}
