import type { Progress } from "../progress.ts";
import {
  type Editions,
  repliesFor,
  type SharedHost,
  type SharedPrompt,
  type SideName,
  shareHosts,
  sharePrompts,
} from "./merge.ts";
import { openSide, type Side, type SidePoint } from "./side.ts";
import { findTouched } from "./touched.ts";

/** Questions about the plant that only one edition asked along a pair, and whether the shared ones came in another order. */
export interface AskedDifference {
  added: string[];
  dropped: string[];
  order: boolean;
}

/** A pair about the plant, by the points where its two conversations ended. */
export interface PairPath {
  live: SidePoint;
  draft: SidePoint;
}

/** Pairs that end alike under both editions, before anything is asked about the household. */
export interface PairEnd {
  /** Places in the `ends` of each side. */
  live: number;
  draft: number;
  asked: AskedDifference;
  /** How many pairs, per host class. */
  counts: Float64Array;
  /** The shortest pair per host class. */
  shortest: (PairPath | undefined)[];
  longest: { live: number; draft: number };
}

/** Plants that neither edition's evidence tells apart. */
export interface PairClass {
  hosts: SharedHost[];
}

export interface PairWalk {
  live: Side;
  draft: Side;
  classes: PairClass[];
  ends: PairEnd[];
}

interface Task {
  live: SidePoint;
  draft: SidePoint;
  classes: readonly number[];
  /** Both were always asked the same. */
  aligned: boolean;
  /** And every answer meant the same to both. */
  alike: boolean;
  /** Share of all the work, for progress. */
  share: number;
}

/** Let go of what was remembered below two points. */
interface Release {
  release: readonly SidePoint[];
}

const POINTS_PER_STEP = 400;

/**
 * Walks both editions side by side through every pair. Where both ask the same question they go on together; where they do
 * not, one goes on alone, and what was answered there holds when the other asks the same later. Each point of one edition is
 * decided once and remembered as long as the pairs through it last.
 */
export function* walkPairs(editions: Editions): Generator<Progress, PairWalk> {
  const shared = sharePrompts(editions.live.prompts, editions.draft.prompts);
  const { classes, sides, ofSide } = classifyPairs(editions, shared);
  const { live, draft } = sides;
  const walker: Walker = {
    sides,
    ofSide,
    nexts: { live: new Int32Array(classes.length), draft: new Int32Array(classes.length) },
    size: classes.length,
    promptOf: {
      live: editions.live.prompts.map(({ question }) => shared.findIndex(({ id }) => id === question.id)),
      draft: editions.draft.prompts.map(({ question }) => shared.findIndex(({ id }) => id === question.id)),
    },
    placeOf: {
      live: shared.map(({ live: prompt }) => (prompt ? editions.live.prompts.indexOf(prompt) : -1)),
      draft: shared.map(({ draft: prompt }) => (prompt ? editions.draft.prompts.indexOf(prompt) : -1)),
    },
    shared,
    draftPlaces: editions.live.prompts.map(({ question }) =>
      editions.draft.prompts.findIndex((prompt) => prompt.question.id === question.id),
    ),
    ends: new Map(),
    differences: new Map(),
  };
  const all = classes.map((_, i) => i);
  const aligned = (live.flow.hostQuestion === undefined) === (draft.flow.hostQuestion === undefined);
  const start: Task = { live: live.root, draft: draft.root, classes: all, aligned, alike: aligned, share: 1 };
  const stack: (Task | Release)[] = [start];
  let points = 0;
  let done = 0;
  for (let task = stack.pop(); task; task = stack.pop()) {
    if ("release" in task) {
      for (const point of task.release) point.onward = undefined;
      continue;
    }
    const tasks = visit(walker, task);
    if (tasks.length === 0) done += task.share;
    else if (task.aligned) stack.push({ release: [task.live, task.draft] });
    for (const next of tasks) {
      next.share = task.share / tasks.length;
      stack.push(next);
    }
    points++;
    if (points % POINTS_PER_STEP === 0) yield { share: Math.min(1, done), points };
  }
  yield { share: 1, points };
  return { live, draft, classes, ends: [...walker.ends.values()] };
}

interface Walker {
  sides: Record<SideName, Side>;
  /** The host class of each side for each class of the pair. */
  ofSide: Record<SideName, Int32Array>;
  /** Used over and over: what comes next for each host class of a side. */
  nexts: Record<SideName, Int32Array>;
  size: number;
  shared: readonly SharedPrompt[];
  /** From a side's prompt to the shared one, and back. */
  promptOf: Record<SideName, readonly number[]>;
  placeOf: Record<SideName, readonly number[]>;
  /** From the live edition's prompts to the draft's. */
  draftPlaces: readonly number[];
  ends: Map<number, PairEnd>;
  differences: Map<string, { number: number; asked: AskedDifference }>;
}

function classifyPairs(editions: Editions, shared: readonly SharedPrompt[]) {
  const starts: Record<SideName, Int16Array[]> = { live: [], draft: [] };
  const known = { live: new Map<string, number>(), draft: new Map<string, number>() };
  const classOf = (side: SideName, host: string | null): number => {
    const start = editions[side].evidence.start(host);
    const key = start.join();
    const found = known[side].get(key) ?? starts[side].push(start) - 1;
    known[side].set(key, found);
    return found;
  };
  const classes = new Map<string, PairClass & { live: number; draft: number }>();
  for (const host of shareHosts(editions)) {
    const [live, draft] = [classOf("live", host.live), classOf("draft", host.draft)];
    const found = classes.get(`${live} ${draft}`);
    if (found) found.hosts.push(host);
    else classes.set(`${live} ${draft}`, { hosts: [host], live, draft });
  }
  const list = [...classes.values()];
  const isAlike = list.every(({ live, draft }) => live === draft);
  const isTouched = isAlike ? findTouched(editions, shared, starts) : undefined;
  return {
    classes: list.map(({ hosts }) => ({ hosts })),
    sides: {
      live: openSide(editions.live, starts.live, isTouched),
      draft: openSide(editions.draft, starts.draft),
    },
    ofSide: {
      live: Int32Array.from(list, ({ live }) => live),
      draft: Int32Array.from(list, ({ draft }) => draft),
    },
  };
}

/** What may come next after a point of a pair; where both have ended, the pair is counted and nothing comes. */
function visit(walker: Walker, task: Task): Task[] {
  return partClasses(walker, task).flatMap(({ live, draft, classes }) => {
    if (live < 0 && draft < 0) {
      arrive(walker, task, -1 - live, -1 - draft, classes);
      return [];
    }
    const [a, b] = [
      live < 0 ? -1 : (walker.promptOf.live[live] ?? -1),
      draft < 0 ? -1 : (walker.promptOf.draft[draft] ?? -1),
    ];
    if (a === b) return advanceBoth(walker, task, a, classes);
    // Whoever asks what the other was told already goes first: that opens nothing new.
    const toldLive = b >= 0 ? told(walker, "live", task.live, b) : undefined;
    const isDraft = a < 0 || toldLive !== undefined;
    return advanceOne(walker, task, isDraft ? "draft" : "live", isDraft ? b : a, classes);
  });
}

interface ClassPart {
  live: number;
  draft: number;
  classes: readonly number[];
}

/** Classes parted by what comes next under each edition. */
function partClasses({ ofSide, nexts }: Walker, { live, draft, classes }: Task): ClassPart[] {
  const [a] = live.parts;
  const [b] = draft.parts;
  if (a && b && live.parts.length === 1 && draft.parts.length === 1) {
    return [{ live: a.next, draft: b.next, classes }];
  }
  for (const part of live.parts) for (const k of part.classes) nexts.live[k] = part.next;
  for (const part of draft.parts) for (const k of part.classes) nexts.draft[k] = part.next;
  const parts = new Map<number, ClassPart & { classes: number[] }>();
  for (const k of classes) {
    const from = nexts.live[ofSide.live[k] ?? 0] ?? 0;
    const to = nexts.draft[ofSide.draft[k] ?? 0] ?? 0;
    const key = (from + RADIX) * 2 * RADIX + to;
    const part = parts.get(key);
    if (part) part.classes.push(k);
    else parts.set(key, { live: from, draft: to, classes: [k] });
  }
  return [...parts.values()];
}

/** The reply that a side was given to a question before, if any. */
function told({ placeOf }: Walker, side: SideName, point: SidePoint, prompt: number): number | undefined {
  const place = placeOf[side][prompt];
  for (let at: SidePoint | undefined = point; at?.parent; at = at.parent) {
    if (at.prompt === place) return at.reply;
  }
  return undefined;
}

function advanceBoth(
  { shared, placeOf, sides, draftPlaces }: Walker,
  { live, draft, aligned, alike }: Task,
  prompt: number,
  classes: readonly number[],
): Task[] {
  const [a, b] = [placeOf.live[prompt] ?? 0, placeOf.draft[prompt] ?? 0];
  const replies = shared[prompt]?.replies ?? [];
  return replies.map((reply) => {
    const next = sides.live.go(live, a, reply.live);
    const other =
      alike && reply.alike && !next.touched
        ? sides.draft.adopt(draft, b, reply.draft, next, sides.live.ends, draftPlaces)
        : sides.draft.go(draft, b, reply.draft);
    return { live: next, draft: other, classes, aligned, alike: alike && reply.alike, share: 0 };
  });
}

function advanceOne(
  walker: Walker,
  { live, draft }: Task,
  asker: SideName,
  prompt: number,
  classes: readonly number[],
): Task[] {
  const { shared, placeOf, sides } = walker;
  const question = shared[prompt];
  if (!question) return [];
  const other = asker === "live" ? "draft" : "live";
  const points = { live, draft };
  const replies = repliesFor(question, asker, told(walker, other, points[other], prompt));
  const place = placeOf[asker][prompt] ?? 0;
  return replies.map((reply) => ({
    ...points,
    [asker]: sides[asker].go(points[asker], place, reply),
    classes,
    aligned: false,
    alike: false,
    share: 0,
  }));
}

/** More than there can be endings of one edition, or ways to ask differently. */
const RADIX = 131_072;

function arrive(walker: Walker, task: Task, live: number, draft: number, classes: readonly number[]): void {
  const difference = task.aligned ? undefined : compareAsked(walker, task);
  const key = (live * RADIX + draft) * RADIX + (difference?.number ?? 0);
  let end = walker.ends.get(key);
  if (!end) {
    end = {
      live,
      draft,
      asked: difference?.asked ?? { added: [], dropped: [], order: false },
      counts: new Float64Array(walker.size),
      shortest: [],
      longest: { live: 0, draft: 0 },
    };
    walker.ends.set(key, end);
  }
  const length = task.live.depth + task.draft.depth;
  const path = { live: task.live, draft: task.draft };
  for (const k of classes) {
    end.counts[k] = (end.counts[k] ?? 0) + 1;
    const before = end.shortest[k];
    if (!before || length < before.live.depth + before.draft.depth) end.shortest[k] = path;
  }
  end.longest.live = Math.max(end.longest.live, task.live.depth);
  end.longest.draft = Math.max(end.longest.draft, task.draft.depth);
}

function compareAsked(
  walker: Walker,
  { live, draft }: Task,
): { number: number; asked: AskedDifference } | undefined {
  const { shared, differences } = walker;
  const [was, is] = [askedBy(walker, "live", live), askedBy(walker, "draft", draft)];
  const added = is.filter((prompt) => !was.includes(prompt)).sort((a, b) => a - b);
  const dropped = was.filter((prompt) => !is.includes(prompt)).sort((a, b) => a - b);
  const order =
    was.filter((prompt) => is.includes(prompt)).join() !== is.filter((prompt) => was.includes(prompt)).join();
  const key = `${added}|${dropped}|${order}`;
  if (key === "||false") return undefined;
  let found = differences.get(key);
  if (!found) {
    const names = (prompts: readonly number[]) =>
      prompts.map((prompt) => shared[prompt]?.id ?? HOST_QUESTION);
    found = { number: differences.size + 1, asked: { added: names(added), dropped: names(dropped), order } };
    differences.set(key, found);
  }
  return found;
}

const HOST_QUESTION = "host";
const HOST = -1;

/** The questions in their order; the plant is asked for after the opening. */
function askedBy({ promptOf, sides }: Walker, side: SideName, point: SidePoint): number[] {
  const asked: number[] = [];
  for (let at: SidePoint | undefined = point; at?.parent; at = at.parent)
    asked.push(promptOf[side][at.prompt] ?? 0);
  asked.reverse();
  if (sides[side].flow.hostQuestion) asked.splice(1, 0, HOST);
  return asked;
}
