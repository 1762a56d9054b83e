import { type Decision, decide, SILENT, type Weighed, weigh } from "../assess.ts";
import type { Answer } from "../case.ts";
import { standings } from "../edition.ts";
import { closeFindings } from "../finding-table.ts";
import type { Flow, Prompt, Reply } from "../flow.ts";
import { matters, offers } from "../next-question.ts";
import { type Progress, runToEnd } from "../progress.ts";
import { type HostClass, mergeClasses } from "./classes.ts";

/** Where conversations about the plant end alike: the same standing and the same causes to treat. */
export interface Ending {
  decision: Decision;
  /** What brought the leader on, as far as something speaks for it. Empty when undetermined. */
  behind: number[];
  /** How many ways of answering end here, per host class. */
  counts: Float64Array;
  /** Questions about the plant in the longest of them, the opening included. */
  longest: number;
  /** The shortest of them, without the host plant, and a host class that leads there. */
  shortest: Answer[];
  shortestClass: number;
}

export interface Traversal {
  endings: Ending[];
  /** Ids of all questions about the plant that were asked at least once. */
  asked: Set<string>;
  /** Which question may follow which (ids; "" is the end), and after which replies. */
  moves: Map<string, Map<string, Set<string>>>;
  /** Points of the conversation tree that were visited. */
  points: number;
  /** The first conversation in which the order of the answers made a difference; undefined when there is none. */
  orderMatters: Answer[] | undefined;
}

interface Walk {
  flow: Flow;
  classes: readonly HostClass[];
  endings: Map<string, Ending>;
  traversal: Traversal;
  path: { prompt: Prompt; reply: Reply }[];
  answered: Set<string>;
  /** One buffer of findings per depth, used over and over. */
  buffers: Uint8Array[];
}

/**
 * Walks every conversation about the plant: each reply to each question that the engine would ask. Host plants are
 * carried along as classes and part only where the next question differs, so nothing is sampled and nothing is walked
 * twice. Facts about the household come after and are independent: the caller multiplies them in.
 * `openings`: only these replies to the opening; all of them by default.
 */
export function traverse(flow: Flow, classes: readonly HostClass[], openings?: readonly Reply[]): Traversal {
  return runToEnd(traverseSteps(flow, classes, openings));
}

/** The same, bit by bit. */
export function* traverseSteps(
  flow: Flow,
  classes: readonly HostClass[],
  openings?: readonly Reply[],
): Generator<Progress, Traversal> {
  const traversal: Traversal = {
    endings: [],
    asked: new Set(),
    moves: new Map(),
    points: 0,
    orderMatters: undefined,
  };
  const walk: Walk = {
    flow,
    classes,
    endings: new Map(),
    traversal,
    path: [],
    answered: new Set(),
    buffers: [],
  };
  const [opening] = flow.prompts;
  if (!opening) return traversal;
  traversal.asked.add(opening.question.id);
  const replies = openings ?? opening.replies;
  for (const [i, reply] of replies.entries()) {
    walk.path.push({ prompt: opening, reply });
    yield* visitSteps(walk, mergeClasses(flow, classes, reply), i / replies.length, 1 / replies.length);
    walk.path.pop();
  }
  traversal.endings = [...walk.endings.values()];
  return traversal;
}

/** Points this far from the opening, or nearer, are told as progress; below, all is done at one go. */
const STEPS_DEPTH = 2;

/** `from`, `share`: where this point stands in all the work. */
function* visitSteps(
  walk: Walk,
  here: readonly (readonly number[])[],
  from: number,
  share: number,
): Generator<Progress, void> {
  const onward = [...decidePoint(walk, here)].flatMap(([prompt, there]) =>
    prompt.replies.map((reply) => ({ prompt, reply, there })),
  );
  for (const [i, { prompt, reply, there }] of onward.entries()) {
    enter(walk, prompt, reply);
    const [at, part] = [from + (i / onward.length) * share, share / onward.length];
    if (walk.path.length <= STEPS_DEPTH) yield* visitSteps(walk, there, at, part);
    else visit(walk, there);
    leave(walk, prompt);
    yield { share: at + part, points: walk.traversal.points };
  }
}

function visit(walk: Walk, here: readonly (readonly number[])[]): void {
  for (const [prompt, there] of decidePoint(walk, here)) {
    for (const reply of prompt.replies) {
      enter(walk, prompt, reply);
      visit(walk, there);
      leave(walk, prompt);
    }
  }
}

function enter({ path, answered, traversal }: Walk, prompt: Prompt, reply: Reply): void {
  const { id } = prompt.question;
  traversal.asked.add(id);
  answered.add(id);
  path.push({ prompt, reply });
}

function leave({ path, answered }: Walk, prompt: Prompt): void {
  answered.delete(prompt.question.id);
  path.pop();
}

/**
 * What comes next at a point. Groups that have arrived are counted; the others are returned by their next question.
 * `here`: groups of host classes that cannot part any more.
 */
function decidePoint(
  walk: Walk,
  here: readonly (readonly number[])[],
): ReadonlyMap<Prompt, readonly (readonly number[])[]> {
  const { flow, classes, path, answered, traversal } = walk;
  traversal.points++;
  const present = path.flatMap(({ reply }) => reply.present);
  const absent = path.flatMap(({ reply }) => reply.absent);
  const known = closeFindings(flow.findings, present, absent, bufferFor(walk, path.length));
  const weighed = weigh(flow, known);
  const isFull = path.length > flow.edition.conversation.mostQuestions;
  const open = isFull ? [] : offers(flow, known, (id) => answered.has(id));
  const parted = new Map<Prompt, (readonly number[])[]>();
  const ended = new Map<number, { decision: Decision; groups: (readonly number[])[] }>();
  for (const group of here) {
    const start = classes[group[0] ?? 0]?.start ?? new Int16Array();
    const decision = decide(flow, weighed, start);
    const next = open.find((offer) => matters(flow, weighed, start, decision, offer))?.prompt;
    if (next) pushTo(parted, next, group);
    else {
      const key = keyOf(decision);
      const same = ended.get(key);
      if (same) same.groups.push(group);
      else ended.set(key, { decision, groups: [group] });
    }
  }
  noteMoves(walk, parted, ended.size > 0);
  if (ended.size > 0) checkOrder(walk, known, present, absent);
  for (const { decision, groups } of ended.values()) arrive(walk, weighed, decision, groups);
  return parted;
}

function noteMoves({ path, traversal }: Walk, parted: ReadonlyMap<Prompt, unknown>, ends: boolean): void {
  const last = path.at(-1);
  if (!last) return;
  const { id } = last.prompt.question;
  const onward = traversal.moves.get(id) ?? new Map<string, Set<string>>();
  traversal.moves.set(id, onward);
  const targets = [...parted.keys()].map(({ question }) => question.id);
  for (const target of ends ? [...targets, ""] : targets) {
    const replies = onward.get(target);
    if (replies) replies.add(last.reply.id);
    else onward.set(target, new Set([last.reply.id]));
  }
}

function bufferFor({ flow, buffers }: Walk, depth: number): Uint8Array {
  buffers[depth] ??= new Uint8Array(flow.findings.size);
  return buffers[depth];
}

function pushTo<K, V>(map: Map<K, V[]>, key: K, value: V): void {
  const list = map.get(key);
  if (list) list.push(value);
  else map.set(key, [value]);
}

const RADIX = 1024;

function keyOf({ standing, leader, beside: [first = -1, second = -1] }: Decision): number {
  if (standing === "undetermined") return 0;
  return ((standings.indexOf(standing) * RADIX + leader + 1) * RADIX + first + 1) * RADIX + second + 1;
}

function arrive(
  walk: Walk,
  weighed: Weighed,
  decision: Decision,
  groups: readonly (readonly number[])[],
): void {
  const { flow, path, endings } = walk;
  const undetermined = decision.standing === "undetermined";
  const behind = undetermined
    ? []
    : (flow.evidence.broughtOnBy[decision.leader] ?? []).filter((c) => weighed.speaks[c] !== SILENT);
  const key = `${keyOf(decision)}|${behind.join()}`;
  let ending = endings.get(key);
  if (!ending) {
    ending = {
      decision,
      behind,
      counts: new Float64Array(walk.classes.length),
      longest: 0,
      shortest: toAnswers(path),
      shortestClass: groups[0]?.[0] ?? 0,
    };
    endings.set(key, ending);
  }
  for (const group of groups) {
    for (const i of group) ending.counts[i] = (ending.counts[i] ?? 0) + 1;
  }
  ending.longest = Math.max(ending.longest, path.length);
  if (path.length < ending.shortest.length) {
    ending.shortest = toAnswers(path);
    ending.shortestClass = groups[0]?.[0] ?? 0;
  }
}

/** Closes the findings again with the answers in reverse: nothing may differ. */
function checkOrder(walk: Walk, known: Uint8Array, present: number[], absent: number[]): void {
  const { flow, path, traversal } = walk;
  if (traversal.orderMatters) return;
  const spare = bufferFor(walk, 0);
  const again = closeFindings(flow.findings, present.toReversed(), absent.toReversed(), spare);
  for (let i = 0; i < known.length; i++) {
    if (known[i] !== again[i]) {
      traversal.orderMatters = toAnswers(path);
      return;
    }
  }
}

function toAnswers(path: Walk["path"]): Answer[] {
  return path.map(({ prompt, reply }) => ({ to: prompt.question.id, is: reply.id }));
}
