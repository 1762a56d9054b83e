/** `npm run -s chart`: draws the conversation into worker/generated/chart.html, to be opened in any browser. */
import { mkdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { instance } from "@viz-js/viz";
import { drawChart } from "../../flows/chart.ts";
import { loadFlow } from "./load-flow.ts";

const folder = join(import.meta.dirname, "..", "generated");
const flow = await loadFlow();
const viz = await instance();
const sections = drawChart(flow).map(({ title, dot }) => {
  const drawn = viz.renderString(dot, { format: "svg" });
  const svg = drawn.slice(drawn.indexOf("<svg"));
  return `<section><h2>${escapeText(title)}</h2>${svg}</section>`;
});
const page = `<!doctype html>
<html lang="en"><meta charset="utf-8"><title>The conversation</title>
<style>body{font:16px/1.5 Georgia,serif;margin:2rem;background:#fbf9f3;color:#26221c}svg{max-width:100%;height:auto}
section{break-inside:avoid;margin-block:2rem;border-top:1px solid}</style>
<h1>The conversation</h1>
<p>“${escapeText(flow.prompts[0]?.question.prompt ?? "")}” comes first, then which plant it is. One drawing for each first answer:
what is asked next, for a plant that is not known. Dashed lines lead to the verdict.</p>
${sections.join("\n")}
</html>
`;
await mkdir(folder, { recursive: true });
await writeFile(join(folder, "chart.html"), page);
console.log("The chart is in worker/generated/chart.html. Open it in a browser.");

function escapeText(text: string): string {
  return text.replaceAll("&", "&amp;").replaceAll("<", "&lt;");
}
