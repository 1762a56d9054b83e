/**
 * What a request costs: question page, verdict page, edition and API answer against a bare Hono "hello" in the same workerd,
 * with and without one read of a database, in alternating rounds of one run. Prints a table; asserts nothing, for a machine
 * may be busy. With `--keep` the figures go into `results.json`.
 * Goals: at least 80 % of the bare throughput for edition and API answers, a verdict page within 5 times the bare latency;
 * each request reads the database once, so that only the bare answer with a read can be measured up to.
 */
import { Agent, request } from "node:http";
import { performance } from "node:perf_hooks";
import { gzipSync } from "node:zlib";
import { findJourneys } from "../browser/find-journeys.ts";
import { keepResult } from "./results.ts";
import { startPair } from "./workerd-pair.ts";

const ROUNDS = 8;
const REQUESTS = 160;
/** Connections that ask at once while throughput is measured. */
const LANES = 8;
/** Different cases are asked in turn, so that nothing is measured that was kept from the request before. */
const CASES = 60;

/** What is asked, by its name in the table: one address after the other, again and again. */
interface Target {
  name: string;
  urls: URL[];
  headers?: Record<string, string>;
}

/** Milliseconds of single requests, and requests a second of many at once. */
interface Measured {
  latencies: number[];
  perSecond: number[];
}

const agent = new Agent({ keepAlive: true, maxSockets: LANES });

let turn = 0;

function ask(target: Target): Promise<{ status: number; etag: string | undefined; bytes: number }> {
  return new Promise((resolve, reject) => {
    const url = target.urls[turn++ % target.urls.length];
    if (!url) throw new Error(`There is nothing to ask for ${target.name}.`);
    const sent = request(url, { agent, headers: target.headers }, (response) => {
      let bytes = 0;
      response.on("data", (chunk: Buffer) => {
        bytes += chunk.length;
      });
      response.on("end", () =>
        resolve({ status: response.statusCode ?? 0, etag: response.headers.etag, bytes }),
      );
    });
    // The other side may close an idle connection just when it is taken again; asking once more is what Node advises.
    sent.on("error", (error) => (sent.reusedSocket ? resolve(ask(target)) : reject(error)));
    sent.end();
  });
}

async function measureLatency(target: Target, into: Measured): Promise<void> {
  for (let i = 0; i < REQUESTS / 5; i++) {
    const from = performance.now();
    await ask(target);
    into.latencies.push(performance.now() - from);
  }
}

async function measureThroughput(target: Target, into: Measured): Promise<void> {
  const from = performance.now();
  let left = REQUESTS;
  const lane = async () => {
    while (left-- > 0) await ask(target);
  };
  await Promise.all(Array.from({ length: LANES }, lane));
  into.perSecond.push((REQUESTS * 1000) / (performance.now() - from));
}

function at(values: readonly number[], share: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
}

const links = findJourneys().flatMap(({ standing, link }) => (standing === "suspected" ? [link] : []));
const cases = [...new Set(links)].slice(0, CASES);
if (cases.length < CASES)
  throw new Error(`Only ${cases.length} conversations of the shipped content end in suspected.`);
const pair = await startPair();
const to = (path: string) => new URL(path, pair.ours);
const compressed = { "Accept-Encoding": "gzip" };
const edition: Target = { name: "edition", urls: [to("/api/edition")], headers: compressed };
const { etag = "" } = await ask(edition);
const floor: Target = { name: "bare hello", urls: [pair.bare] };
const floorWithRead: Target = { name: "bare hello, one read", urls: [new URL("/read", pair.bare)] };
const targets: Target[] = [
  floorWithRead,
  { name: "question page", urls: [to("/check")] },
  { name: "verdict page", urls: cases.map((link) => to(`/check?${link}`)) },
  edition,
  { name: "edition, not changed", urls: edition.urls, headers: { "If-None-Match": etag } },
  {
    name: "API answer, question",
    urls: [to("/api/case"), ...cases.map((link) => to(`/api/case?${link.split("&").slice(0, 2).join("&")}`))],
  },
  { name: "API answer, verdict", urls: cases.map((link) => to(`/api/case?${link}`)) },
];
const results = new Map(
  [floor, ...targets].map((one) => [one.name, { ...empty(), target: one, floor: empty(), read: empty() }]),
);

function empty(): Measured {
  return { latencies: [], perSecond: [] };
}

// A first round that does not count: the runtime compiles what it meets.
for (const target of [floor, ...targets]) await measureThroughput(target, empty());
for (let round = 0; round < ROUNDS; round++) {
  for (const one of results.values()) {
    await measureLatency(floor, one.floor);
    await measureLatency(floorWithRead, one.read);
    await measureLatency(one.target, one);
    await measureThroughput(floor, one.floor);
    await measureThroughput(floorWithRead, one.read);
    await measureThroughput(one.target, one);
  }
}

const rows = await Promise.all(
  [...results.values()].map(async (one) => ({
    name: one.target.name,
    bytes: (await ask(one.target)).bytes,
    p50: at(one.latencies, 0.5),
    p95: at(one.latencies, 0.95),
    p99: at(one.latencies, 0.99),
    perSecond: at(one.perSecond, 0.5),
    latencyToBare: at(one.latencies, 0.5) / at(one.floor.latencies, 0.5),
    throughputToBare: at(one.perSecond, 0.5) / at(one.floor.perSecond, 0.5),
    latencyToRead: at(one.latencies, 0.5) / at(one.read.latencies, 0.5),
    throughputToRead: at(one.perSecond, 0.5) / at(one.read.perSecond, 0.5),
  })),
);
const bundle = { bytes: pair.script.length, gzip: gzipSync(pair.script).length };
agent.destroy();
await pair.stop();

const short = (value: number) => Number(value.toPrecision(3));
console.table(rows.map((row) => mapNumbers(row)));
keepResult("worker", {
  rounds: ROUNDS,
  requestsPerRound: REQUESTS,
  lanes: LANES,
  cases: CASES,
  bundle,
  rows: rows.map(mapNumbers),
});

function mapNumbers<Row extends object>(row: Row): Record<string, unknown> {
  return Object.fromEntries(
    Object.entries(row).map(([key, value]) => [key, typeof value === "number" ? short(value) : value]),
  );
}
