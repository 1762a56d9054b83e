import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Page } from "playwright-core";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** Runs every rule, the stricter contrast of 7:1 included, on what the selector finds and in its shadow roots. */
export async function runAxe(page: Page, within = "html"): Promise<string[]> {
  await page.evaluate(axe);
  return page.evaluate(async (selector) => {
    interface Finding {
      id: string;
      nodes: { html: string; failureSummary?: string }[];
    }
    const { axe } = window as unknown as {
      axe: { run(context: string, options: object): Promise<{ violations: Finding[] }> };
    };
    const rules = { "color-contrast-enhanced": { enabled: true }, "target-size": { enabled: true } };
    const { violations } = await axe.run(selector, { rules, resultTypes: ["violations"] });
    return violations.flatMap(({ id, nodes }) =>
      nodes.map((node) => `${id}: ${node.html} ${node.failureSummary ?? ""}`),
    );
  }, within);
}
