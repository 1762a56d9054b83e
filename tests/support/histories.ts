import { readFileSync } from "node:fs";
import type { CaseHistory } from "../../flows/case-history.ts";

/** `open`: real cases; `vignettes`: set from published descriptions. Where each comes from stands in its `url`. */
export function loadHistories(name: "open" | "vignettes"): CaseHistory[] {
  const text = readFileSync(new URL(`../cases/${name}.jsonl`, import.meta.url), "utf8");
  return text
    .trim()
    .split("\n")
    .map((line) => JSON.parse(line) as CaseHistory);
}
