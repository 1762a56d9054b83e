import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest";
import { openChromium } from "./chromium.ts";
import { startCheck, tabTo } from "./element-driver.ts";
import { finishCase } from "./find-journeys.ts";
import { keepPicture } from "./keep-picture.ts";
import { runAxe } from "./run-axe.ts";

const origin = inject("origin");
const marks = "what-you-see=marks&host=basil";
const brown = "what-you-see=brown&host=pothos";
/** Questions with a picture to press, by the case that leads to them: which of their answers have a region. */
const pressed: Record<string, readonly string[]> = {
  [brown]: ["base", "stems", "leaves", "low"],
  "what-you-see=bites&host=pothos": ["holes", "torn", "tunnels"],
  "what-you-see=flies&host=pothos": ["soil", "leaves"],
};
let browser: Browser;

beforeAll(async () => {
  browser = await openChromium();
});
afterAll(() => browser.close());

/** The middle of a region's first shape that takes a press, in CSS pixels of the page. */
async function middleOf(page: Page, region: string): Promise<{ x: number; y: number }> {
  const layer = page.locator(`.lt-layer[data-region="${region}"]`);
  await layer.scrollIntoViewIfNeeded();
  const box = await layer.locator("path").first().boundingBox();
  if (box === null) throw new Error(`${region} is not on the page.`);
  // The shape may have two halves; a tenth from its left edge lies on one of them.
  return { x: box.x + Math.min(box.width / 2, 20), y: box.y + box.height / 2 };
}

const chosen = (page: Page) => page.locator(".lt-card input:checked").getAttribute("value");

describe("a picture to press", () => {
  test("answers by mouse, without a script", async () => {
    const page = await browser.newPage({ javaScriptEnabled: false, viewport: { width: 390, height: 800 } });
    await page.goto(`${origin}/check?${brown}`);
    for (const [region, answer] of [
      ["base", "base"],
      ["older", "low"],
      ["stems", "stems"],
      ["leaves", "leaves"],
    ] as const) {
      const { x, y } = await middleOf(page, region);
      await page.mouse.click(x, y);
      expect(await chosen(page), region).toBe(answer);
    }
    await page.getByRole("button", { name: "Next" }).click();
    expect(new URL(page.url()).search).toContain("brown-where=leaves");
    await page.close();
  });

  test("answers by touch", async () => {
    const context = await browser.newContext({ hasTouch: true, viewport: { width: 320, height: 640 } });
    const page = await context.newPage();
    await page.goto(`${origin}/check?${brown}`);
    const { x, y } = await middleOf(page, "base");
    await page.touchscreen.tap(x, y);
    expect(await chosen(page)).toBe("base");
    await context.close();
  });

  test("answers by keyboard, by the radio buttons below, and shows which region that is", async () => {
    const page = await browser.newPage();
    await page.goto(`${origin}/help`);
    const check = await startCheck(page);
    await check.locator('input[value="brown"]').check();
    await check.getByRole("button", { name: "Next" }).click();
    await check.getByRole("button", { name: "I don’t know" }).click();
    await check.locator(".lt-layer").first().waitFor();
    await tabTo(page, 'input[name="brown-where"]');
    await page.keyboard.press("Space");
    await page.keyboard.press("ArrowDown");
    const width = (region: string) =>
      check
        .locator(`.lt-layer[data-region="${region}"] .lt-d-ink`)
        .first()
        .evaluate((shape) => Number.parseFloat(getComputedStyle(shape).strokeWidth));
    expect(await width("stems")).toBeGreaterThan(await width("base"));
    await page.keyboard.press("Enter");
    expect(await check.locator(".lt-line-answer").last().textContent()).toBe("Stems or branches die back");
    await page.close();
  });

  test.each(Object.entries(pressed))(
    "each region of %s is 44 px, and the buttons are named once",
    async (query, answers) => {
      const page = await browser.newPage({ viewport: { width: 320, height: 700 } });
      await page.goto(`${origin}/check?${query}`);
      const sizes = await page.locator(".lt-layer").evaluateAll((layers) =>
        layers.map((layer) => {
          const boxes = [...layer.querySelectorAll("path:not([class])")].map((path) =>
            path.getBoundingClientRect(),
          );
          return Math.min(...boxes.map(({ width, height }) => Math.min(width, height)));
        }),
      );
      expect(sizes).toHaveLength(answers.length);
      for (const size of sizes) expect(size).toBeGreaterThanOrEqual(44);
      // Who cannot see the picture hears each answer by its words alone.
      const labels = await page.locator(".lt-option > span").allTextContents();
      for (const label of labels)
        expect(await page.getByRole("radio", { name: label, exact: true }).count()).toBe(1);
      expect(await page.getByRole("img").count()).toBeGreaterThan(0);
      expect(await runAxe(page)).toEqual([]);
      await page.close();
    },
  );
});

describe("drawings beside the answers", () => {
  test.each([
    ["light", 320],
    ["dark", 320],
    ["light", 390],
    ["light", 1280],
    ["dark", 1280],
  ] as const)("leave room and target in %s at %i px, on the page", async (colorScheme, width) => {
    const page = await browser.newPage({ viewport: { width, height: 800 }, colorScheme });
    await page.goto(`${origin}/check?${marks}`);
    const rows = await page.locator(".lt-option").evaluateAll((options) =>
      options.map((option) => {
        const { width: whole, height } = option.getBoundingClientRect();
        return { height, share: (option.querySelector("span")?.getBoundingClientRect().width ?? 0) / whole };
      }),
    );
    for (const { height } of rows) expect(height).toBeGreaterThanOrEqual(44);
    // The words keep at least as much room as the drawing, so that an answer stays on the screen.
    expect(Math.max(...rows.map(({ height }) => height))).toBeLessThan(170);
    expect(await page.locator(".lt-thumb svg").count()).toBe(12);
    await keepPicture(page, `pictures question ${colorScheme} ${width}`);
    await page.goto(`${origin}/check?${brown}`);
    await keepPicture(page, `pictures press ${colorScheme} ${width}`);
    await page.goto(`${origin}/check?${finishCase(`${marks}&mark-look=stipple&tap-test=dots`)}`);
    expect(await page.locator(".lt-pair svg").count()).toBe(2);
    await keepPicture(page, `pictures verdict ${colorScheme} ${width}`);
    await page.close();
  });

  test("come in without moving anything, and say what to look for", async () => {
    const page = await browser.newPage({ viewport: { width: 390, height: 800 } });
    await page.addInitScript(() => {
      const seen = window as unknown as { shifts: number };
      seen.shifts = 0;
      new PerformanceObserver((list) => {
        for (const entry of list.getEntries() as unknown as { value: number; hadRecentInput: boolean }[]) {
          if (!entry.hadRecentInput) seen.shifts += entry.value;
        }
      }).observe({ type: "layout-shift", buffered: true });
    });
    // Late enough that the browser does not count it as the answer to the press.
    await page.route("**/drawings*.json", async (route) => {
      await new Promise((resolve) => setTimeout(resolve, 900));
      await route.continue();
    });
    await page.goto(`${origin}/help`);
    const check = await startCheck(page);
    await page.waitForTimeout(600);
    // What moved while the check opened is another matter: from here on only drawings come in.
    await page.evaluate(() => {
      (window as unknown as { shifts: number }).shifts = 0;
    });
    const before = await check.locator(".lt-card").boundingBox();
    await check.locator(".lt-thumb svg").nth(14).waitFor();
    const after = await check.locator(".lt-card").boundingBox();
    expect(after?.height).toBe(before?.height);
    expect(await page.evaluate(() => (window as unknown as { shifts: number }).shifts)).toBeLessThan(0.01);
    await check.getByText("The answers in pictures").click();
    expect(await check.locator("figcaption").first().textContent()).toContain("Small dark flies");
    expect(await runAxe(page)).toEqual([]);
    await page.close();
  });

  test("are all there when the connection is lost after opening", async () => {
    const page = await browser.newPage();
    await page.goto(`${origin}/help`);
    const last = page.waitForResponse(/drawings-13\.json$/);
    const check = await startCheck(page);
    await (await last).finished();
    await page.route("**/*", (route) => route.abort());
    await check.locator('input[value="marks"]').check();
    await check.getByRole("button", { name: "Next" }).click();
    await check.getByRole("button", { name: "I don’t know" }).click();
    expect(await check.locator(".lt-thumb svg").count()).toBe(12);
    await page.close();
  });

  test("leave the words where they cannot be had", async () => {
    const page = await browser.newPage();
    await page.route("**/drawings*.json", (route) => route.abort());
    await page.goto(`${origin}/help`);
    const check = await startCheck(page);
    await page.waitForLoadState("networkidle");
    await check.locator('input[value="brown"]').check();
    await check.getByRole("button", { name: "Next" }).click();
    await check.getByRole("button", { name: "I don’t know" }).click();
    expect(await check.locator("svg").count()).toBe(0);
    await check.getByLabel("Stems or branches die back").check();
    await check.getByRole("button", { name: "Next" }).click();
    expect(await check.locator(".lt-line-answer").last().textContent()).toBe("Stems or branches die back");
    await page.close();
  });

  test("take the system's colors where those are forced", async () => {
    const page = await browser.newPage({ forcedColors: "active", viewport: { width: 390, height: 800 } });
    await page.goto(`${origin}/check?${marks}`);
    const used = await page
      .locator(".lt-thumb svg")
      .first()
      .evaluate((svg) => {
        const probe = document.createElement("p");
        probe.style.color = "CanvasText";
        svg.ownerDocument.body.append(probe);
        const system = getComputedStyle(probe).color;
        const line = svg.querySelector(".lt-d-ink");
        return { system, line: line && getComputedStyle(line).stroke };
      });
    expect(used.line).toBe(used.system);
    await keepPicture(page, "pictures forced colors");
    await page.close();
  });
});
