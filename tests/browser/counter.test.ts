import { execFile } from "node:child_process";
import { createRequire } from "node:module";
import { join } from "node:path";
import { promisify } from "node:util";
import { parse } from "csv-parse/sync";
import type { Browser, BrowserContextOptions, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest";
import { writeCode } from "../../flows/case-code.ts";
import { readLink } from "../../flows/case-link.ts";
import { askDatabase } from "../../worker/commands/wrangler.ts";
import { shippedFlow } from "../support/shipped-flow.ts";
import { openChromium } from "./chromium.ts";
import { answerAll, startCheck } from "./element-driver.ts";
import { findJourneys, journeyTo } from "./find-journeys.ts";
import { type HostServer, openHost, serveHosts } from "./host-pages.ts";
import { keepPicture } from "./keep-picture.ts";
import { runAxe } from "./run-axe.ts";

const origin = inject("origin");
const folder = inject("folder");
const journeys = findJourneys();
const suspected = journeyTo(journeys, "suspected");
const flow = shippedFlow();
const code = writeCode(flow, readLink(flow, suspected.link).case);
const schemes = [
  ["light", 320],
  ["light", 1280],
  ["dark", 320],
  ["dark", 1280],
] as const;

let browser: Browser;
let hosts: HostServer;
let keyLink = "";

/** Runs the command as a person would, on the database of the running server. */
async function addStaff(name: string): Promise<string> {
  const root = join(import.meta.dirname, "..", "..");
  const tsx = createRequire(import.meta.url).resolve("tsx/cli");
  const words = [tsx, "worker/commands/staff.ts", "add", name, "--persist-to", folder, "--origin", origin];
  const { stdout } = await promisify(execFile)(process.execPath, words, { cwd: root });
  return /http\S+#key=\w+/.exec(stdout)?.[0] ?? "";
}

/** Writes samples into the bench book: thirty for a surer, twelve for a less sure verdict. */
async function seedBook(): Promise<void> {
  const row = (i: number) => {
    const isSure = i < 30;
    const result = i % (isSure ? 10 : 3) === 0 ? "'something-else', 'thrips'" : "'confirmed', NULL";
    const said = isSure ? `'suspected', 'spider-mites', ${8 + i}` : `'leaning', 'aphids', ${3 + (i % 4)}`;
    return `('${String(i).padStart(40, "f")}', NULL, 1, 'SEEDED', ${said}, ${result}, 'north-yard', '2026-11-2${i % 5}')`;
  };
  const rows = Array.from({ length: 42 }, (_, i) => row(i)).join(", ");
  await askDatabase({ remote: false, folder }, [
    `INSERT INTO bench_findings (id, corrects, edition, code, standing, condition, lead, result, bench_condition, branch, day) VALUES ${rows}`,
  ]);
}

beforeAll(async () => {
  browser = await openChromium();
  hosts = await serveHosts(origin);
  keyLink = await addStaff("Ada O'Neil");
}, 120_000);
afterAll(async () => {
  await browser.close();
  await hosts.close();
});

async function openSignedIn(options: BrowserContextOptions = {}): Promise<Page> {
  const page = await browser.newPage(options);
  await page.goto(keyLink);
  await page.getByRole("button", { name: "Sign in" }).click();
  await page.waitForURL("**/desk/counter");
  return page;
}

async function readCounts(page: Page): Promise<Record<string, number>> {
  const response = await page.request.get(`${origin}/desk/figures/counts.csv`);
  const rows = parse(await response.text(), { columns: true }) as Record<string, string>[];
  return Object.fromEntries(
    rows.map(({ source, branch, name, what, count }) => [
      [source, branch, name, what].filter(Boolean).join(" "),
      Number(count),
    ]),
  );
}

const focused = (page: Page, attribute: string) =>
  page.evaluate((name) => document.activeElement?.getAttribute(name) ?? null, attribute);

async function tabTo(page: Page, attribute: string, value: string): Promise<void> {
  for (let i = 0; i < 60; i++) {
    if ((await focused(page, attribute)) === value) return;
    await page.keyboard.press("Tab");
  }
  throw new Error(`${attribute}="${value}" cannot be reached with the Tab key.`);
}

test("by keyboard alone: sign in, scan, record, see the figures", async () => {
  const page = await browser.newPage();
  await page.goto(keyLink);
  expect(new URL(page.url()).hash).toBe("");
  expect(await focused(page, "id")).toBe("enter");
  await page.keyboard.press("Enter");
  await page.waitForURL("**/desk/counter");
  expect(await page.context().cookies()).toMatchObject([
    { name: "leafturn", httpOnly: true, sameSite: "Lax" },
  ]);
  expect(await focused(page, "id")).toBe("code");
  // A scanner types the link and ends with Enter.
  await page.keyboard.type(`${origin}/check?${suspected.link}`);
  await page.keyboard.press("Enter");
  await page.getByRole("heading", { name: `Case ${code}` }).waitFor();
  await tabTo(page, "name", "result");
  await page.keyboard.press("Space");
  expect(await focused(page, "value")).toBe("confirmed");
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("ArrowDown");
  expect(await focused(page, "value")).toBe("something-else");
  await tabTo(page, "name", "other");
  await page.keyboard.type("Plant virus");
  await tabTo(page, "name", "branch");
  await page.keyboard.type("North");
  await tabTo(page, "type", "submit");
  await page.keyboard.press("Enter");
  const done = page.getByRole("status");
  await done.or(page.getByRole("alert")).waitFor();
  expect(await done.textContent()).toMatch(
    new RegExp(`^Recorded: ${code}, Something else: Plant virus, North Yard, `),
  );
  await tabTo(page, "href", "/desk/figures");
  await page.keyboard.press("Enter");
  await page.getByRole("heading", { name: "Check and bench" }).waitFor();
  expect(await page.getByRole("row", { name: /Most likely 1 0 0 %/ }).count()).toBeGreaterThan(0);
  await tabTo(page, "type", "submit");
  await page.keyboard.press("Enter");
  await page.getByRole("heading", { name: "Sign in to the desk" }).waitFor();
  expect(await page.context().cookies()).toEqual([]);
  await page.close();
});

test("without JavaScript: paste the link, mend a code, record, correct", async () => {
  const page = await browser.newPage({ javaScriptEnabled: false });
  await page.goto(`${origin}/desk/counter?code=${code.slice(0, 4)}`);
  await page.getByLabel("Your key").fill("not a key");
  await page.getByRole("button", { name: "Sign in" }).click();
  expect(await page.getByRole("alert").textContent()).toContain("does not open the desk");
  await page.getByLabel("Your key").fill(keyLink);
  await page.getByRole("button", { name: "Sign in" }).click();
  expect(await page.getByRole("alert").textContent()).toContain("One character of the code");
  const field = page.getByLabel("Code or link on the slip");
  expect(await field.inputValue()).toBe(code.slice(0, 4));
  await field.fill(code.toLowerCase());
  await page.getByRole("button", { name: "Open the case" }).click();
  await page.getByRole("radio", { name: "Not detected" }).check();
  await page.getByLabel("Branch").selectOption("Canal Street");
  await page.getByRole("button", { name: "Record this finding" }).click();
  expect(await page.getByRole("status").textContent()).toContain("Not detected, Canal Street");
  // Sent once more from the page before: still one line.
  await page.goBack();
  await page.getByRole("button", { name: "Record this finding" }).click();
  expect(await page.getByRole("status").textContent()).toContain("Not detected, Canal Street");
  expect(await page.getByText(`${code}, Not detected`).count()).toBe(2);
  await page.getByRole("link", { name: `Correct: ${code}, Not detected` }).click();
  await page.getByRole("radio", { name: /^Recorded by mistake/ }).check();
  await page.getByRole("button", { name: "Record the correction" }).click();
  expect(await page.getByRole("status").textContent()).toContain("Recorded by mistake");
  await page.close();
});

describe.each(schemes)("in %s at %i px", (colorScheme, width) => {
  test("every page is accessible and fits", async () => {
    const options = { viewport: { width, height: 800 }, colorScheme };
    const page = await openSignedIn(options);
    const violations: string[] = [];
    page.on(
      "console",
      (message) => message.text().includes("Content Security Policy") && violations.push(message.text()),
    );
    if (colorScheme === "light" && width === 320) await seedBook();
    for (const [name, path] of [
      ["counter", "/desk/counter"],
      ["broken code", "/desk/counter?code=AAAA1"],
      ["case", `/desk/counter?code=${encodeURIComponent(code)}`],
      ["figures", "/desk/figures?branch=north-yard&from=31.2.2026"],
      ["sign-in", "/desk/sign-in?next=/desk/figures"],
    ] as const) {
      await page.goto(origin + path);
      await page.evaluate(() => {
        for (const details of document.querySelectorAll("details")) details.open = true;
      });
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      expect(wide, name).toBeLessThanOrEqual(0);
      expect(await runAxe(page), name).toEqual([]);
      await keepPicture(page, `desk ${name} ${colorScheme} ${width}`);
    }
    await page.goto(`${origin}/desk/counter?code=${encodeURIComponent(code)}`);
    await page.evaluate(() => {
      for (const form of document.querySelectorAll("form")) form.noValidate = true;
    });
    await page.getByRole("button", { name: "Record this finding" }).click();
    expect(await page.getByRole("alert").textContent()).toContain("This is not recorded yet");
    expect(await runAxe(page)).toEqual([]);
    await keepPicture(page, `desk problems ${colorScheme} ${width}`);
    expect(violations).toEqual([]);
    await page.close();
  });
});

describe("the counts", () => {
  test("of the element: at the start, at the verdict, on leaving, and never an answer or a cookie", async () => {
    const { page } = await openHost(
      browser,
      `${hosts.origin}/plain.html?attributes=${encodeURIComponent('branch="canal-street"')}`,
    );
    const sent: { body: unknown; cookie: string | undefined }[] = [];
    page.on("request", (request) => {
      if (!request.url().endsWith("/api/counts")) return;
      sent.push({ body: request.postDataJSON(), cookie: request.headers().cookie });
    });
    const prose = page.waitForResponse((response) => response.url().endsWith("/prose.json"));
    const check = await startCheck(page);
    await prose;
    await expect.poll(() => sent.length).toBe(1);
    await answerAll(check, suspected.answers);
    await expect.poll(() => sent.length).toBe(2);
    const asked = suspected.answers.map(({ to }) => to);
    expect(sent[0]?.body).toEqual({
      branch: "canal-street",
      started: true,
      shown: [asked[0]],
      answered: [],
      unsure: [],
    });
    expect(sent[1]?.body).toMatchObject({ standing: "suspected", shown: asked.slice(1), answered: asked });
    await page.reload();
    await page.locator("#lt-now").waitFor();
    await page.waitForTimeout(500);
    expect(sent).toHaveLength(2);
    expect(sent.map(({ cookie }) => cookie)).toEqual([undefined, undefined]);
    await page.close();
  });

  test("of the element left half-way say where", async () => {
    const { page } = await openHost(browser, `${hosts.origin}/plain.html`);
    const staff = await openSignedIn();
    const before = await readCounts(staff);
    const started = page.waitForResponse((response) => response.url().endsWith("/api/counts"));
    const check = await startCheck(page);
    await started;
    await answerAll(check, suspected.answers.slice(0, 2));
    await page.goto("about:blank");
    const [first = "", second = "", open = ""] = suspected.answers.map(({ to }) => to);
    await expect
      .poll(async () => (await readCounts(staff))[`element shown ${open}`] ?? 0)
      .toBe((before[`element shown ${open}`] ?? 0) + 1);
    const after = await readCounts(staff);
    for (const id of [first, second])
      expect(after[`element answered ${id}`]).toBe((before[`element answered ${id}`] ?? 0) + 1);
    expect(after[`element answered ${open}`] ?? 0).toBe(before[`element answered ${open}`] ?? 0);
    await page.close();
    await staff.close();
  });

  test("of the element are not sent where the reader says no", async () => {
    const { page } = await openHost(browser, `${hosts.origin}/plain.html`);
    await page.addInitScript(() => Object.defineProperty(navigator, "globalPrivacyControl", { value: true }));
    await page.reload();
    const sent: string[] = [];
    page.on("request", (request) => sent.push(request.url()));
    const check = await startCheck(page);
    await answerAll(check, suspected.answers);
    await page.goto("about:blank");
    expect(sent.filter((url) => url.includes("counts"))).toEqual([]);
    await page.close();
  });

  test("of the pages go with the presses, also without JavaScript; a reload adds nothing", async () => {
    const staff = await openSignedIn();
    const before = await readCounts(staff);
    const page = await browser.newPage({ javaScriptEnabled: false });
    await page.goto(`${origin}/check`);
    await answerAll(page.locator("body"), suspected.answers);
    await page.reload();
    await page.goto(`${origin}/check?${suspected.link}`);
    const more = async (name: string) => {
      const key = `page ${name}`;
      return ((await readCounts(staff))[key] ?? 0) - (before[key] ?? 0);
    };
    await expect.poll(() => more("finished")).toBe(1);
    expect(await more("started")).toBe(1);
    for (const { to } of suspected.answers) {
      expect(await more(`shown ${to}`), to).toBe(1);
      expect(await more(`answered ${to}`), to).toBe(1);
    }
    await page.close();
    await staff.close();
  });
});
