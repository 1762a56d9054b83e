import { mkdir } from "node:fs/promises";
import { join } from "node:path";
import type { Page } from "playwright-core";

/** Keeps a picture of the whole page to look at, when PICTURES names a folder for them. */
export async function keepPicture(page: Page, name: string): Promise<void> {
  const folder = process.env.PICTURES;
  if (folder === undefined) return;
  await mkdir(folder, { recursive: true });
  await page.screenshot({
    path: join(folder, `${name.replaceAll(/[^a-z0-9]+/gi, "-")}.png`),
    fullPage: true,
  });
}
