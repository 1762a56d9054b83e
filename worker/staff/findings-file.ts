import { writeCsv } from "../../flows/statistics/csv.ts";
import type { BenchFinding } from "./bench-findings.ts";

const columns = [
  "id",
  "corrects",
  "day",
  "branch",
  "edition",
  "code",
  "standing",
  "condition",
  "lead",
  "result",
  "benchCondition",
] as const satisfies readonly (keyof BenchFinding)[];

/** The bench book as a table, every line of it, those that were corrected included. */
export function writeFindings(findings: readonly BenchFinding[]): string {
  return writeCsv(
    columns.map((name) => name.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`)),
    findings.map((finding) => columns.map((name) => finding[name])),
  );
}
