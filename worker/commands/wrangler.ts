/** How the commands run the platform's tool. */
import { execFile, spawn } from "node:child_process";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { promisify } from "node:util";

export const workerFolder = join(import.meta.dirname, "..");
const require = createRequire(import.meta.url);
export const wrangler = join(dirname(require.resolve("wrangler/package.json")), "bin", "wrangler.js");
export const config = ["--config", join(workerFolder, "wrangler.jsonc")];

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
export function run(program: string, ...rest: string[]): Promise<number> {
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

/** Which database a command means: the one of this machine, in a folder of its own if one is named, or the real one. */
export interface Target {
  remote: boolean;
  folder: string | undefined;
}

const targetOf = ({ remote, folder }: Target) => [
  remote ? "--remote" : "--local",
  ...(folder === undefined ? [] : ["--persist-to", folder]),
];

const runQuietly = promisify(execFile);

/** Brings the tables of the local database up to date. The real one is brought up to date when deploying. */
export async function prepareLocal(target: Target): Promise<void> {
  if (target.remote) return;
  const words = ["d1", "migrations", "apply", "DB", ...targetOf(target), ...config];
  await runQuietly(process.execPath, [wrangler, ...words], { env: quiet });
}

/** Runs statements one after the other and gives the rows of each. Throws with what the tool said. */
export async function askDatabase(target: Target, statements: string[]): Promise<unknown[][]> {
  const words = ["d1", "execute", "DB", "--json", "--yes", "--command", statements.join("; ")];
  const { stdout } = await runQuietly(
    process.execPath,
    [wrangler, ...words, ...targetOf(target), ...config],
    { env: quiet },
  );
  const results = JSON.parse(stdout.slice(stdout.indexOf("["))) as { results: unknown[] }[];
  return results.map(({ results: rows }) => rows);
}
