import { mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";
import { beforeAll, expect, test } from "vitest";
import { createActor } from "xstate";
import { type Case, giveAnswer, newCase } from "../../flows/case.ts";
import { writeLink } from "../../flows/case-link.ts";
import { type Flow, NOT_SURE } from "../../flows/flow.ts";
import { buildMachine } from "../../flows/machine.ts";
import { nextQuestion } from "../../flows/next-question.ts";
import { packFirst, packProse } from "../../flows/parcel/pack.ts";
import { makePlan } from "../../flows/plan.ts";
import { judge } from "../../flows/verdict.ts";
import type { WidgetFiles } from "../../worker/embed/widget-files.ts";
import { shippedFlow } from "../support/shipped-flow.ts";
import { builtWidget, importRest } from "./built-widget.ts";

const CASES = 5_000;
const worker = join(import.meta.dirname, "..", "..", "worker");

type Serve = (request: Request) => Promise<Response>;
let serve: Serve;
let rest: Awaited<ReturnType<typeof importRest>>;

beforeAll(async () => {
  const widget = await builtWidget();
  rest = await importRest(widget);
  serve = await bundleServer(widget);
});

/** The server as it is deployed, with the content as shipped and without a database. */
async function bundleServer(widget: WidgetFiles): Promise<Serve> {
  const outfile = join(mkdtempSync(join(tmpdir(), "leafturn-server-")), "server.mjs");
  await build({
    stdin: {
      contents: `import { makeApp } from "./app.tsx";
        import { keepEditions } from "./editions.ts";
        const without = { widget: ${JSON.stringify(widget)}, bundled: { edition: {}, files: {} }, editorScripts: {} };
        export const open = (edition) =>
          makeApp({ ...without, shelf: keepEditions(edition), now: () => 0, randomBytes: (count) => new Uint8Array(count) });`,
      resolveDir: worker,
      loader: "ts",
    },
    bundle: true,
    minify: true,
    format: "esm",
    platform: "node",
    jsx: "automatic",
    jsxImportSource: "hono/jsx",
    outfile,
  });
  const { open } = await import(pathToFileURL(outfile).href);
  return open(shippedFlow().edition).fetch;
}

test(`widget, server and machine agree on ${CASES} random cases`, async () => {
  const flow = shippedFlow();
  const first = rest.unpackFirst(JSON.parse(JSON.stringify(packFirst(flow.edition))));
  const early = rest.openFlow(first);
  const whole = rest.openFlow(rest.addProse(first, JSON.parse(JSON.stringify(packProse(flow.edition)))));
  const machine = buildMachine(flow);
  const draw = makeDraw(31_337);
  let verdicts = 0;
  for (let i = 0; i < CASES; i++) {
    const kase = drawCase(flow, draw);
    const query = writeLink(flow, kase);
    const response = await serve(new Request(`https://shop.example/api/case?${query}`));
    // Answers that contradict each other are refused here and named on a page; there is no outcome to agree on.
    if (response.status === 422) continue;
    const served = (await response.json()) as {
      next: { id: string } | null;
      verdict: unknown;
      plan: unknown;
    };
    const read = rest.readLink(whole, query).case;
    const verdict = rest.judge(whole, read);
    const next = rest.nextQuestion(whole, read);
    const actor = createActor(machine, { input: { case: kase } }).start();
    expect(next?.id ?? null, query).toBe(served.next?.id ?? null);
    expect(actor.getSnapshot().value, query).toBe(next?.id ?? verdict.standing);
    expect(rest.nextQuestion(early, read)?.id ?? null, query).toBe(next?.id ?? null);
    if (next !== null) continue;
    verdicts++;
    const onMachine = actor.getSnapshot().context.case;
    const judged = judge(flow, onMachine);
    const wanted = JSON.stringify([served.verdict, served.plan]);
    expect(JSON.stringify([verdict, rest.makePlan(whole, read, verdict)]), query).toBe(wanted);
    expect(JSON.stringify([judged, makePlan(flow, onMachine, judged)]), query).toBe(wanted);
    expect(outline(rest, early, read), query).toEqual(outline(rest, whole, read));
  }
  expect(verdicts).toBeGreaterThan(CASES / 2);
}, 600_000);

/** What the first parcel alone decides: the standing, the causes, and which steps in which order. */
function outline({ judge, makePlan }: typeof rest, flow: Flow, kase: Case) {
  const verdict = judge(flow, kase);
  const { standing, leader, beside, lead } = verdict;
  const { steps, leftOut } = makePlan(flow, kase, verdict);
  return { standing, leader, beside, lead, steps: steps.map(({ remedy }) => remedy), leftOut };
}

/** A conversation to its end, or a part of one, with some findings told unasked. */
function drawCase(flow: Flow, draw: (below: number) => number): Case {
  let kase = newCase(flow);
  for (let told = draw(4); told > 2; told--) {
    const finding = flow.edition.findings[draw(flow.edition.findings.length)];
    if (finding) kase = giveAnswer(flow, kase, finding.id, draw(2) === 0 ? "yes" : "no").case;
  }
  const most = draw(5) === 0 ? draw(6) : 40;
  for (let next = nextQuestion(flow, kase), asked = 0; next && asked < most; asked++) {
    const own = next.kind === "host" ? flow.edition.hosts : next.options;
    const is = own[draw(own.length + 1)]?.id ?? NOT_SURE;
    kase = giveAnswer(flow, kase, next.id, is).case;
    next = nextQuestion(flow, kase);
  }
  return kase;
}

/** A small linear congruential generator: the same cases on every machine. */
function makeDraw(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (Math.imul(state, 1_103_515_245) + 12_345) & 0x7fff_ffff;
    return (state >> 8) % below;
  };
}
