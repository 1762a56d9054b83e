import { existsSync } from "node:fs";
import { type Browser, chromium } from "playwright-core";

const places = [
  process.env.CHROMIUM,
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
];

/** Opens the Chromium of this machine; says in one sentence what to do when there is none. */
export function openChromium(more: readonly string[] = []): Promise<Browser> {
  const executablePath = places.find((place) => place !== undefined && existsSync(place));
  if (executablePath === undefined) {
    throw new Error(
      "The browser tests need Chromium: install it (apt-get install chromium) or set CHROMIUM to its path.",
    );
  }
  return chromium.launch({
    executablePath,
    args: ["--no-sandbox", "--disable-gpu", "--disable-background-networking", ...more],
  });
}
