import { readdirSync, readFileSync } from "node:fs";
import { join, relative, sep } from "node:path";
import { fileURLToPath } from "node:url";

export const root = fileURLToPath(new URL("../..", import.meta.url));

/** What is made or fetched, and so no part of the project. */
const notOurs = new Set([".git", "node_modules", ".wrangler", "generated", "dist"]);

/** One of the two papers, or any other text file of the project, by its path from the top. */
export function readText(path: string): string {
  return readFileSync(join(root, path), "utf8");
}

/** All files of the project, by their path from the top, with slashes on every system. */
export function projectFiles(folder = root): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((item) => {
    if (notOurs.has(item.name) || item.name.endsWith(".log")) return [];
    const path = join(folder, item.name);
    return item.isDirectory() ? projectFiles(path) : [relative(root, path).split(sep).join("/")];
  });
}

/** The rows of the table whose first heading is `first`, cell by cell, without code marks. Throws when there is none. */
export function readTable(paper: string, first: string): string[][] {
  const lines = paper.split("\n");
  const head = lines.findIndex((line) => cellsOf(line)[0] === first);
  if (head < 0) throw new Error(`No table starts with “${first}”.`);
  const end = lines.findIndex((line, i) => i > head && !line.startsWith("|"));
  return lines.slice(head + 2, end < 0 ? undefined : end).map(cellsOf);
}

function cellsOf(line: string): string[] {
  if (!line.startsWith("|")) return [];
  return line
    .split("|")
    .slice(1, -1)
    .map((cell) => cell.trim().replace(/^`(.*)`$/, "$1"));
}

/** A number as the papers write it: with a true minus sign, and commas between groups of digits. */
export function toNumber(cell: string): number {
  return Number(cell.replace("−", "-").replaceAll(",", ""));
}
