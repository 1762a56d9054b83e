import jsQR from "jsqr";
import type { Browser, BrowserContext, Page } from "playwright-core";
import { PNG } from "pngjs";
import { afterAll, afterEach, beforeAll, describe, expect, inject, test } from "vitest";
import { standings } from "../../flows/edition.ts";
import { openChromium } from "./chromium.ts";
import { openDesk, pressAnswers, readCode, readSaid } from "./desk-driver.ts";
import { findJourneys, journeyTo } from "./find-journeys.ts";
import { keepPicture } from "./keep-picture.ts";
import { runAxe } from "./run-axe.ts";

const origin = inject("origin");
const journeys = findJourneys();
const spots = "?e=1&what-you-see=marks&host=basil&mark-look=stipple";

let browser: Browser;
let staff: BrowserContext;
let caller: BrowserContext;
// Two people with a browser each. A page knows nothing but its address, so that each test may go on in the same browsers.
beforeAll(async () => {
  browser = await openChromium();
  staff = await browser.newContext({ viewport: { width: 1280, height: 800 } });
  caller = await browser.newContext({ viewport: { width: 390, height: 844 } });
});
afterAll(() => browser.close());
afterEach(async () => {
  for (const page of [...staff.pages(), ...caller.pages()]) await page.close();
});

describe("by keyboard alone", () => {
  test.each(standings)("a call comes to a verdict that is %s", async (standing) => {
    const { answers, link } = journeyTo(journeys, standing);
    const page = await openDesk(staff, origin);
    const requests: string[] = [];
    page.on("request", (request) => requests.push(request.url()));
    await pressAnswers(page, answers);
    expect(new URL(page.url()).search).toBe(`?${link}`);
    const shown = await page.locator("#desk-say").textContent();
    const shopper = await caller.newPage();
    await shopper.goto(`${origin}/check?${link}`);
    expect(shown).toBe(await shopper.locator(".lt-verdict-name").textContent());
    expect(await readSaid(page)).toContain(shown);
    // Nothing that was answered went over the network; Chromium asks for the icon whenever the address changes.
    expect(requests.filter((url) => url !== `${origin}/assets/icon.svg`)).toEqual([]);
    await keepPicture(page, `desk ${standing}`);
  });

  test("the caller may tell things in any order, and the verdict is the same", async () => {
    const { answers, link } = journeyTo(journeys, "suspected");
    const page = await openDesk(staff, origin);
    await page.locator(".desk-fold > summary").last().click();
    await page.locator("#desk-keys").focus();
    await pressAnswers(page, answers.toReversed());
    const shown = await page.locator("#desk-say").textContent();
    const shopper = await caller.newPage();
    await shopper.goto(`${origin}/check?${link}`);
    expect(shown).toBe(await shopper.locator(".lt-verdict-name").textContent());
  });

  test("not sure is one key, and undo is one key", async () => {
    const page = await openDesk(staff, origin, spots);
    await page.keyboard.press("0");
    expect(page.url()).toContain("tap-test=not-sure");
    await page.keyboard.press("Backspace");
    expect(new URL(page.url()).search).toBe(spots);
    expect(await readSaid(page)).toContain("Undone.");
    // Back to before the page was opened, answer by answer.
    for (let i = 0; i < 3; i++) await page.keyboard.press("Backspace");
    expect(new URL(page.url()).search).toBe("?e=1");
    await page.keyboard.press("Backspace");
    expect(await readSaid(page)).toBe("There is nothing to undo.");
  });

  test("the browser's Back undoes as well", async () => {
    const page = await openDesk(staff, origin, spots);
    await page.keyboard.press("1");
    await page.goBack();
    expect(await page.locator("#desk-say").textContent()).toContain("Tap a leaf");
    expect(await page.locator(".desk-line").count()).toBe(3);
  });

  test("an answer is found by its words, a plant by a few letters with a slip in them", async () => {
    const page = await openDesk(staff, origin, "?e=1&what-you-see=marks");
    await page.keyboard.type("hbazil");
    await page.keyboard.press("Enter");
    expect(page.url()).toContain("host=basil");
    await page.keyboard.type("/silk web");
    expect(await page.getByRole("option").first().textContent()).toContain("Fine silk webs");
    // Words are the caller's own, until an answer that holds them is chosen.
    expect(await page.getByRole("option", { selected: true }).count()).toBe(0);
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("Enter");
    expect(page.url()).toMatch(/&[a-z-]+=webs$/);
  });

  test("the list of keys opens and closes by keys; a key that means nothing changes nothing, and says so", async () => {
    const page = await openDesk(staff, origin);
    await page.keyboard.press("?");
    expect(await page.getByRole("heading", { name: "Keys" }).isVisible()).toBe(true);
    await page.keyboard.press("Escape");
    expect(await page.getByRole("heading", { name: "Keys" }).count()).toBe(0);
    expect(await page.locator("#desk-keys").evaluate((node) => node === document.activeElement)).toBe(true);
    await page.keyboard.type("é");
    expect(await readSaid(page)).toContain("Nothing was changed.");
    expect(await page.locator("#desk-keys").inputValue()).toBe("");
  });
});

describe("the caller's own words", () => {
  const blurted =
    "My basil has spider mites, white fuzzy stuff on the stems, no webs, the zebra is fine, and we have a cat. Will it live?";
  const heard = (page: Page) => page.locator(".desk-heard");

  test("are read here, agreed to by one key and undone by one, and never leave the browser", async () => {
    const page = await openDesk(staff, origin);
    const sent: string[] = [];
    page.on("request", (request) => sent.push(`${request.url()} ${request.postData() ?? ""}`));
    await page.keyboard.type("/my");
    await page.keyboard.insertText(blurted.slice(2));
    await page.keyboard.press("Enter");
    await heard(page).waitFor();
    expect(sent.filter((line) => /lexicon|desk-say/.test(line))).toHaveLength(2);
    await staff.setOffline(true);
    const said = await readSaid(page);
    expect(said).toContain("plant: Basil; seen: white cottony tufts; not seen: no fine webs");
    expect(said).toContain("caller’s idea: Spider mites; caller asks: Will it live");
    expect(said).toContain("Not understood: “the zebra is fine”.");
    // Nothing counts yet.
    expect(new URL(page.url()).search).toBe("");
    expect(await page.locator(".desk-line, .desk-row").count()).toBe(0);
    await page.keyboard.type("3");
    expect(await readSaid(page)).toBe("Left out: no fine webs.");
    await page.keyboard.type("4");
    await page.keyboard.press("Enter");
    const search =
      "?e=1&host=basil&white-cottony-tufts=yes&household=pets&thought=spider-mites&asked=will-it-live";
    expect(new URL(page.url()).search).toBe(search);
    expect(await readSaid(page)).toContain("5 things taken. Mealybugs: most likely.");
    await page.keyboard.press("Backspace");
    expect(new URL(page.url()).search).toBe("?e=1");
    expect(await page.locator(".desk-line, .desk-row").count()).toBe(0);
    await staff.setOffline(false);
    expect(sent.filter((line) => /zebra|fuzzy/i.test(line))).toEqual([]);
    expect(await page.evaluate(() => JSON.stringify([{ ...localStorage }, { ...sessionStorage }]))).toBe(
      "[{},{}]",
    );
  });

  test("can be mended, and taken apart by Tab and Space", async () => {
    const page = await openDesk(staff, origin);
    await page.keyboard.type("/it is basl with white fuzz");
    await page.keyboard.press("Enter");
    await heard(page).waitFor();
    await page.keyboard.type("x");
    expect(await readSaid(page)).toContain("First take what was understood");
    await page.keyboard.press("Escape");
    expect(await heard(page).count()).toBe(0);
    expect(await page.locator("#desk-keys").inputValue()).toBe("/it is basl with white fuzz");
    await page.keyboard.type(", no webs. Can I still eat it?");
    await page.keyboard.press("Enter");
    await heard(page).waitFor();
    for (let i = 0; i < 12; i++) {
      await page.keyboard.press("Tab");
      if (await page.evaluate(() => document.activeElement?.getAttribute("name") === "fine-webbing")) break;
    }
    await page.keyboard.press("Space");
    expect(await page.getByRole("checkbox", { name: "no fine webs" }).isChecked()).toBe(false);
    await page.keyboard.press("Enter");
    expect(page.url()).toContain("asked=can-i-eat-it");
    expect(page.url()).not.toContain("fine-webbing");
    expect(await page.locator("#desk-keys").evaluate((node) => node === document.activeElement)).toBe(true);
    // Ideas and questions are taken back like answers, and answered with the verdict.
    await page.getByRole("button", { name: "Take back: The caller asks" }).press("Enter");
    expect(page.url()).not.toContain("asked");
    await page.goBack();
    expect(await page.locator(".desk-line", { hasText: "Can I still eat it?" }).count()).toBe(1);
  });

  test("that say nothing we know, or cannot be read, are kept in the field", async () => {
    const page = await openDesk(staff, origin);
    await page.route("**/lexicon.json", (route) => route.abort());
    await page.keyboard.type("/zzzz qqqq");
    await page.keyboard.press("Enter");
    await page.getByText("The words cannot be read just now.").waitFor();
    expect(await page.locator("#desk-keys").inputValue()).toBe("/zzzz qqqq");
    await page.unroute("**/lexicon.json");
    await page.keyboard.press("Enter");
    await page.getByText("Nothing of it was understood.").waitFor();
    expect(await page.locator("#desk-keys").inputValue()).toBe("/zzzz qqqq");
    expect(new URL(page.url()).search).toBe("");
  });

  test("are read by the server where no script runs, and stand in no address", async () => {
    const context = await browser.newContext({ javaScriptEnabled: false });
    const page = await context.newPage();
    await page.goto(`${origin}/desk?e=1&host=not-sure`);
    await page.getByLabel("In the caller’s own words").fill(blurted);
    await page.getByRole("button", { name: "Read it" }).click();
    expect(page.url()).not.toMatch(/zebra|fuzzy/);
    await page.getByRole("checkbox", { name: /^no fine webs/ }).uncheck();
    await page.getByRole("button", { name: "Take what is ticked" }).click();
    const { search } = new URL(page.url());
    for (const pair of [
      "host=basil",
      "white-cottony-tufts=yes",
      "thought=spider-mites",
      "asked=will-it-live",
    ])
      expect(search).toContain(pair);
    expect(search).not.toMatch(/fine-webbing|zebra|not-sure|household=[a-z]/);
    await context.close();
  });
});

describe("keys that are somebody else's", () => {
  test("are left alone: outside the field (WCAG 2.1.4), with Ctrl, Alt and Meta, and Tab", async () => {
    const page = await openDesk(staff, origin, spots);
    await page.locator("#desk-could").evaluate((node) => {
      node.tabIndex = -1;
      node.focus();
    });
    for (const key of ["1", "0", "h", ".", ",", "?", "/", "Backspace"]) await page.keyboard.press(key);
    expect(new URL(page.url()).search).toBe(spots);
    expect(await page.locator(".desk-panel").count()).toBe(0);
    // In the field, those held with Ctrl, Alt or Meta are left alone.
    await page.locator("#desk-keys").focus();
    for (const modifier of ["Control", "Alt", "Meta"]) {
      for (const key of ["1", "0", "Backspace", "Enter", "?"])
        await page.keyboard.press(`${modifier}+${key}`);
    }
    expect(new URL(page.url()).search).toBe(spots);
    // Tab leads from the field through everything that can be pressed.
    const seen = new Set<string>();
    for (let i = 0; i < 60; i++) {
      await page.keyboard.press("Tab");
      seen.add(await page.evaluate(() => document.activeElement?.getAttribute("data-answer") ?? ""));
    }
    for (const answer of ["tap-test=dots", "traces=webs", "air=dry"]) expect(seen).toContain(answer);
  });
});

describe("nothing jumps under the pointer", () => {
  test("candidates and open questions hold still while they are pointed at", async () => {
    const page = await openDesk(staff, origin, "?e=1&what-you-see=marks&host=basil");
    const tops = (selector: string) =>
      page
        .locator(selector)
        .evaluateAll((nodes) =>
          nodes.map((node) => `${node.textContent} ${node.getBoundingClientRect().top}`),
        );
    await page.keyboard.type("4");
    const row = page.locator(".desk-row").last();
    await row.hover();
    const before = await page.locator(".desk-name").allTextContents();
    await page.locator('[data-answer="tap-test=slivers"]').dispatchEvent("click");
    const held = await page.locator(".desk-name").allTextContents();
    const plain = (names: string[]) => names.map((name) => name.replace(/^\d+\. /, ""));
    expect(plain(held).slice(0, before.length)).toEqual(plain(before));
    // The numbers tell the new order; the rows take it on when the pointer leaves.
    expect(held.find((name) => name.includes("Thrips"))).toBe("1. Thrips");
    await page.mouse.move(5, 5);
    expect((await page.locator(".desk-name").allTextContents())[0]).toBe("1. Thrips");
    const option = page.locator('.desk-item [data-answer^="traces="]').first();
    if ((await option.count()) > 0) {
      const list = await tops(".desk-item .desk-legend");
      await option.hover();
      await option.click();
      expect((await tops(".desk-item .desk-legend")).slice(0, list.length).length).toBe(list.length);
    }
  });

  test("the second press of a double click answers nothing", async () => {
    const page = await openDesk(staff, origin, spots);
    await page.locator('.desk-best [data-answer="tap-test=dots"]').dblclick();
    expect(new URL(page.url()).search).toBe(`${spots}&tap-test=dots`);
  });
});

describe("hand over", () => {
  test("one press shows it, and the caller goes on exactly where the call stopped", async () => {
    const page = await openDesk(staff, origin, spots);
    await page.keyboard.press(".");
    const link = await page.locator("#desk-link").inputValue();
    const next = (await page.locator("#desk-say").textContent())?.replaceAll(/[“”]/g, "");
    const shopper = await caller.newPage();
    await shopper.goto(link);
    expect(await shopper.locator("#lt-now .lt-prompt").textContent()).toBe(next);
    const code = await readCode(page);
    await shopper.goto(`${origin}/c/${encodeURIComponent(code)}`);
    expect(await shopper.locator("#lt-now .lt-prompt").textContent()).toBe(next);
    await shopper.locator('input[name="tap-test"][value="dots"]').check();
    await shopper.getByRole("button", { name: "Next" }).click();
    expect(shopper.url()).toContain("tap-test=dots");
    await keepPicture(page, "desk hand over");
  });

  test("the QR code is read by another program", async () => {
    const context = await browser.newContext({
      viewport: { width: 1280, height: 800 },
      deviceScaleFactor: 2,
    });
    const page = await openDesk(context, origin, spots);
    await page.keyboard.press(".");
    const { data, width, height } = PNG.sync.read(await page.locator(".slip-qr").screenshot());
    const read = jsQR(Uint8ClampedArray.from(data), width, height);
    expect(read?.data).toBe(await page.locator("#desk-link").inputValue());
    await context.close();
  });

  test("message links are there by keyboard: Tab leads from the field into the panel", async () => {
    const page = await openDesk(staff, origin, spots);
    await page.keyboard.press(".");
    await page.locator("#desk-phone").fill("555 010 0199");
    const sms = (await page.getByRole("link", { name: "Text message" }).getAttribute("href")) ?? "";
    expect(sms).toMatch(/^sms:\+15550100199\?body=/);
    const body = decodeURIComponent(sms.replace(/^.*body=/, ""));
    expect(body).toBe(await page.locator("#desk-message").inputValue());
    const [, short = ""] = /(https?:\S+)$/.exec(body) ?? [];
    const shopper = await caller.newPage();
    await shopper.goto(short);
    expect(shopper.url()).toContain(spots.slice(1));
    await page.locator("#desk-phone").fill("not a number 1234567");
    expect(await page.getByText("This is no phone number.").isVisible()).toBe(true);
    expect(await page.getByRole("link", { name: "Text message" }).count()).toBe(0);
    expect(page.url()).not.toContain("555");
  });

  test("the link is copied", async () => {
    await staff.grantPermissions(["clipboard-read", "clipboard-write"], { origin });
    const page = await openDesk(staff, origin, spots);
    await page.keyboard.press(".");
    await page.getByRole("button", { name: "Copy the link" }).click();
    await page.getByText("The link is copied.").waitFor();
    const copied = await page.evaluate(() => navigator.clipboard.readText());
    expect(copied).toBe(await page.locator("#desk-link").inputValue());
    expect(copied.startsWith(`${origin}/check${spots}`)).toBe(true);
  });
});

describe("take over", () => {
  test("a shopper's code opens the whole case, however it is typed", async () => {
    const shopper = await caller.newPage();
    await shopper.goto(`${origin}/check${spots}&tap-test=dots&traces=webs&air=dry&others=no`);
    const { code } = (await (
      await shopper.request.get(`${origin}/api/case${spots}&tap-test=dots&traces=webs`)
    ).json()) as { code: string };
    const page = await openDesk(staff, origin);
    await page.keyboard.press(",");
    await page.keyboard.type(code.toLowerCase().split("").join(" "));
    await page.keyboard.press("Enter");
    await page.getByText("Fine silk webs").first().waitFor();
    expect(new URL(page.url()).search).toBe(`${spots}&tap-test=dots&traces=webs`);
    expect(await readSaid(page)).toContain("The case is open: 5 answers.");
  });

  test("a misread character is pointed at, the call in hand is kept, and undoing comes back to it", async () => {
    const page = await openDesk(staff, origin, spots);
    await page.keyboard.press(".");
    const code = await readCode(page);
    await page.keyboard.press("Escape");
    await page.goto(`${origin}/desk?e=1&what-you-see=droop`);
    await page.locator("#desk-keys").waitFor();
    // GF014: the first letter taken for a six.
    expect(code).toBe("GF014");
    await page.keyboard.press(",");
    await page.keyboard.type("6f0 14");
    await page.keyboard.press("Enter");
    const guess = page.locator(".lt-guess", { hasText: code });
    await guess.waitFor();
    expect(await guess.textContent()).toContain("character 1 is G, not 6: Basil");
    expect(page.url()).toContain("what-you-see=droop");
    await keepPicture(page, "desk take over");
    await guess.focus();
    await page.keyboard.press("Enter");
    await page.getByText("The case is open: 3 answers.").waitFor();
    expect(new URL(page.url()).search).toBe(spots);
    await page.keyboard.press("Backspace");
    expect(page.url()).toContain("what-you-see=droop");
  });
});

describe("without a script", () => {
  test("the same page takes several answers at once and hands over", async () => {
    const context = await browser.newContext({ javaScriptEnabled: false });
    const page = await context.newPage();
    await page.goto(`${origin}/desk${spots}`);
    await page.locator('input[name="tap-test"][value="dots"]').check();
    await page.locator('input[name="traces"][value="webs"]').check();
    await page.getByRole("button", { name: "Take these answers" }).first().click();
    const url = new URL(page.url());
    expect(url.searchParams.get("tap-test")).toBe("dots");
    expect(url.searchParams.get("traces")).toBe("webs");
    expect(await page.locator(".desk-line").count()).toBe(5);
    await page.getByRole("link", { name: "Take back: Which traces do you find on the leaves?" }).click();
    expect(await page.locator(".desk-line").count()).toBe(4);
    await page.getByLabel("Code the caller reads out").fill("6f014");
    await page.getByRole("button", { name: "Open" }).click();
    expect(await page.locator(".lt-guess").first().isVisible()).toBe(true);
    await keepPicture(page, "desk plain");
    await context.close();
  });

  test("when the edition cannot be fetched, the page goes on working", async () => {
    const page = await staff.newPage();
    await page.route("**/embed/live.json*", (route) => route.abort());
    await page.goto(`${origin}/desk${spots}`);
    await page.locator('input[name="tap-test"][value="dots"]').check();
    await page.getByRole("button", { name: "Take these answers" }).first().click();
    expect(page.url()).toContain("tap-test=dots");
  });
});

const states = {
  empty: "?",
  asking: spots,
  verdict: `${spots}&tap-test=dots&traces=webs&air=dry&others=no&household=pets&flowering-or-outdoors=no`,
  undetermined:
    "?what-you-see=not-sure&host=not-sure&soil-check=not-sure&changes=not-sure&pace=not-sure&light=not-sure&thrives=not-sure",
};
/** What can be pressed and is lower than so many pixels. A box within a label is pressed by all of the label. */
function listSmall(page: Page, least: number): Promise<string[]> {
  return page.locator(".desk :is(a, button, summary, select, textarea, input, label:has(input))").evaluateAll(
    (nodes, limit) =>
      nodes
        .filter((node) => node.tagName === "LABEL" || node.closest("label") === null)
        .filter((node) => node.checkVisibility() && node.getBoundingClientRect().height < limit)
        .map((node) => `${node.outerHTML.slice(0, 120)} ${node.getBoundingClientRect().height}`),
    least,
  );
}

// Each scheme and each width once: colors do not hang on the width, nor the layout on the colors.
const looks = [
  {
    colorScheme: "light",
    viewport: { width: 1280, height: 800 },
    hasTouch: false,
    stages: ["empty", "asking", "verdict"],
  },
  {
    colorScheme: "dark",
    viewport: { width: 320, height: 800 },
    hasTouch: true,
    stages: ["asking", "undetermined"],
  },
] as const;

describe.each(looks)("nothing for axe to find, $colorScheme, $viewport.width pixels", (look) => {
  let context: BrowserContext;
  beforeAll(async () => {
    context = await browser.newContext({ ...look, isMobile: look.hasTouch });
  });
  afterAll(() => context.close());

  const checkPage = async (page: Page, name: string, within?: string) => {
    expect(await runAxe(page, within), name).toEqual([]);
    const width = await page.evaluate(() => document.documentElement.scrollWidth);
    expect(width, name).toBeLessThanOrEqual(look.viewport.width);
    if (look.hasTouch) expect(await listSmall(page, 44), name).toEqual([]);
    await keepPicture(page, `desk ${name} ${look.colorScheme} ${look.viewport.width}`);
  };

  test("at every stage of a call", async () => {
    for (const stage of look.stages) {
      const page = await openDesk(context, origin, states[stage]);
      await checkPage(page, stage);
      await page.close();
    }
  });

  test("with what keys open, and what was understood", async () => {
    const page = await openDesk(context, origin, spots);
    for (const [key, name] of [
      [".", "hand over"],
      [",", "take over"],
      ["?", "keys"],
    ] as const) {
      await page.keyboard.press(key);
      await checkPage(page, name, ".desk-first");
      await page.locator("#desk-keys").focus();
      await page.keyboard.press("Escape");
    }
    await page.keyboard.insertText(
      "/it may be thrips or a fungus, sticky leaves, the mint or the sage, a cat, xyzzy plugh. Will it live?",
    );
    await page.keyboard.press("Enter");
    await page.locator(".desk-heard").waitFor();
    await checkPage(page, "heard", ".desk-first");
  });

  test("the page without a script, with a code that is not right", async () => {
    // Axe itself is a script: only the desk's is kept away.
    const page = await context.newPage();
    await page.route("**/desk.js", (route) => route.abort());
    await page.goto(`${origin}/desk${spots}&code=6f014`);
    await checkPage(page, "plain");
  });
});

test("a typical call needs no scrolling at 1280 by 800", async () => {
  const page = await openDesk(staff, origin, spots);
  for (const place of [
    "#desk-keys",
    "#desk-say",
    '.desk-best [data-answer="tap-test=not-sure"]',
    ".desk-could",
  ]) {
    const box = await page.locator(place).first().boundingBox();
    expect((box?.y ?? 9999) + Math.min(box?.height ?? 0, 300), place).toBeLessThan(800);
  }
  expect(await page.evaluate(() => document.documentElement.scrollHeight)).toBeLessThanOrEqual(800);
});
