import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest";
import { openChromium } from "./chromium.ts";
import { answerAll, startCheck } from "./element-driver.ts";
import { findJourneys, journeyTo } from "./find-journeys.ts";
import { type HostServer, openHost, serveHosts } from "./host-pages.ts";
import { keepPicture } from "./keep-picture.ts";

const origin = inject("origin");
const journey = journeyTo(findJourneys(), "suspected");
const clean = { violations: [], messages: [] };
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

const open = (name: string, attributes = "") =>
  openHost(browser, `${hosts.origin}/${name}.html?attributes=${encodeURIComponent(attributes)}`, {
    viewport: { width: 760, height: 900 },
  });

/** What a shopper sees of the first answer: nothing of it may depend on the page around. */
function readLook(page: Page): Promise<object> {
  return page
    .locator("leafturn-check .lt-option")
    .first()
    .evaluate((option) => {
      // The column may be narrower than on a plain page, and the drawings beside the answers smaller with it.
      const tall = option.getBoundingClientRect().height >= 56;
      const { fontFamily, fontSize, fontStyle, letterSpacing, color, direction, textAlign } =
        getComputedStyle(option);
      const { textTransform, whiteSpace, wordSpacing, textIndent, cursor, userSelect } =
        getComputedStyle(option);
      return {
        ...{ tall, fontFamily, fontSize, fontStyle, letterSpacing, color, direction, textAlign },
        ...{ textTransform, whiteSpace, wordSpacing, textIndent, cursor, userSelect },
      };
    });
}

describe.each(["hostile-reset", "root-62-5", "right-to-left", "loaded-twice"])("on the page %s", (name) => {
  test("it looks and works as on a plain page", async () => {
    const plain = await open("plain");
    await startCheck(plain.page);
    const wanted = await readLook(plain.page);
    const { page, faults } = await open(name);
    const check = await startCheck(page);
    expect(await readLook(page)).toEqual(wanted);
    await keepPicture(page, `host ${name} question`);
    await answerAll(check, journey.answers);
    expect(await check.locator("h2#lt-now").textContent()).toMatch(/^This is most likely/);
    expect(await check.locator(".lt-step").count()).toBe(journey.steps);
    await keepPicture(page, `host ${name} verdict`);
    expect(faults).toEqual(clean);
    await plain.page.close();
    await page.close();
  });
});

test("in a narrow column it folds to one column, whatever the window's width", async () => {
  const { page, faults } = await open("narrow-column");
  const check = await startCheck(page);
  const columns = await check
    .locator(".lt-options")
    .evaluate(
      (options) => new Set([...options.children].map((child) => child.getBoundingClientRect().left)).size,
    );
  expect(columns).toBe(1);
  await keepPicture(page, "host narrow column");
  expect(faults).toEqual(clean);
  await page.close();
});

test("two on a page are two conversations, each with its own memory", async () => {
  const { page, faults } = await open("two-on-a-page");
  const one = await startCheck(page, "#one");
  const two = await startCheck(page, "#two");
  await answerAll(one, [{ to: "what-you-see", is: "white" }]);
  expect(await two.getByText("Basil", { exact: true }).isVisible()).toBe(true);
  expect(await two.getByRole("radio", { name: "Something white" }).count()).toBe(1);
  await page.reload();
  for (const check of [one, two]) await check.locator("#lt-now").waitFor();
  expect(await one.getByText("Something white", { exact: true }).isVisible()).toBe(true);
  expect(await two.getByText("Question 2", { exact: true }).isVisible()).toBe(true);
  await keepPicture(page, "host two on a page");
  expect(faults).toEqual(clean);
  await page.close();
});

test("removed and put back, also in another document, it goes on", async () => {
  const { page, faults } = await open("plain");
  const check = await startCheck(page);
  await answerAll(check, [{ to: "what-you-see", is: "white" }]);
  await page.evaluate(async () => {
    const element = document.querySelector("leafturn-check");
    if (!element) return;
    element.remove();
    await new Promise((resolve) => setTimeout(resolve, 50));
    document.querySelector("main")?.prepend(element);
  });
  await answerAll(check, [{ to: "host", is: "basil" }]);
  expect(await check.locator(".lt-line").count()).toBe(2);
  const padding = await page.evaluate(() => {
    const frame = document.createElement("iframe");
    document.body.append(frame);
    const element = document.querySelector("leafturn-check");
    if (element) frame.contentDocument?.body.append(element);
    const inner = element?.shadowRoot?.querySelector(".lt-card");
    return inner ? frame.contentWindow?.getComputedStyle(inner).paddingTop : "";
  });
  expect(padding).not.toBe("0px");
  expect(faults).toEqual(clean);
  await page.close();
});

test("an element without a link brings its own button", async () => {
  const { page, faults } = await open("without-link");
  await page.getByRole("button", { name: "Check my plant" }).click();
  await page.getByText("What do you notice first?").waitFor();
  expect(faults).toEqual(clean);
  await page.close();
});

test("a page's custom properties and parts dress it", async () => {
  const { page } = await open("themed");
  const check = await startCheck(page);
  const styles = await check.evaluate((element) => {
    const find = (selector: string) => element.shadowRoot?.querySelector(selector) ?? element;
    return [
      getComputedStyle(find(".lt")).backgroundColor,
      getComputedStyle(find(".lt-card")).color,
      getComputedStyle(find(".lt-button")).borderTopLeftRadius,
      getComputedStyle(find(".lt-button")).textTransform,
    ];
  });
  expect(styles).toEqual(["rgb(240, 250, 255)", "rgb(0, 0, 60)", "12px", "uppercase"]);
  await keepPicture(page, "host themed");
  await page.close();
});
