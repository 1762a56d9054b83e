import type { Locator, Page } from "playwright-core";
import type { Answer } from "../../flows/case.ts";

/** Opens the check as a shopper does, by the shop's own link. */
export async function startCheck(page: Page, element = "leafturn-check"): Promise<Locator> {
  const check = page.locator(element);
  await check.locator("a").first().click();
  await check.locator("#lt-now").waitFor();
  return check;
}

/** Waits until the page has fetched all that comes in behind the first question: plans, their words, and drawings. */
export async function fetchRest(page: Page): Promise<void> {
  const count = () => page.evaluate(() => performance.getEntriesByType("resource").length);
  for (let before = -1, now = await count(); now !== before; now = await count()) {
    before = now;
    await page.waitForTimeout(800);
  }
}

/** Answers with the mouse. */
export async function answerAll(check: Locator, answers: readonly Answer[]): Promise<void> {
  for (const { to, is } of answers) {
    if (to !== "host") {
      await check.locator(`input[name="${to}"][value="${is}"]`).check();
      await check.getByRole("button", { name: "Next" }).click();
    } else if (is === "not-sure") {
      await check.getByRole("button", { name: "I don’t know" }).click();
    } else {
      await check.getByLabel("Name of the plant").fill(is.replaceAll("-", " "));
      await check.getByRole("button", { name: "Find this plant" }).click();
    }
  }
}

/** Answers with the keyboard alone: Tab, arrows, Space, Enter and letters. */
export async function answerByKeys(page: Page, answers: readonly Answer[]): Promise<void> {
  for (const { to, is } of answers) {
    if (to === "host") {
      await tabTo(page, is === "not-sure" ? ".lt-unknown button" : 'input[name="plant"]');
      if (is !== "not-sure") await page.keyboard.type(is.replaceAll("-", " "));
    } else {
      await tabTo(page, `input[type="radio"][name="${to}"]`);
      await page.keyboard.press("Space");
      for (let i = 0; i < 30 && (await readFocused(page, "value")) !== is; i++) {
        await page.keyboard.press("ArrowDown");
      }
    }
    await page.keyboard.press("Enter");
  }
}

/** Presses Tab until an element in the check is focused; fails when it cannot be reached. */
export async function tabTo(page: Page, selector: string): Promise<void> {
  for (let i = 0; i < 80; i++) {
    const there = await page.evaluate(
      (wanted) => document.activeElement?.shadowRoot?.activeElement?.matches(wanted) ?? false,
      selector,
    );
    if (there) return;
    await page.keyboard.press("Tab");
  }
  throw new Error(`${selector} cannot be reached with the Tab key.`);
}

/** An attribute of what is focused inside the check. */
export function readFocused(page: Page, attribute: string): Promise<string | null> {
  return page.evaluate(
    (name) => document.activeElement?.shadowRoot?.activeElement?.getAttribute(name) ?? null,
    attribute,
  );
}
