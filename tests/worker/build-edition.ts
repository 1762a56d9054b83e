import { execFileSync } from "node:child_process";
import { createRequire } from "node:module";
import { join } from "node:path";

/** The worker bundles the edition, so it must be built before the tests load the worker. */
export default function buildEdition(): void {
  const tsx = createRequire(import.meta.url).resolve("tsx/cli");
  execFileSync(process.execPath, [tsx, join(import.meta.dirname, "..", "..", "worker", "build.ts")], {
    stdio: "pipe",
  });
}
