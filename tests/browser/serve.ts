import { spawn } from "node:child_process";
import { mkdtemp, rm } from "node:fs/promises";
import { createRequire } from "node:module";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { TestProject } from "vitest/node";

declare module "vitest" {
  interface ProvidedContext {
    /** Where the server under test listens. */
    origin: string;
    /** Where it keeps its database. */
    folder: string;
  }
}

const START = join(import.meta.dirname, "..", "..", "worker", "commands", "start.ts");
/** Building and the first start of the runtime take a few seconds; this is far above. */
const PATIENCE = 120_000;

/** For the tests: starts the server before the first of them, and ends it after the last. */
export default async function serve(project: TestProject): Promise<() => Promise<void>> {
  const { origin, folder, stop } = await startServer();
  project.provide("origin", origin);
  project.provide("folder", folder);
  return stop;
}

export interface RunningServer {
  origin: string;
  folder: string;
  stop(): Promise<void>;
}

/** Starts the real server with a database of its own, and ends it with all that it started. */
export async function startServer(): Promise<RunningServer> {
  const port = await findFreePort();
  const folder = await mkdtemp(join(tmpdir(), "leafturn-"));
  const tsx = createRequire(import.meta.url).resolve("tsx/cli");
  const options = ["--port", String(port), "--inspector-port", "0", "--persist-to", folder];
  const server = spawn(process.execPath, [tsx, START, ...options], {
    detached: true,
    stdio: ["ignore", "pipe", "pipe"],
  });
  await new Promise<void>((resolve, reject) => {
    let said = "";
    const timer = setTimeout(() => reject(new Error(`The server did not start:\n${said}`)), PATIENCE);
    const listen = (chunk: Buffer) => {
      said += chunk.toString();
      if (!said.includes("Ready on")) return;
      clearTimeout(timer);
      resolve();
    };
    server.stdout.on("data", listen);
    server.stderr.on("data", listen);
    server.on("exit", () => reject(new Error(`The server ended:\n${said}`)));
  });
  const stop = async () => {
    const gone = new Promise((resolve) => server.removeAllListeners("exit").on("exit", resolve));
    if (server.pid !== undefined) process.kill(-server.pid, "SIGTERM");
    await gone;
    await rm(folder, { recursive: true, force: true });
  };
  return { origin: `http://localhost:${port}`, folder, stop };
}

function findFreePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer().on("error", reject);
    probe.listen(0, () => {
      const address = probe.address();
      probe.close(() =>
        address && typeof address === "object" ? resolve(address.port) : reject(new Error("no port")),
      );
    });
  });
}
