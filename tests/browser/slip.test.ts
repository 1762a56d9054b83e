import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import jsQR from "jsqr";
import type { Browser } from "playwright-core";
import { PNG } from "pngjs";
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest";
import { openChromium } from "./chromium.ts";
import { findJourneys } from "./find-journeys.ts";
import { keepPicture } from "./keep-picture.ts";

const origin = inject("origin");
const longest = findJourneys().toSorted((a, b) => b.answers.length - a.answers.length)[0]?.link ?? "";
/** Every yes-or-no thing a caller could tell unasked. */
const told = [
  "fine-webbing=yes",
  "sticky-film=yes",
  "brown-tips=yes",
  "yellow-leaves=yes",
  "leaves-dropping=yes",
  "brown-spots=no",
  "insects-or-webs=yes",
  "curled-leaves=no",
  "limp-or-drooping=yes",
  "rusty-powder=no",
  "black-film-wipes-off=no",
  "white-cottony-tufts=no",
].join("&");
const cases: Record<string, string> = {
  "an empty case": "",
  "the longest conversation": longest,
  "a caller who tells everything": `${longest}&${told}`,
  "one branch": `${longest}&branch=north-yard`,
};

let browser: Browser;
const folder = mkdtempSync(join(tmpdir(), "leafturn-slip-"));
beforeAll(async () => {
  browser = await openChromium();
});
afterAll(async () => {
  await browser.close();
  rmSync(folder, { recursive: true });
});

describe.each(Object.entries(cases))("the slip of %s", (name, query) => {
  test.each(["A4", "Letter"])("is one page of %s", async (format) => {
    const page = await browser.newPage();
    await page.goto(`${origin}/slip?${query}`);
    const file = join(folder, `${format}.pdf`);
    writeFileSync(file, await page.pdf({ format, preferCSSPageSize: true }));
    expect(execFileSync("pdfinfo", [file], { encoding: "utf8" })).toMatch(/^Pages:\s+1$/m);
    await page.close();
  });

  test("has the link as a QR code that another program reads", async () => {
    const page = await browser.newPage({ viewport: { width: 1000, height: 900 }, deviceScaleFactor: 2 });
    await page.goto(`${origin}/slip?${query}`);
    await keepPicture(page, `slip ${name}`);
    const { data, width, height } = PNG.sync.read(await page.locator(".slip-qr").screenshot());
    const read = jsQR(Uint8ClampedArray.from(data), width, height);
    const shown = await page.locator(".slip-link").textContent();
    expect(read?.data).toBe(shown);
    const opened = await page.goto(read?.data ?? "");
    expect(opened?.status()).toBe(200);
    await page.close();
  });
});

test("the slip says all that the bench needs", async () => {
  const page = await browser.newPage();
  await page.goto(`${origin}/slip?e=1&what-you-see=white&host=basil&branch=north-yard`);
  const slip = page.locator(".slip");
  for (const text of [
    "Something white",
    "Basil",
    "North Yard",
    "Tuesday to Saturday 10 to 5",
    "seal the bag",
  ]) {
    expect(await slip.getByText(text).first().isVisible(), text).toBe(true);
  }
  for (const box of ["Confirmed", "Not detected", "Something else:", "Date:"]) {
    expect(await slip.getByText(box).isVisible(), box).toBe(true);
  }
  expect(await slip.getByText("Canal Street").count()).toBe(0);
  const { code } = (await (await fetch(`${origin}/api/case?e=1&what-you-see=white&host=basil`)).json()) as {
    code: string;
  };
  expect(await slip.locator(".slip-code").textContent()).toBe(code);
  expect(await page.getByRole("button", { name: "Print this slip" }).isVisible()).toBe(true);
  await page.close();
});

test("what cannot be read of a slip's link is named, and the rest printed", async () => {
  const page = await browser.newPage();
  await page.goto(`${origin}/slip?e=1&what-you-see=white&bogus=1&branch=moon`);
  expect(await page.getByText("We do not know “bogus”").isVisible()).toBe(true);
  expect(await page.getByText("Something white").isVisible()).toBe(true);
  expect(await page.locator(".slip-branches li").count()).toBe(2);
  await page.close();
});
