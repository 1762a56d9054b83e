/** Bundles the scripts of the editor's room: widget/editor → the files under /assets/editor/. */
import { join } from "node:path";
import { build } from "esbuild";

const folder = join(import.meta.dirname, "..", "widget", "editor");
const entries = ["sign-in", "room", "entry", "tree", "study", "checker"];

/** The scripts by their names without ending. */
export async function buildEditor(): Promise<Record<string, string>> {
  const scripts: Record<string, string> = {};
  for (const entry of entries) {
    const { outputFiles } = await build({
      entryPoints: [join(folder, entry === "study" ? "study.tsx" : `${entry}.ts`)],
      ...{ bundle: true, minify: true, write: false, format: "esm", target: "es2022", charset: "utf8" },
      ...{ legalComments: "none", jsx: "automatic", jsxImportSource: "hono/jsx/dom" },
    });
    scripts[entry] = outputFiles[0]?.text ?? "";
  }
  return scripts;
}
