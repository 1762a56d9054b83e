import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest";
import { standings } from "../../flows/edition.ts";
import { openChromium } from "./chromium.ts";
import { findJourneys, type Journey, journeyTo } from "./find-journeys.ts";

const origin = inject("origin");
const journeys = findJourneys();
const headline = {
  suspected: /^This is most likely: /,
  leaning: /^This looks like: .*not sure$/,
  undetermined: /^We cannot tell from this/,
};
let browser: Browser;

beforeAll(async () => {
  browser = await openChromium();
});
afterAll(() => browser.close());

describe.each(standings)("without JavaScript, to %s", (standing) => {
  const journey = journeyTo(journeys, standing);

  test("from the shop's page to the verdict, its link and its code", async () => {
    const page = await browser.newPage({ javaScriptEnabled: false });
    await page.goto(origin);
    await page.getByRole("link", { name: "Check my plant" }).click();
    await answerAll(page, journey);
    const said = await readHeadline(page);
    expect(said).toMatch(headline[standing]);
    expect(dropDay(new URL(page.url()).search)).toBe(`?${journey.link}`);
    expect(await page.getByRole("heading", { name: "Bring a sample", level: 3 }).count()).toBe(1);

    await page.reload();
    expect(await readHeadline(page)).toBe(said);
    const code = await page.getByLabel("Code", { exact: true }).inputValue();
    expect(dropDay(await page.getByLabel("Link", { exact: true }).inputValue())).toBe(
      `${origin}/check?${journey.link}`,
    );
    await page.getByLabel("Have a code?").fill(code.toLowerCase());
    await page.getByRole("button", { name: "Open" }).click();
    // Whoever comes with a code is asked first how it went.
    await page.getByRole("link", { name: "Show the plan again" }).click();
    expect(await readHeadline(page)).toBe(said);
    await page.close();
  });
});

test("the browser's Back leads to the question before, with its answers kept", async () => {
  const page = await browser.newPage({ javaScriptEnabled: false });
  await page.goto(`${origin}/check`);
  const journey = journeyTo(journeys, "suspected");
  await answerAll(page, { ...journey, answers: journey.answers.slice(0, 3) });
  await page.goBack();
  expect(await page.getByRole("link", { name: /^Change/ }).count()).toBe(2);
  await page.close();
});

test("an answer is changed in place and the later ones stay", async () => {
  const page = await browser.newPage({ javaScriptEnabled: false });
  await page.goto(`${origin}/check?e=1&what-you-see=white&host=basil&white-look=film`);
  await page.getByRole("link", { name: "Change your answer to: What do you notice first?" }).click();
  expect(await page.getByRole("radio", { name: "Something white" }).isChecked()).toBe(true);
  await page.getByRole("radio", { name: "Tiny flies" }).check();
  await page.getByRole("button", { name: "Save this answer" }).click();
  expect(await page.getByText("We set these answers aside").isVisible()).toBe(true);
  expect(await page.getByText("Tiny flies", { exact: true }).isVisible()).toBe(true);
  expect(await page.getByText("Basil", { exact: true }).isVisible()).toBe(true);
  await page.close();
});

test("a misspelt plant is picked from near names", async () => {
  const page = await browser.newPage({ javaScriptEnabled: false });
  await page.goto(`${origin}/check?e=1&what-you-see=white`);
  await page.getByLabel("Name of the plant").fill("bazil");
  await page.getByRole("button", { name: "Find this plant" }).click();
  await page.getByRole("radio", { name: /^Basil/ }).check();
  await page.getByRole("button", { name: "This is my plant" }).click();
  expect(dropDay(new URL(page.url()).search)).toBe("?e=1&what-you-see=white&host=basil");
  await page.close();
});

test("the question in hand is what the browser scrolls to", async () => {
  const page = await browser.newPage({ viewport: { width: 320, height: 600 } });
  await page.goto(`${origin}/check`);
  const journey = journeys.toSorted((a, b) => b.answers.length - a.answers.length)[0];
  if (!journey) throw new Error("no journey");
  await answerAll(page, journey);
  const top = await page.locator("#lt-now").evaluate((element) => element.getBoundingClientRect().top);
  expect(top).toBeGreaterThanOrEqual(0);
  expect(top).toBeLessThan(300);
  await page.close();
});

test.each(standings)("by keyboard alone, to %s", async (standing) => {
  const page = await browser.newPage();
  await page.goto(`${origin}/check`);
  for (const { to, is } of journeyTo(journeys, standing).answers) {
    if (to === "host") {
      await tabTo(page, is === "not-sure" ? "form.lt-unknown button" : 'input[name="plant"]');
      if (is !== "not-sure") await page.keyboard.type(is.replaceAll("-", " "));
    } else {
      await tabTo(page, `input[type="radio"][name="${to}"]`);
      await page.keyboard.press("Space");
      for (let i = 0; i < 30 && (await focusedValue(page)) !== is; i++)
        await page.keyboard.press("ArrowDown");
    }
    await Promise.all([
      page.waitForURL((url) => url.searchParams.get(to) === is),
      page.keyboard.press("Enter"),
    ]);
  }
  expect(await readHeadline(page)).toMatch(headline[standing]);
  await page.close();
});

async function answerAll(page: Page, { answers }: Pick<Journey, "answers">): Promise<void> {
  for (const { to, is } of answers) {
    if (to !== "host") {
      await page.locator(`input[name="${to}"][value="${is}"][type="radio"]`).check();
      await page.getByRole("button", { name: "Next" }).click();
    } else if (is === "not-sure") {
      await page.getByRole("button", { name: "I don’t know" }).click();
    } else {
      await page.getByLabel("Name of the plant").fill(is.replaceAll("-", " "));
      await page.getByRole("button", { name: "Find this plant" }).click();
    }
    await page.waitForURL((url) => url.searchParams.get(to) === is);
  }
}

async function readHeadline(page: Page): Promise<string> {
  return (await page.locator("h2#lt-now").textContent()) ?? "";
}

/** Presses Tab until the element is focused; fails when it cannot be reached. */
async function tabTo(page: Page, selector: string): Promise<void> {
  for (let i = 0; i < 80; i++) {
    if (await page.evaluate((wanted) => document.activeElement?.matches(wanted) ?? false, selector)) return;
    await page.keyboard.press("Tab");
  }
  throw new Error(`${selector} cannot be reached with the Tab key.`);
}

function focusedValue(page: Page): Promise<string | null> {
  return page.evaluate(() => document.activeElement?.getAttribute("value") ?? null);
}

/** A link without the day it was made. */
function dropDay(link: string): string {
  return link.replace(/&made=\d{4}-\d\d-\d\d/, "");
}
