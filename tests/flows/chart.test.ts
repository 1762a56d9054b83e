import { instance } from "@viz-js/viz";
import { expect, it } from "vitest";
import { drawChart } from "../../flows/chart.ts";
import { tinyFlow } from "../support/tiny-flow.ts";

it("draws one graph for each answer to the opening, and Graphviz can read them", async () => {
  const flow = tinyFlow();
  const parts = drawChart(flow);
  expect(parts).toHaveLength((flow.prompts[0]?.question.options.length ?? 0) + 1);
  const viz = await instance();
  for (const { dot } of parts) {
    const svg = viz.renderString(dot, { format: "svg" });
    expect(svg).toContain("Verdict");
  }
});
