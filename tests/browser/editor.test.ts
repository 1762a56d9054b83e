import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest";
import { openChromium } from "./chromium.ts";
import { arrive, beginDraft, editors, invite, linkIn, type Person } from "./editor-driver.ts";
import { hostileStrings } from "./hostile-strings.ts";
import { keepPicture } from "./keep-picture.ts";
import { runAxe } from "./run-axe.ts";

const server = { origin: inject("origin") };
let browser: Browser;
let ada: Person;
beforeAll(async () => {
  browser = await openChromium();
  ada = await arrive(browser, await invite("Ada Fern", "publisher"));
  await ada.page.waitForURL(`${server.origin}/editor`);
}, 180_000);
afterAll(async () => {
  await browser.close();
});

describe("the way in", () => {
  test("an invitation registers a device, the device signs in again, and signing out ends it", async () => {
    const { page, context } = ada;
    await page.waitForURL(`${server.origin}/editor`);
    expect(await page.getByText("Signed in as Ada Fern").isVisible()).toBe(true);
    const [cookie] = await context.cookies();
    expect(cookie).toMatchObject({ httpOnly: true, sameSite: "Lax" });
    await page.getByRole("button", { name: "Sign out" }).click();
    await page.waitForURL(/sign-in/);
    await page.goto(`${server.origin}/editor/history`);
    await page.getByRole("button", { name: "Sign in with this device" }).click();
    await page.waitForURL(`${server.origin}/editor/history`);
    expect(await page.locator("tbody tr").first().textContent()).toContain("signed in");
  });

  test("an invitation works once; a new one locks the lost device out; the key leaves the address", async () => {
    const link = await invite("Ben Moss", "editor");
    const ben = await arrive(browser, link);
    await ben.page.waitForURL(`${server.origin}/editor`);
    const second = await arrive(browser, link);
    await second.page.getByText("This invitation does not work any more.").waitFor();
    expect(second.page.url()).not.toContain("#key");
    const [, id = ""] = /^(\w+) {2}Ben Moss, editor/m.exec(await editors("list")) ?? [];
    const renewed = linkIn(await editors("renew", id));
    await ben.page.goto(`${server.origin}/editor`);
    await ben.page.getByRole("button", { name: "Sign in with this device" }).click();
    await ben.page.getByText("This device does not open the editor's room.").waitFor();
    const again = await arrive(browser, renewed);
    await again.page.waitForURL(`${server.origin}/editor`);
    await Promise.all([ben, second, again].map(({ context }) => context.close()));
  }, 300_000);
});

describe("a file", () => {
  test("is saved while it is typed; two who type see both texts and lose nothing", async () => {
    const draft = await beginDraft(ada.page, "Typing");
    const address = `${draft}/file?path=trade-words.yaml`;
    const other = await ada.context.newPage();
    await Promise.all([ada.page.goto(address), other.goto(address)]);
    const typed = "# mine\n";
    await ada.page.locator("#text").press("Control+Home");
    await ada.page.locator("#text").pressSequentially(typed);
    await ada.page.getByText("Saved.", { exact: true }).waitFor();
    await other.locator("#text").press("Control+Home");
    await other.locator("#text").pressSequentially("# theirs\n");
    await other.getByText("Both texts are here").waitFor();
    expect(await other.locator("#other").textContent()).toContain("# mine");
    expect(await other.locator("#text").inputValue()).toContain("# theirs");
    await other.getByRole("button", { name: "Save my text over it" }).click();
    await other.waitForURL(address);
    expect(await other.locator("#text").inputValue()).toMatch(/^# theirs/);
    await other.close();
  });

  test("keeps what was typed when the connection is gone, and saves it later", async () => {
    const draft = await beginDraft(ada.page, "Offline");
    await ada.page.goto(`${draft}/file?path=trade-words.yaml`);
    await ada.context.setOffline(true);
    await ada.page.locator("#text").press("Control+Home");
    await ada.page.locator("#text").pressSequentially("# later\n");
    await ada.page.getByText("kept in this tab").waitFor();
    await ada.context.setOffline(false);
    await ada.page.getByText("Saved.", { exact: true }).waitFor({ timeout: 15_000 });
  });
});

describe("1,000 hostile strings", () => {
  test("run nothing: as titles, in files, in changes, in the history, in previews", async () => {
    const { page, faults } = ada;
    const strings = hostileStrings();
    expect(strings.length).toBeGreaterThanOrEqual(1000);
    const draft = await beginDraft(page, strings[0]?.slice(0, 100) ?? "");
    faults.length = 0;
    await page.addInitScript(() => {
      Object.defineProperty(window, "hurt", {
        set: () => document.documentElement.setAttribute("data-hurt", "yes"),
      });
    });
    await page.goto(`${draft}/file?path=trade-words.yaml`);
    const text = strings.map((one) => `- ${JSON.stringify(one)}\n`).join("");
    await page.locator("#text").fill(text);
    await page.getByText("Saved.", { exact: true }).waitFor();
    const raw = strings.map((one) => one.replace(/[\r\n]+/g, " ")).join("\n");
    await page.goto(`${draft}/file?path=questions/hostile.md`);
    await page.locator("#text").fill(raw);
    await page.getByText("Saved.", { exact: true }).waitFor();
    for (const part of [
      "",
      "/files",
      "/check",
      "/publish",
      "/file?path=questions/hostile.md",
      "/file?path=trade-words.yaml",
    ]) {
      await page.goto(draft + part);
      expect(await page.locator("html").getAttribute("data-hurt"), part).toBeNull();
    }
    const headers = { origin: server.origin };
    for (const one of strings.filter((_, index) => index % 25 === 0)) {
      const title =
        one
          .replace(/\p{Cc}/gu, " ")
          .trim()
          .slice(0, 110) || "x";
      await page.request.post(`${server.origin}/editor/drafts`, {
        headers,
        form: { title },
        maxRedirects: 0,
      });
    }
    await page.goto(`${server.origin}/editor`);
    await page.goto(`${server.origin}/editor/history`);
    expect(await page.locator("html").getAttribute("data-hurt")).toBeNull();
    expect(faults).toEqual([]);
  }, 300_000);
});

describe.each([
  ["light", 390],
  ["dark", 1280],
] as const)("in %s at %i px", (colorScheme, width) => {
  test("every page is accessible and fits", async () => {
    const { page } = ada;
    const draft = await beginDraft(page, "Looks");
    await page.emulateMedia({ colorScheme });
    await page.setViewportSize({ width, height: 900 });
    const parts = [
      "",
      "/files",
      "/file?path=shop.yaml",
      "/check",
      "/publish",
      "/entries",
      "/entries?kind=question",
      "/tree",
      "/tree?from=droop&zoom=100&case=what-you-see%3Ddroop",
    ];
    const addresses = [
      `${server.origin}/editor`,
      `${server.origin}/editor/history`,
      ...parts.map((part) => draft + part),
      `${draft}/entry?kind=condition&id=spider-mites`,
      `${draft}/entry?kind=question&id=mark-look`,
    ];
    for (const address of addresses) {
      await page.goto(address);
      const over = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      expect(over, address).toBeLessThanOrEqual(0);
      expect(await runAxe(page), address).toEqual([]);
      await keepPicture(page, `editor-${address.replace(/^.*\/editor/, "").replace(/\W+/g, "-")}-${width}`);
    }
  }, 300_000);
});
