/** Builds, prepares the local database and starts the server. Works without a network. Arguments go to `wrangler dev`. */
import { spawn } from "node:child_process";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";

const workerFolder = join(import.meta.dirname, "..");
const require = createRequire(import.meta.url);
const wrangler = join(dirname(require.resolve("wrangler/package.json")), "bin", "wrangler.js");
const config = ["--config", join(workerFolder, "wrangler.jsonc")];

/** Nothing asks a question, reports home or looks for updates. */
const quiet = {
  ...process.env,
  CI: "true",
  WRANGLER_SEND_METRICS: "false",
  WRANGLER_SEND_ERROR_REPORTS: "false",
  WRANGLER_HIDE_BANNER: "true",
  CLOUDFLARE_CF_FETCH_ENABLED: "false",
};

/** Runs a Node program to its end and gives its exit code. */
function run(program: string, ...rest: string[]): Promise<number> {
  const child = spawn(process.execPath, [program, ...rest], {
    stdio: ["ignore", "inherit", "inherit"],
    env: quiet,
  });
  const pass = (signal: NodeJS.Signals) => child.kill(signal);
  process.on("SIGINT", pass).on("SIGTERM", pass);
  return new Promise((resolve) => {
    child.on("exit", (code) => {
      process.off("SIGINT", pass).off("SIGTERM", pass);
      resolve(code ?? 1);
    });
  });
}

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
