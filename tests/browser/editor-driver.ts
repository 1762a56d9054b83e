import { execFile } from "node:child_process";
import { createRequire } from "node:module";
import { join } from "node:path";
import { promisify } from "node:util";
import type { Browser, BrowserContext, Page } from "playwright-core";
import { inject } from "vitest";

const run = promisify(execFile);
const EDITORS = join(import.meta.dirname, "..", "..", "worker", "commands", "editors.ts");
const server = { origin: inject("origin"), folder: inject("folder") };

/** Runs the command as a person would, and gives what it prints. */
export async function editors(...words: string[]): Promise<string> {
  const tsx = createRequire(import.meta.url).resolve("tsx/cli");
  const options = ["--persist-to", server.folder, "--origin", server.origin];
  const { stdout } = await run(process.execPath, [tsx, EDITORS, ...words, ...options]);
  return stdout;
}

export async function invite(name: string, role: string): Promise<string> {
  return linkIn(await editors("invite", name, "--role", role));
}

export function linkIn(text: string): string {
  return /http\S+#key=\S+/.exec(text)?.[0] ?? "";
}

export interface Person {
  context: BrowserContext;
  page: Page;
  /** Messages about the content security policy, and dialogs: there should never be one. */
  faults: string[];
}

/** A browser with a device in it (Chromium's virtual authenticator), on the page of an invitation, registered. */
export async function arrive(browser: Browser, link: string): Promise<Person> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 } });
  const page = await context.newPage();
  const faults: string[] = [];
  page.on("console", (message) => {
    if (/Content Security Policy|TrustedScript/.test(message.text())) faults.push(message.text());
  });
  page.on("pageerror", (error) => faults.push(error.message));
  page.on("dialog", async (dialog) => {
    faults.push(`dialog ${dialog.message()}`);
    await dialog.dismiss();
  });
  const devtools = await context.newCDPSession(page);
  await devtools.send("WebAuthn.enable");
  await devtools.send("WebAuthn.addVirtualAuthenticator", {
    options: {
      ...{ protocol: "ctap2", transport: "internal", hasResidentKey: true, hasUserVerification: true },
      ...{ isUserVerified: true, automaticPresenceSimulation: true },
    },
  });
  await page.goto(link);
  await page.getByRole("button", { name: "Register this device" }).click();
  return { context, page, faults };
}

/** Begins a draft, and gives its address. */
export async function beginDraft(page: Page, title: string): Promise<string> {
  await page.goto(`${server.origin}/editor`);
  await page.locator("#title").fill(title);
  await page.getByRole("button", { name: "Begin a draft" }).click();
  await page.waitForURL(/drafts\/\w+$/);
  return page.url();
}
