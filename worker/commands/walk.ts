/**
 * `npm run -s walk`: walks every conversation that the content allows and prints what it found as JSON. A broken
 * invariant is printed with the shortest conversation that shows it, and the process exits 1.
 */
import { walk } from "../../flows/walk/walk.ts";
import { loadFlow } from "./load-flow.ts";

const flow = await loadFlow();
const from = performance.now();
const report = walk(flow);
const seconds = (performance.now() - from) / 1000;
const conversations = Number(report.conversations);
const asText = (_: string, value: unknown) => (typeof value === "bigint" ? value.toString() : value);
console.log(
  JSON.stringify(
    { ...report, seconds: round(seconds), conversationsPerSecond: Math.round(conversations / seconds) },
    asText,
    2,
  ),
);
if (report.violations.length > 0) process.exitCode = 1;

function round(value: number): number {
  return Math.round(value * 100) / 100;
}
