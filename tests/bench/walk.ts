/**
 * Conversations per second: our walker against xstate's own graph tools on the same chart, in one run.
 * The tools enumerate every path, which the shipped machine has too many of; they are measured on the whole machine of
 * the tiny content, and on the shipped machine on one short branch (tiny flies, plant not known, household not told).
 */
import { getSimplePaths } from "xstate/graph";
import type { Flow } from "../../flows/flow.ts";
import { NOT_SURE } from "../../flows/flow.ts";
import { buildMachine, questionIds } from "../../flows/machine.ts";
import { walk } from "../../flows/walk/walk.ts";
import { shippedFlow } from "../support/shipped-flow.ts";
import { tinyFlow } from "../support/tiny-flow.ts";

interface Rate {
  conversations: number;
  seconds: number;
  perSecond: number;
}

function time(count: () => number): Rate {
  const from = performance.now();
  const conversations = count();
  const seconds = (performance.now() - from) / 1000;
  return { conversations, seconds, perSecond: Math.round(conversations / seconds) };
}

/** Walks the machine with the library's path enumeration: every simple path that ends in a standing is a conversation. */
function walkWithGraphTools(flow: Flow, opening?: string): number {
  const machine = buildMachine(flow);
  const ids = new Set(questionIds(flow));
  const replies = (id: string) => {
    const question = flow.question(id);
    if (opening !== undefined && question?.kind !== "finding") return [NOT_SURE];
    if (opening !== undefined && id === flow.edition.conversation.opening) return [opening];
    const own =
      question?.kind === "host"
        ? flow.edition.hosts.map((host) => host.id)
        : question?.options.map((option) => option.id);
    return [...(own ?? []), NOT_SURE];
  };
  const paths = getSimplePaths(machine, {
    input: {},
    serializeState: (snapshot) => JSON.stringify(snapshot.context.case.answers),
    events: (snapshot) => {
      const at = String(snapshot.value);
      return ids.has(at) ? replies(at).map((is) => ({ type: "answer" as const, question: at, is })) : [];
    },
  });
  return paths.filter(({ state }) => !ids.has(String(state.value))).length;
}

const ROUNDS = 5;

/** The same work several times over: one run on the tiny content is too short to be timed. */
function repeat(count: () => number): number {
  return Array.from({ length: ROUNDS }, count).reduce((sum, n) => sum + n, 0);
}

/** Both sides turn by turn, so that a busy moment hits both; the first turn is cold and not counted. The middle ratio counts. */
function compareTiny() {
  const flow = tinyFlow();
  const turns = Array.from({ length: 1 + ROUNDS }, () => {
    const graphTools = time(() => repeat(() => walkWithGraphTools(flow)));
    const walker = time(() => repeat(() => Number(walk(flow).conversations)));
    return { graphTools, walker, ratio: ratio(walker, graphTools) };
  });
  return turns.slice(1).sort((a, b) => a.ratio - b.ratio)[Math.floor(ROUNDS / 2)];
}

const tiny = compareTiny();
const libraryShipped = time(() => walkWithGraphTools(shippedFlow(), "flies"));
const ownShipped = time(() => Number(walk(shippedFlow()).conversations));
console.log(
  JSON.stringify(
    {
      tiny,
      shipped: { graphTools: libraryShipped, walker: ownShipped, ratio: ratio(ownShipped, libraryShipped) },
    },
    null,
    2,
  ),
);

function ratio(ours: Rate, theirs: Rate): number {
  return Math.round(ours.perSecond / theirs.perSecond);
}
