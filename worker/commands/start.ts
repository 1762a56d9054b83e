/** Builds, prepares the local database and starts the server. Works without a network. Arguments go to `wrangler dev`. */
import { createRequire } from "node:module";
import { join } from "node:path";
import { config, run, workerFolder, wrangler } from "./wrangler.ts";

const require = createRequire(import.meta.url);
const extra = process.argv.slice(2);
const at = extra.indexOf("--persist-to");
const port = extra.includes("--port") ? [] : ["--port", "8787"];
const persist = at < 0 ? [] : extra.slice(at, at + 2);
const seed = join(workerFolder, "generated", "seed.sql");
const tsx = require.resolve("tsx/cli");

const steps: [string, ...string[]][] = [
  [tsx, join(workerFolder, "build.ts")],
  [tsx, join(workerFolder, "commands", "seed.ts")],
  [wrangler, "d1", "migrations", "apply", "DB", "--local", ...config, ...persist],
  [wrangler, "d1", "execute", "DB", "--local", "--yes", "--file", seed, ...config, ...persist],
  [wrangler, "dev", ...port, "--show-interactive-dev-session=false", ...config, ...extra],
];
for (const step of steps) {
  const code = await run(...step);
  if (code !== 0) process.exit(code);
}
