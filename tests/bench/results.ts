import { readFileSync, writeFileSync } from "node:fs";
import { cpus } from "node:os";
import { join } from "node:path";

export const resultsFile = join(import.meta.dirname, "results.json");

/** One part of the committed results for each measurement. */
export type ResultName = "worker" | "start" | "engine" | "element" | "endurance" | "mutation";

/** Prints a result as JSON, and with `--keep` on the command line puts it in the place of the committed one. */
export function keepResult(name: ResultName, result: object): void {
  const measured = { cores: cpus().length, node: process.version, ...result };
  console.log(JSON.stringify(measured));
  if (!process.argv.includes("--keep")) return;
  const kept = JSON.parse(readFileSync(resultsFile, "utf8")) as Record<string, unknown>;
  writeFileSync(resultsFile, `${JSON.stringify({ ...kept, [name]: measured }, null, 2)}\n`);
}
