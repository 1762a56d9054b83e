import { readFileSync } from "node:fs";
import { join } from "node:path";
import { type Answer, type Case, giveAnswer, newCase } from "../../flows/case.ts";
import { readLink, writeLink } from "../../flows/case-link.ts";
import type { Edition, Question, Standing } from "../../flows/edition.ts";
import { type Flow, NOT_SURE, openFlow } from "../../flows/flow.ts";
import { nextQuestion } from "../../flows/next-question.ts";
import { makePlan } from "../../flows/plan.ts";
import { judge } from "../../flows/verdict.ts";

/** A whole conversation: every question is answered, so the verdict is due. */
export interface Journey {
  standing: Standing;
  answers: readonly Answer[];
  /** Query of the case link. */
  link: string;
  steps: number;
}

const WALKS = 600;
const hosts = ["basil", NOT_SURE, "pothos", "african-violet"];

/** Random conversations with a fixed seed, so that the tests follow the content wherever it goes. */
export function findJourneys(): Journey[] {
  const flow = openBuilt();
  const draw = makeDraw(20_240_611);
  return Array.from({ length: WALKS }, () => walk(flow, draw));
}

/** The link of a case with "not sure" to all that it leaves open. */
export function finishCase(query: string): string {
  const flow = openBuilt();
  let { case: kase } = readLink(flow, query);
  for (let next = nextQuestion(flow, kase); next; next = nextQuestion(flow, kase)) {
    kase = giveAnswer(flow, kase, next.id, NOT_SURE).case;
  }
  return writeLink(flow, kase);
}

function openBuilt(): Flow {
  const file = join(import.meta.dirname, "..", "..", "worker", "generated", "edition.json");
  return openFlow(JSON.parse(readFileSync(file, "utf8")) as Edition);
}

/** The first journey to a standing. */
export function journeyTo(journeys: readonly Journey[], standing: Standing): Journey {
  const journey = journeys.find((one) => one.standing === standing);
  if (!journey) throw new Error(`No random walk ended in ${standing}.`);
  return journey;
}

function walk(flow: Flow, draw: (from: readonly string[]) => string): Journey {
  let kase: Case = newCase(flow);
  for (let next = nextQuestion(flow, kase); next; next = nextQuestion(flow, kase)) {
    kase = giveAnswer(flow, kase, next.id, draw(repliesTo(next))).case;
  }
  const verdict = judge(flow, kase);
  const steps = makePlan(flow, kase, verdict).steps.length;
  return { standing: verdict.standing, answers: kase.answers, link: writeLink(flow, kase), steps };
}

function repliesTo(question: Question): string[] {
  return question.kind === "host" ? hosts : [...question.options.map(({ id }) => id), NOT_SURE];
}

/** A small linear congruential generator: the same draws on every machine. */
function makeDraw(seed: number): (from: readonly string[]) => string {
  let state = seed;
  return (from) => {
    state = (Math.imul(state, 1_103_515_245) + 12_345) & 0x7fff_ffff;
    return from[(state >> 8) % from.length] ?? NOT_SURE;
  };
}
