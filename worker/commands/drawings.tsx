/**
 * `npm run -s drawings`: lays all drawings out on one sheet at the size a phone shows them, by day, by dark light and on
 * paper, into worker/generated/drawings.html; with Chromium also as pictures and as a PDF.
 */
import { execFile } from "node:child_process";
import { existsSync } from "node:fs";
import { mkdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { promisify } from "node:util";
import type { Drawing } from "../../flows/edition.ts";
import { DrawingView } from "../../widget/views/drawing.tsx";
import { pictureSheet } from "../../widget/views/picture-sheet.ts";
import { sheet } from "../../widget/views/sheet.ts";
import { loadFlow } from "./load-flow.ts";

const folder = join(import.meta.dirname, "..", "generated");
const page = join(folder, "drawings.html");
const places = [
  process.env.CHROMIUM,
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
];

const contactSheet = `
.contacts { display: grid; gap: 10px; grid-template-columns: repeat(auto-fill, minmax(230px, 1fr)); padding: 12px; }
.contacts figure { display: grid; grid-template-columns: 72px 128px; gap: 8px; align-items: start; break-inside: avoid; font-size: 11px; line-height: 1.3; }
.contacts figcaption { grid-column: 1 / -1; }
@media print { .contacts { grid-template-columns: repeat(3, 1fr); } }
`;

function Contacts({ drawings }: { drawings: readonly Drawing[] }) {
  return (
    <html lang="en" class="lt">
      <head>
        <meta charset="utf-8" />
        <title>The drawings</title>
        <link rel="stylesheet" href="drawings.css" />
      </head>
      <body>
        <main class="contacts">
          {drawings.map(({ id, parts, shows }) => (
            <figure>
              <DrawingView parts={parts} />
              <DrawingView parts={parts} />
              <figcaption>
                <b>{id}</b> {shows}
              </figcaption>
            </figure>
          ))}
        </main>
      </body>
    </html>
  );
}

async function photograph(chromium: string): Promise<void> {
  const run = (...more: string[]) =>
    promisify(execFile)(chromium, [
      "--headless",
      "--no-sandbox",
      "--disable-gpu",
      "--hide-scrollbars",
      ...more,
      pathToFileURL(page).href,
    ]);
  const height = Math.ceil(drawings.length / 5) * 190;
  const shot = (name: string) => [`--window-size=1240,${height}`, `--screenshot=${join(folder, name)}`];
  await run(...shot("drawings-light.png"));
  await run("--blink-settings=preferredColorScheme=0", ...shot("drawings-dark.png"));
  await run("--no-pdf-header-footer", `--print-to-pdf=${join(folder, "drawings.pdf")}`);
}

const flow = await loadFlow();
const drawings = flow.edition.drawings ?? [];
await mkdir(folder, { recursive: true });
await writeFile(join(folder, "drawings.css"), sheet + pictureSheet + contactSheet);
await writeFile(page, `<!doctype html>${<Contacts drawings={drawings} />}`);
console.log(`${drawings.length} drawings are in worker/generated/drawings.html.`);
const chromium = places.find((place) => place !== undefined && existsSync(place));
if (chromium === undefined) console.log("Without Chromium there are no pictures of the sheet.");
else {
  await photograph(chromium);
  console.log("Pictures of it: drawings-light.png, drawings-dark.png and drawings.pdf, in the same folder.");
}
