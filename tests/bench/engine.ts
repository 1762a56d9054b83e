/**
 * What the engine takes for each thing it does, and how that grows when the content is 2, 5 and 10 times as large. The
 * content as shipped is made larger by copies under other ids; the walk and the comparison go over the tiny content of the
 * fixtures, of which every conversation is walked. Prints a table; with `--keep` the figures go into `results.json`.
 * Run it with `npm run bench:engine`.
 */
import { performance } from "node:perf_hooks";
import { type Case, giveAnswer, newCase } from "../../flows/case.ts";
import { readCode, writeCode } from "../../flows/case-code.ts";
import { compareEditions } from "../../flows/compare/compare.ts";
import { type Flow, NOT_SURE, openFlow } from "../../flows/flow.ts";
import { nextQuestion } from "../../flows/next-question.ts";
import { makePlan } from "../../flows/plan.ts";
import { understand } from "../../flows/understand/understand.ts";
import { judge } from "../../flows/verdict.ts";
import { walk } from "../../flows/walk/walk.ts";
import { growEdition } from "../support/grow-edition.ts";
import { shippedFlow } from "../support/shipped-flow.ts";
import { tinyFlow } from "../support/tiny-flow.ts";
import { keepResult } from "./results.ts";

const sizes = [1, 2, 5, 10] as const;
/** Each is measured for so long, in milliseconds, and at least three times. */
const LONG_ENOUGH = 400;
/** Of several measurements the quickest counts: others on the machine only ever make it slower. */
const TURNS = 5;

const typed =
  "my basil has tiny white dots on the leaves and fine webs, but no flies, and the soil is always wet";

/** A copy shares all tables and nothing that is kept from one question to the next. */
const unremembered = (flow: Flow): Flow => ({ ...flow });

/** Answers every question with its first option, as far as the conversation goes. */
function play(flow: Flow): Case {
  let kase = newCase(flow);
  for (let next = nextQuestion(flow, kase); next; next = nextQuestion(flow, kase)) {
    const is = next.kind === "host" ? "basil" : (next.options[0]?.id ?? NOT_SURE);
    kase = giveAnswer(flow, kase, next.id, is).case;
  }
  return kase;
}

/** Microseconds for one. */
function time(act: () => unknown): number {
  act();
  let best = Number.POSITIVE_INFINITY;
  for (let turn = 0; turn < TURNS; turn++) {
    let count = 0;
    const from = performance.now();
    while (count < 3 || performance.now() - from < LONG_ENOUGH / TURNS) {
      act();
      count++;
    }
    best = Math.min(best, (1000 * (performance.now() - from)) / count);
  }
  return best;
}

/** Once is enough for what takes seconds. */
function timeOnce(act: () => unknown): number {
  const from = performance.now();
  act();
  return 1000 * (performance.now() - from);
}

function measure(times: number): Record<string, number> {
  const flow = openFlow(growEdition(shippedFlow().edition, times));
  const kase = play(flow);
  const verdict = judge(flow, kase);
  const code = writeCode(flow, kase);
  const tiny = openFlow(growEdition(tinyFlow().edition, times));
  const [condition] = tiny.edition.conditions;
  const changed = {
    ...tiny.edition,
    conditions: tiny.edition.conditions.map((one) =>
      one === condition ? { ...one, howCommon: "rare" as const } : one,
    ),
  };
  return {
    "open an edition": time(() => openFlow(flow.edition)),
    "play a conversation": time(() => play(unremembered(flow))),
    "next question": time(() => nextQuestion(unremembered(flow), kase)),
    verdict: time(() => judge(flow, { ...kase })),
    plan: time(() => makePlan(flow, kase, verdict)),
    "write a code": time(() => writeCode(unremembered(flow), kase)),
    "read a code": time(() => {
      const fresh = unremembered(flow);
      return readCode(() => fresh, code);
    }),
    "understand a sentence": time(() => understand(flow, typed)),
    "walk (tiny content)": timeOnce(() => walk(tiny)),
    "compare (tiny content)": timeOnce(() => {
      for (const _ of compareEditions(tiny.edition, changed));
    }),
  };
}

const measured = sizes.map((times) => measure(times));
const [first] = measured;
if (!first) throw new Error("Nothing was measured.");
const rows = Object.keys(first).map((name) => {
  const micros = measured.map((one) => one[name] ?? Number.NaN);
  const [once = Number.NaN] = micros;
  return {
    name,
    ...Object.fromEntries(
      sizes.map((times, i) => [`µs at ${times}`, Number((micros[i] ?? 0).toPrecision(3))]),
    ),
    // 1 is linear: ten times the content takes ten times as long.
    exponent: Math.round(100 * Math.log10((micros.at(-1) ?? 0) / once)) / 100,
  };
});
console.table(rows);
keepResult("engine", { rows });
