import type { BrowserContext, Page } from "playwright-core";
import type { Answer } from "../../flows/case.ts";

/** Opens the desk and waits until it listens. */
export async function openDesk(context: BrowserContext, origin: string, query = ""): Promise<Page> {
  const page = await context.newPage();
  await page.goto(`${origin}/desk${query}`);
  await page.locator("#desk-keys").waitFor();
  return page;
}

/** Gives answers by the keys that the screen shows: a digit for the best question, else what stands at the option. */
export async function pressAnswers(page: Page, answers: readonly Answer[]): Promise<number> {
  let presses = 0;
  for (const { to, is } of answers) {
    if (to === "host" && is !== "not-sure") {
      const name = is.replaceAll("-", " ");
      await page.keyboard.type(`h${name}`);
      await page.keyboard.press("Enter");
      presses += name.length + 2;
      continue;
    }
    const keys = (await page.locator(`[data-answer="${to}=${is}"] .desk-key`).first().textContent()) ?? "";
    await page.keyboard.type(keys);
    presses += keys.length;
  }
  return presses;
}

/** What the one live region says. */
export async function readSaid(page: Page): Promise<string> {
  return (await page.locator(".desk-said").textContent())?.trim() ?? "";
}

export async function readCode(page: Page): Promise<string> {
  return ((await page.locator(".desk-code").textContent()) ?? "").replaceAll(" ", "");
}
