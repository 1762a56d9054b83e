/** Bundles the element and the desk: widget/element and widget/desk → the files under /embed/, each named by its hash. */
import { createHash } from "node:crypto";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build, type Plugin, transform } from "esbuild";
import type { Edition } from "../flows/edition.ts";
import type { WidgetFiles } from "./embed/widget-files.ts";

const folder = join(import.meta.dirname, "..", "widget", "element");
const deskFolder = join(import.meta.dirname, "..", "widget", "desk");

export async function buildWidget(edition: Edition): Promise<WidgetFiles> {
  const verdict = await bundle("verdict-part.ts", {});
  const verdictPath = `${nameOf(verdict)}/verdict.js`;
  const pictures = await bundle("picture-part.ts", {});
  const picturesPath = `${nameOf(pictures)}/pictures.js`;
  const say = await bundle("say-part.ts", {});
  const sayPath = `${nameOf(say)}/say.js`;
  const rest = await bundle("open-check.ts", {
    VERDICT: describeFile(verdictPath, verdict),
    PICTURES: describeFile(picturesPath, pictures),
    SAY: describeFile(sayPath, say),
  });
  const restPath = `${nameOf(rest)}/check.js`;
  const phones = edition.shop.branches.map(({ id, name, phone }) => ({ id, name, phone }));
  const first = await bundle("define.ts", {
    REST: describeFile(restPath, rest),
    PHONES: JSON.stringify(phones),
  });
  const firstPath = `${nameOf(first)}/leafturn.js`;
  const deskSay = await bundle("say-part.ts", {}, deskFolder);
  const deskSayPath = `${nameOf(deskSay)}/desk-say.js`;
  const desk = await bundle("open-desk.ts", { DESK_SAY: describeFile(deskSayPath, deskSay) }, deskFolder);
  const deskPath = `${nameOf(desk)}/desk.js`;
  return {
    first: firstPath,
    desk: deskPath,
    files: Object.fromEntries(
      [
        [firstPath, first],
        [restPath, rest],
        [verdictPath, verdict],
        [deskPath, desk],
        [deskSayPath, deskSay],
        [picturesPath, pictures],
        [sayPath, say],
      ].map(([path = "", body = ""]) => [path, { body, integrity: integrityOf(body) }]),
    ),
  };
}

async function bundle(entry: string, define: Record<string, string>, from = folder): Promise<string> {
  const { outputFiles } = await build({
    entryPoints: [join(from, entry)],
    bundle: true,
    minify: true,
    write: false,
    format: "esm",
    target: "es2022",
    charset: "utf8",
    legalComments: "none",
    jsx: "automatic",
    jsxImportSource: "hono/jsx",
    define,
    plugins: [dropUnused, shrinkSheets],
    // The same views as on the server, but made into nodes instead of text.
    alias: { "hono/jsx/jsx-runtime": join(folder, "jsx-runtime.ts") },
  });
  const [file] = outputFiles;
  if (!file) throw new Error(`Nothing came of ${entry}.`);
  return file.text;
}

/** What hono's renderer for the browser takes from its server's side, and our smaller stand-ins for it. */
const standIns: Readonly<Record<string, string>> = {
  "../context.js": "renderer-context.ts",
  "../utils.js": "renderer-names.ts",
};

/**
 * hono's package does not say that its modules do nothing when nothing of them is used. For the renderer this is so,
 * and a sixth of it can stay away.
 */
const dropUnused: Plugin = {
  name: "drop-unused",
  setup(run) {
    run.onResolve({ filter: /^(hono\/|\.)/ }, async ({ path, pluginData, ...from }) => {
      if (pluginData === dropUnused || !(path.startsWith("hono/") || from.importer.includes("/hono/")))
        return;
      const standIn = /jsx.dom.(render|context)\.js$/.test(from.importer) ? standIns[path] : undefined;
      if (standIn !== undefined) return { path: join(folder, standIn) };
      const found = await run.resolve(path, { ...from, pluginData: dropUnused });
      return { ...found, sideEffects: false };
    });
  },
};

/** Modules that hold nothing but style sheets, each without its comments and blanks. */
const shrinkSheets: Plugin = {
  name: "shrink-sheets",
  setup(run) {
    run.onLoad({ filter: /(views.(verdict-|picture-)?|start-)sheet\.ts$/ }, async ({ path }) => {
      const sheets = (await import(pathToFileURL(path).href)) as Record<string, string>;
      const lines = Object.entries(sheets).map(async ([name, sheet]) => {
        const { code } = await transform(sheet, { loader: "css", minify: true });
        return `export const ${name} = ${JSON.stringify(code)};`;
      });
      return { contents: (await Promise.all(lines)).join("\n") };
    });
  },
};

function describeFile(path: string, body: string): string {
  return JSON.stringify({ path, integrity: integrityOf(body) });
}

function nameOf(body: string): string {
  return createHash("sha256").update(body).digest("hex").slice(0, 16);
}

function integrityOf(body: string): string {
  return `sha384-${createHash("sha384").update(body).digest("base64")}`;
}
