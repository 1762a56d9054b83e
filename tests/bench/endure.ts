/**
 * Kills the server at a random moment, in the middle of a conversation or of publishing, and starts it again on the same
 * database: the same link has to go on, and publishing has to have happened once or not at all. Then sends mixed requests
 * for a minute from both sides of the machine and watches memory. `npm run endure -- ROUNDS SECONDS`, 100 and 60 unless told
 * otherwise. Ends with 1 when anything was lost, done by half, or answered with 5xx. Linux only: it reads /proc.
 */
import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { performance } from "node:perf_hooks";
import { findJourneys, type Journey } from "../browser/find-journeys.ts";
import { keepResult } from "./results.ts";
import { bundleShipped } from "./workerd-pair.ts";

const numbers = process.argv.slice(2).filter((word) => /^\d+$/.test(word));
const [rounds = 100, seconds = 60] = numbers.map(Number);
const PORT = 8804;
const LANES = 8;
/** A start takes about two seconds, and many more on a busy machine. */
const PATIENCE = 120_000;
const origin = `http://127.0.0.1:${PORT}`;
const folder = mkdtempSync(join(tmpdir(), "leafturn-endure-"));
const bundle = join(folder, "server.js");
const problems: string[] = [];
const journeys = findJourneys();

interface Server {
  child: ChildProcess;
  kill(): Promise<void>;
}

let cookie = "";

async function start(): Promise<Server> {
  const tsx = createRequire(import.meta.url).resolve("tsx/cli");
  const program = join(import.meta.dirname, "endure-server.ts");
  const child = spawn(process.execPath, [tsx, program, bundle, folder, String(PORT)], {
    detached: true,
    stdio: ["ignore", "pipe", "inherit"],
  });
  await new Promise<void>((resolve, reject) => {
    const timer = setTimeout(() => reject(new Error("The server did not start.")), PATIENCE);
    child.stdout?.on("data", (chunk: Buffer) => {
      const [, given] = /cookie (\S+)/.exec(chunk.toString()) ?? [];
      if (given !== undefined) cookie = given;
      if (!chunk.toString().includes("ready")) return;
      clearTimeout(timer);
      resolve();
    });
  });
  return {
    child,
    async kill() {
      const gone = new Promise((resolve) => child.on("exit", resolve));
      if (child.pid !== undefined) process.kill(-child.pid, "SIGKILL");
      await gone;
    },
  };
}

const headers = () => ({ cookie, "sec-fetch-site": "same-origin" });
const getOnce = (path: string) => fetch(origin + path, { headers: headers(), redirect: "manual" });
/** A connection that was kept from before a kill fails once, and only then is another one made. */
const get = (path: string) => getOnce(path).catch(() => getOnce(path));
const post = (path: string, fields: Record<string, string>) =>
  fetch(origin + path, {
    method: "POST",
    headers: headers(),
    body: new URLSearchParams(fields),
    redirect: "manual",
  });
const wait = (milliseconds: number) => new Promise((resolve) => setTimeout(resolve, milliseconds));

/** What a form's field holds. */
function fieldOf(page: string, name: string): string {
  return new RegExp(`name="${name}"[^>]*? value="([^"]*)"`).exec(page)?.[1] ?? "";
}

function queryAt({ answers }: Journey, length: number): string {
  return ["e=1", ...answers.slice(0, length).map(({ to, is }) => `${to}=${is}`)].join("&");
}

async function nextOf(query: string): Promise<string> {
  const { next, verdict } = (await (await get(`/api/case?${query}`)).json()) as {
    next: { id: string } | null;
    verdict: { standing: string; leader: string } | null;
  };
  return JSON.stringify([next?.id, verdict?.standing, verdict?.leader]);
}

/** Kills the server while the next page of a conversation is asked for; the link has to go on as if nothing had been. */
async function breakConversation(server: Server, round: number): Promise<Server> {
  const journey = journeys[round % journeys.length];
  if (!journey) throw new Error("There are no conversations.");
  const at = round % (journey.answers.length + 1);
  const before = await nextOf(queryAt(journey, at));
  const asked = get(`/check?${queryAt(journey, at)}`).catch(() => null);
  await wait(Math.random() * 20);
  await server.kill();
  await asked;
  const again = await start();
  if ((await nextOf(queryAt(journey, at))) !== before)
    problems.push(`Round ${round}: the conversation went on in another way.`);
  const whole = await get(`/check?${journey.link}`);
  if (whole.status !== 200) problems.push(`Round ${round}: the verdict page answered ${whole.status}.`);
  return again;
}

interface Live {
  number: number;
  hash: string;
  shop: { name: string };
}

async function readLive(): Promise<Live> {
  return (await (await get("/api/edition")).json()) as Live;
}

let cutBefore = 0;
let cutBehind = 0;

/** Kills the server while it publishes. Before: the old edition, whole; after: the new one, whole; a second press ends it. */
async function breakPublishing(server: Server, round: number): Promise<Server> {
  const name = `Shop ${round}`;
  const before = await readLive();
  await get("/editor");
  const draft = (await post("/editor/drafts", { title: name })).headers.get("location") ?? "";
  const file = await (await get(`${draft}/file?path=shop.yaml`)).text();
  const content = JSON.parse(
    readFileSync(join(import.meta.dirname, "..", "..", "worker", "generated", "content.json"), "utf8"),
  ) as Record<string, string>;
  const text = (content["shop.yaml"] ?? "").replace(/^name: .*$/m, `name: ${name}`);
  await post(`${draft}/file`, {
    path: "shop.yaml",
    tag: fieldOf(file, "tag").replaceAll("&quot;", '"'),
    text,
  });
  const form = {
    token: fieldOf(await (await get(`${draft}/publish`)).text(), "token"),
    note: `Round ${round}.`,
    unwalked: "Only a name.",
    walk: "",
  };
  const timed = performance.now();
  const pressed = post(`${draft}/publish`, form).catch(() => null);
  await wait(Math.random() * usual);
  await server.kill();
  const answered = await pressed;
  if (answered?.status === 303) usual = Math.max(20, 0.9 * usual + 0.1 * (performance.now() - timed));
  const again = await start();
  const after = await readLive();
  const isOld = after.number === before.number && after.hash === before.hash;
  const isNew = after.number === before.number + 1 && after.shop.name === name;
  if (!isOld && !isNew) problems.push(`Round ${round}: neither the old edition nor the new one is live.`);
  if (isOld) cutBefore++;
  else cutBehind++;
  const pressedAgain = await post(`${draft}/publish`, form);
  const end = await readLive();
  if (pressedAgain.status !== 303 || end.number !== before.number + 1 || end.shop.name !== name)
    problems.push(`Round ${round}: pressed again it answered ${pressedAgain.status}, edition ${end.number}.`);
  return again;
}

/** Milliseconds that publishing takes here, so that the kill falls into it. */
let usual = 1_500;

/** Kibibytes that the server process and its children hold. */
function memoryOf(pid: number): number {
  const children = spawnSync("ps", ["-o", "pid=", "--ppid", String(pid)], { encoding: "utf8" })
    .stdout.trim()
    .split(/\s+/)
    .filter(Boolean)
    .map(Number);
  const [, own = "0"] = /VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, "utf8")) ?? [];
  return Number(own) + children.reduce((sum, child) => sum + memoryOf(child), 0);
}

async function load(server: Server) {
  const statuses = new Map<number, number>();
  const memory: number[] = [];
  const until = performance.now() + seconds * 1000;
  let turn = 0;
  const paths = journeys.flatMap(({ link }) => [
    `/check?${link}`,
    `/api/case?${link}`,
    `/check?${link.split("&").slice(0, 3).join("&")}`,
    `/calendar.ics?${link}`,
    `/slip?${link}`,
    "/check",
    "/api/edition",
    "/embed/live.json",
    "/desk",
    "/editor",
    "/desk/counter",
  ]);
  const lane = async () => {
    while (performance.now() < until) {
      const path = paths[turn++ % paths.length] ?? "/";
      const response = await get(path).catch((error: unknown) => String(error));
      const status = typeof response === "string" ? 0 : response.status;
      if (typeof response !== "string") await response.arrayBuffer();
      statuses.set(status, (statuses.get(status) ?? 0) + 1);
      if (status === 0 || status >= 500) problems.push(`Under load ${path} answered ${status}.`);
    }
  };
  const watch = async () => {
    while (performance.now() < until) {
      if (server.child.pid !== undefined) memory.push(memoryOf(server.child.pid));
      await wait(1000);
    }
  };
  await Promise.all([...Array.from({ length: LANES }, lane), watch()]);
  const third = Math.floor(memory.length / 3);
  const mean = (values: readonly number[]) =>
    values.reduce((sum, one) => sum + one, 0) / values.length / 1024;
  return {
    seconds,
    statuses: Object.fromEntries([...statuses].sort()),
    /** Mebibytes of all its processes, on the average of each third of the time. */
    memory: [0, 1, 2].map((part) => Math.round(mean(memory.slice(part * third, (part + 1) * third)))),
  };
}

writeFileSync(bundle, await bundleShipped());
let server = await start();
try {
  for (let round = 0; round < rounds; round++) {
    server = await (round % 2 === 0 ? breakConversation : breakPublishing)(server, round);
    if (round % 10 === 9 || round === rounds - 1)
      console.log(`${round + 1} rounds, ${problems.length} problems`);
  }
  const underLoad = await load(server);
  keepResult("endurance", { rounds, cutBefore, cutBehind, underLoad, problems: problems.slice(0, 20) });
} finally {
  await server.kill();
  rmSync(folder, { recursive: true, force: true });
}
process.exitCode = problems.length > 0 ? 1 : 0;
