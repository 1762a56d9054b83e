import { readdirSync, readFileSync } from "node:fs";
import { join, relative } from "node:path";
import { readContent } from "../../flows/content/read-content.ts";
import { type Flow, openFlow } from "../../flows/flow.ts";

const folder = join(import.meta.dirname, "..", "fixtures", "tiny-content");

/** The tiny content of the fixtures, small enough to be walked one conversation at a time. */
export function tinyFlow(): Flow {
  const files: Record<string, string> = {};
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    if (!entry.isFile()) continue;
    const path = join(entry.parentPath, entry.name);
    files[relative(folder, path)] = readFileSync(path, "utf8");
  }
  const { edition, problems } = readContent(files);
  if (!edition) throw new Error(problems.map(({ file, sentence }) => `${file}: ${sentence}`).join("\n"));
  return openFlow(edition);
}
