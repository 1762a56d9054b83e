/**
 * Sends random and broken requests to the shipped server in workerd, 100,000 unless told otherwise, and prints what came
 * back. Ends with 1 if anything was answered with 5xx or not at all. `npm run fuzz -- 5000 SEED` for fewer, or others.
 */
import { readFileSync } from "node:fs";
import { Agent, request } from "node:http";
import { join } from "node:path";
import { performance } from "node:perf_hooks";
import type { Edition } from "../../flows/edition.ts";
import { type HostileRequest, hostileRequests } from "../support/hostile-requests.ts";
import { startPair } from "./workerd-pair.ts";

const LANES = 8;
const [count = 100_000, seed = 1] = process.argv.slice(2).map(Number);
const edition = JSON.parse(
  readFileSync(join(import.meta.dirname, "..", "..", "worker", "generated", "edition.json"), "utf8"),
) as Edition;

const agent = new Agent({ keepAlive: true, maxSockets: LANES });
const pair = await startPair();

function ask(one: HostileRequest): Promise<number> {
  return new Promise((resolve, reject) => {
    const { hostname, port } = pair.ours;
    const length = one.body === undefined ? {} : { "content-length": String(Buffer.byteLength(one.body)) };
    const sent = request(
      { agent, hostname, port, method: one.method, path: one.path, headers: { ...one.headers, ...length } },
      (response) => {
        response.resume();
        response.on("end", () => resolve(response.statusCode ?? 0));
      },
    );
    sent.on("error", (error) => (sent.reusedSocket ? resolve(ask(one)) : reject(error)));
    sent.end(one.body);
  });
}

const statuses = new Map<number, number>();
const failed: unknown[] = [];
const slowest: { milliseconds: number; path: string }[] = [];
const requests = hostileRequests(edition, seed, [
  "/api/edition",
  "/desk/counter",
  "/desk/figures",
  "/editor",
]);
let left = count;
await Promise.all(
  Array.from({ length: LANES }, async () => {
    while (left-- > 0) {
      const one = requests.next().value;
      const from = performance.now();
      const status = await ask(one).catch((error: unknown) => {
        failed.push({ ...one, error: String(error) });
        return 0;
      });
      statuses.set(status, (statuses.get(status) ?? 0) + 1);
      if (status >= 500) failed.push({ ...one, status });
      slowest.push({ milliseconds: Math.round(performance.now() - from), path: one.path.slice(0, 120) });
      if (slowest.length > 1000) slowest.sort((a, b) => b.milliseconds - a.milliseconds).splice(5);
    }
  }),
);
agent.destroy();
await pair.stop();
slowest.sort((a, b) => b.milliseconds - a.milliseconds).splice(5);
console.log(
  JSON.stringify(
    { count, seed, statuses: Object.fromEntries([...statuses].sort()), slowest, failed: failed.slice(0, 20) },
    null,
    2,
  ),
);
process.exitCode = failed.length > 0 ? 1 : 0;
