/**
 * Makes what the worker carries with it: content/ → worker/generated/edition.json and content.json, widget/element →
 * embed.json, widget/editor → editor.json.
 * Prints every problem of the content and exits 1 if there is one.
 */
import { mkdir, readdir, readFile, writeFile } from "node:fs/promises";
import { join, relative, sep } from "node:path";
import { pathToFileURL } from "node:url";
import { readContent } from "../flows/content/read-content.ts";
import { buildEditor } from "./build-editor.ts";
import { buildWidget } from "./build-widget.ts";
import { hashEdition } from "./hash-edition.ts";

const contentFolder = join(import.meta.dirname, "..", "content");
const generatedFolder = join(import.meta.dirname, "generated");

/** The text of every content file, by its path relative to content/. */
export async function loadContent(folder = contentFolder): Promise<Record<string, string>> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  const files: Record<string, string> = {};
  for (const entry of entries.filter((one) => one.isFile() && /\.(md|yaml|svg)$/.test(one.name))) {
    const path = join(entry.parentPath, entry.name);
    files[relative(folder, path).split(sep).join("/")] = await readFile(path, "utf8");
  }
  return files;
}

async function build(): Promise<number> {
  const files = await loadContent();
  const { edition, problems } = readContent(files);
  for (const { code, file, line, column, sentence, hint } of problems) {
    console.error(`content/${file}:${line}:${column} ${code} ${sentence} ${hint}`);
  }
  if (edition === null || problems.length > 0) return 1;
  const named = { ...edition, hash: await hashEdition(edition) };
  await mkdir(generatedFolder, { recursive: true });
  await writeFile(join(generatedFolder, "edition.json"), `${JSON.stringify(named)}\n`);
  console.error(`Edition ${named.number} (${named.hash}) is in worker/generated/edition.json.`);
  await writeFile(join(generatedFolder, "content.json"), `${JSON.stringify(files)}\n`);
  await writeFile(join(generatedFolder, "editor.json"), `${JSON.stringify(await buildEditor())}\n`);
  const widget = await buildWidget(named);
  await writeFile(join(generatedFolder, "embed.json"), `${JSON.stringify(widget)}\n`);
  console.error(`The element is /embed/${widget.first}, integrity ${widget.files[widget.first]?.integrity}.`);
  return 0;
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) process.exitCode = await build();
