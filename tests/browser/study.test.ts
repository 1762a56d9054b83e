import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest";
import { moveEvidence } from "../../flows/editing/entries.ts";
import { openChromium } from "./chromium.ts";
import { arrive, beginDraft, invite, type Person } from "./editor-driver.ts";
import { keepPicture } from "./keep-picture.ts";
import { runAxe } from "./run-axe.ts";

const origin = inject("origin");
let browser: Browser;
let ada: Person;
let draft = "";

beforeAll(async () => {
  browser = await openChromium();
  ada = await arrive(browser, await invite("Ada Moss", "publisher"));
  // A busy machine takes its time; what hangs is still found.
  ada.page.setDefaultTimeout(100_000);
  await ada.page.waitForURL(`${origin}/editor`);
  draft = await beginDraft(ada.page, "Stippling alone is no proof");
}, 180_000);
afterAll(() => browser.close());

const PATIENCE = 240_000;
const begin = (page: Page) => page.getByRole("button", { name: /every conversation|them again/ });

async function overflow(page: Page): Promise<number> {
  return page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
}

describe("what a draft does", () => {
  test("an evidence word is changed", async () => {
    const { page } = ada;
    const file = "conditions/spider-mites.md";
    const address = `${draft}/files/${file}`;
    const before = await page.request.get(address);
    const edit = moveEvidence({ [file]: await before.text() }, "spider-mites", "fine-webbing", "supports");
    if (!edit.ok) throw new Error(edit.sentence);
    const headers = { origin, "if-match": before.headers().etag ?? "", "content-type": "text/plain" };
    const saved = await page.request.put(address, { headers, data: edit.files[file] });
    expect(saved.status()).toBe(204);
    await page.goto(draft);
    expect(await page.locator(".lt-book").textContent()).toMatch(/silk webs/);
  }, 240_000);

  test("without JavaScript the page says what needs it, and shows the rest", async () => {
    const plain = await browser.newContext({
      javaScriptEnabled: false,
      storageState: await ada.context.storageState(),
    });
    const page = await plain.newPage();
    await page.goto(`${draft}/check`);
    await page.getByText("needs JavaScript").waitFor();
    await page.getByText("Nothing is wrong with the content.").waitFor();
    await plain.close();
  });

  test("it can be stopped", async () => {
    const { page } = ada;
    await page.goto(`${draft}/check`);
    await begin(page).press("Enter");
    await page.getByRole("progressbar").waitFor();
    await page.getByText(/Comparing with the live edition/).waitFor();
    await page.getByRole("button", { name: "Stop" }).press("Enter");
    await page.getByText("Stopped. Nothing was decided.").first().waitFor();
    expect(await begin(page).isVisible()).toBe(true);
  });

  test(
    "every conversation is gone through: groups, causes, examples, rules",
    async () => {
      const { page } = ada;
      const said: string[] = [];
      await page.exposeFunction("hear", (text: string) => said.push(text));
      await page.evaluate(() => {
        const status = document.getElementById("study-said");
        const { hear } = window as unknown as { hear(text: string): void };
        if (status)
          new MutationObserver(() => hear(status.textContent ?? "")).observe(status, { childList: true });
      });
      const from = Date.now();
      await begin(page).click();
      await page.getByRole("progressbar").waitFor();
      await page.locator("#rules").waitFor({ timeout: PATIENCE });
      console.log(`compared and walked in ${((Date.now() - from) / 1000).toFixed(1)} s`);
      expect(said.filter(Boolean)).toEqual([
        "Going through every conversation.",
        "Half of it is done.",
        "Done.",
      ]);
      expect(await page.locator("#rules").textContent()).toMatch(/All of them hold, in each of [\d,]{10}/);
      const first = page.locator("#changed .ed-list > li").first();
      expect(await first.textContent()).toContain("Because of");
      expect(await first.textContent()).toMatch(/silk webs/);
      expect(ada.faults).toEqual([]);
    },
    PATIENCE,
  );

  test.each([
    ["light", 320, "none"],
    ["dark", 1280, "none"],
    ["light", 800, "active"],
  ] as const)(
    "the report fits and is accessible: %s, %i px, forced colors %s",
    async (colorScheme, width, forcedColors) => {
      const { page } = ada;
      await page.emulateMedia({ colorScheme, forcedColors });
      await page.setViewportSize({ width, height: 900 });
      expect(await overflow(page)).toBeLessThanOrEqual(0);
      if (forcedColors === "none") expect(await runAxe(page)).toEqual([]);
      await keepPicture(page, `study-${colorScheme}-${width}-${forcedColors}`);
    },
  );

  test("on paper it stands without buttons and forms", async () => {
    const { page } = ada;
    await page.emulateMedia({ media: "print", colorScheme: "light", forcedColors: "none" });
    await page.setViewportSize({ width: 794, height: 1100 });
    expect(await page.getByRole("button").filter({ visible: true }).count()).toBe(0);
    expect(await page.locator("#changed .ed-talk").nth(1).isVisible()).toBe(true);
    await keepPicture(page, "study-print");
    await page.emulateMedia({ media: "screen" });
    await page.setViewportSize({ width: 1280, height: 900 });
  });
});
