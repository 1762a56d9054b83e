import { readdirSync, readFileSync } from "node:fs";
import { join, relative, sep } from "node:path";
import { fileURLToPath } from "node:url";

export const shippedContent = fileURLToPath(new URL("../../../content", import.meta.url));
export const tinyContent = fileURLToPath(new URL("../../fixtures/tiny-content", import.meta.url));
export const brokenContent = fileURLToPath(new URL("../../fixtures/broken-content", import.meta.url));

/** All files below a folder, by their path relative to it, with slashes on every system. */
export function loadFiles(folder: string): Record<string, string> {
  const names = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((item) => item.isFile())
    .map((item) => join(item.parentPath, item.name));
  return Object.fromEntries(
    names.map((name) => [relative(folder, name).split(sep).join("/"), readFileSync(name, "utf8")]),
  );
}
