import { type Decision, decide, SILENT, type Weighed, weigh } from "../assess.ts";
import type { Standing } from "../edition.ts";
import { closeFindings } from "../finding-table.ts";
import type { Flow } from "../flow.ts";
import { matters, type Offer, offerOf } from "../next-question.ts";
import type { IsTouched } from "./touched.ts";

/** A way in which conversations about the plant end under one edition. */
export interface SideEnd {
  standing: Standing;
  /** Condition ids of the verdict; empty when undetermined. */
  leader: string | null;
  beside: string[];
  behind: string[];
  bringSample: boolean;
  /** Everything that gets treated, the leader first; `null` stands for first aid. */
  causes: (string | null)[];
}

/** Host classes that go on alike: the next question, or an ending. */
interface Part {
  /** Place of the prompt in `flow.prompts`, or -1 minus the number of the ending. */
  next: number;
  classes: readonly number[];
}

/** A point of the conversation under one edition. */
export interface SidePoint {
  parent: SidePoint | undefined;
  /** Place of the prompt that was answered last, and of the reply. */
  prompt: number;
  reply: number;
  depth: number;
  parts: readonly Part[];
  /** False when the other edition is known to decide the same here. */
  touched: boolean;
  /** By prompt, then by reply: filled in as the walk comes there, and let go when it is past. */
  onward: Map<number, SidePoint[]> | undefined;
}

/** One edition, walked point by point. The host plants come as classes: their start values, whatever else they are. */
export interface Side {
  flow: Flow;
  ends: SideEnd[];
  root: SidePoint;
  /** The point after a reply. */
  go(point: SidePoint, prompt: number, reply: number): SidePoint;
  /** The same, where the other edition has decided already. `places`: from its prompts to those of this side. */
  adopt(
    point: SidePoint,
    prompt: number,
    reply: number,
    from: SidePoint,
    ends: readonly SideEnd[],
    places: readonly number[],
  ): SidePoint;
}

/** `isTouched`: tells where the other edition may decide otherwise. */
export function openSide(flow: Flow, starts: readonly Int16Array[], isTouched?: IsTouched): Side {
  const ends: SideEnd[] = [];
  const walker: Walker = {
    flow,
    starts,
    oddOnes: listOddOnes(flow, starts),
    least: bound(flow, starts, Math.min),
    most: bound(flow, starts, Math.max),
    isTouched,
    adopted: [],
    endByKey: new Map(),
    ends,
    known: new Uint8Array(flow.findings.size),
    cellOf: new Int32Array(starts.length),
  };
  const first = flow.prompts.length > 0 ? 0 : endOf(walker, weigh(flow, walker.known), undetermined);
  const parts = [{ next: first, classes: starts.map((_, i) => i) }];
  return {
    flow,
    ends,
    root: { parent: undefined, prompt: -1, reply: -1, depth: 0, parts, touched: true, onward: undefined },
    go: (point, prompt, reply) =>
      remember(point, prompt, reply, (next) => {
        decideAll(walker, next, point.parts.find((part) => part.next === prompt)?.classes ?? []);
      }),
    adopt: (point, prompt, reply, from, others, places) =>
      remember(point, prompt, reply, (next) => {
        next.touched = false;
        next.parts = from.parts.map(({ next: was, classes }) => ({
          next: was >= 0 ? (places[was] ?? 0) : adoptEnd(walker, others, -1 - was),
          classes,
        }));
      }),
  };
}

const undetermined: Decision = { leader: -1, beside: [], rival: -1, lead: 0, standing: "undetermined" };

interface Walker {
  flow: Flow;
  starts: readonly Int16Array[];
  /** By condition: the classes whose start value is not that of the first class. Most plants are alike for most conditions. */
  oddOnes: readonly (readonly number[])[];
  /** By condition: the lowest and the highest start value of any class. */
  least: Int16Array;
  most: Int16Array;
  isTouched: IsTouched | undefined;
  /** From the endings of the other side to those of this one. */
  adopted: number[];
  endByKey: Map<string, number>;
  ends: SideEnd[];
  /** Used over and over: what is known at the point at hand, and the cell of each class, or -1. */
  known: Uint8Array;
  cellOf: Int32Array;
}

function listOddOnes(flow: Flow, starts: readonly Int16Array[]): number[][] {
  return Array.from({ length: flow.evidence.size }, (_, c) =>
    starts.flatMap((start, k) => (start[c] === starts[0]?.[c] ? [] : [k])),
  );
}

function bound(
  flow: Flow,
  starts: readonly Int16Array[],
  pick: (a: number, b: number) => number,
): Int16Array {
  return Int16Array.from({ length: flow.evidence.size }, (_, c) =>
    starts.reduce((so, start) => pick(so, start[c] ?? 0), starts[0]?.[c] ?? 0),
  );
}

/** The point after a reply, made when it is first asked for. */
function remember(
  point: SidePoint,
  prompt: number,
  reply: number,
  fill: (next: SidePoint) => void,
): SidePoint {
  point.onward ??= new Map();
  let after = point.onward.get(prompt);
  if (!after) {
    after = [];
    point.onward.set(prompt, after);
  }
  let next = after[reply];
  if (!next) {
    next = {
      parent: point,
      prompt,
      reply,
      depth: point.depth + 1,
      parts: [],
      touched: true,
      onward: undefined,
    };
    fill(next);
    after[reply] = next;
  }
  return next;
}

/** Classes for which everything that counts so far is the same. */
interface Cell {
  count: number;
  /** One of them; -1 while it has to be looked up. */
  example: number;
  decision: Decision | undefined;
  /** What comes next, once that is known. */
  next: number | undefined;
}

/** What comes next at a point, for every class: the same as the engine decides for each of them. */
function decideAll(walker: Walker, point: SidePoint, classes: readonly number[]): void {
  const { flow, cellOf } = walker;
  const answered = readPath(walker, point);
  const weighed = weigh(flow, walker.known);
  if (walker.isTouched) point.touched = walker.isTouched(weighed, answered);
  cellOf.fill(-1);
  for (const k of classes) cellOf[k] = 0;
  const cells: Cell[] = [
    { count: classes.length, example: classes[0] ?? 0, decision: undefined, next: undefined },
  ];
  const counted = new Uint8Array(flow.evidence.size);
  for (const c of rivalling(walker, weighed)) splitCells(walker, cells, c, counted);
  for (const cell of cells)
    if (cell.count > 0) cell.decision = decide(flow, weighed, startOf(walker, classes, cells, cell));
  let open = cells.filter(({ count }) => count > 0).length;
  const isFull = point.depth > flow.edition.conversation.mostQuestions;
  for (let i = 1; i < flow.prompts.length && open > 0 && !isFull; i++) {
    const prompt = flow.prompts[i];
    const offer = prompt && !answered.has(i) ? offerOf(flow, walker.known, prompt) : undefined;
    if (!offer) continue;
    for (const c of stirred(walker, weighed, cells, offer)) splitCells(walker, cells, c, counted);
    open = 0;
    for (const cell of cells) {
      if (cell.count === 0 || cell.next !== undefined || !cell.decision) continue;
      if (matters(flow, weighed, startOf(walker, classes, cells, cell), cell.decision, offer)) cell.next = i;
      else open++;
    }
  }
  for (const cell of cells) {
    if (cell.count > 0 && cell.decision) cell.next ??= endOf(walker, weighed, cell.decision);
  }
  point.parts = joinCells(walker, classes, cells);
}

/**
 * The contenders whose start value can change a decision. One without a hallmark that no plant lifts above the silent rival,
 * nor above the lowest that another contender can have, neither leads nor narrows a lead, whatever the plant.
 */
function rivalling({ flow, least, most }: Walker, { contenders, sums, hallmarks }: Weighed): number[] {
  const { silentRival } = flow.edition.weights;
  let sure = Number.NEGATIVE_INFINITY;
  for (const c of contenders) sure = Math.max(sure, (sums[c] ?? 0) + (least[c] ?? 0));
  return contenders.filter((c) => {
    const highest = (sums[c] ?? 0) + (most[c] ?? 0);
    return (hallmarks[c] ?? 0) > 0 || highest > silentRival || highest >= sure;
  });
}

/** The conditions whose start value can decide whether a question matters: those it can bring within reach of a leader. */
function stirred(walker: Walker, { sums }: Weighed, cells: readonly Cell[], { gains }: Offer): Set<number> {
  const { flow, least, most } = walker;
  const { reach, lead } = flow.edition.weights;
  let lowest = Number.POSITIVE_INFINITY;
  for (const { decision, next, count } of cells) {
    if (!decision || next !== undefined || count === 0 || decision.leader < 0) continue;
    lowest = Math.min(lowest, (sums[decision.leader] ?? 0) + (least[decision.leader] ?? 0));
  }
  const found = new Set<number>();
  for (const { conditions, decibans } of gains) {
    let own = 0;
    for (const gain of decibans) own = Math.min(own, gain);
    const mark = lowest + own - Math.max(reach, lead.suspected - 1);
    conditions.forEach((c, i) => {
      if ((sums[c] ?? 0) + (most[c] ?? 0) + (decibans[i] ?? 0) >= mark) found.add(c);
    });
  }
  return found;
}

/** Brings what is known at a point into the buffer; returns the prompts that were answered. */
function readPath({ flow, known }: Walker, point: SidePoint): Set<number> {
  const present: number[] = [];
  const absent: number[] = [];
  const answered = new Set<number>();
  for (let at: SidePoint | undefined = point; at?.parent; at = at.parent) {
    const reply = flow.prompts[at.prompt]?.replies[at.reply];
    if (reply) {
      present.push(...reply.present);
      absent.push(...reply.absent);
    }
    answered.add(at.prompt);
  }
  closeFindings(flow.findings, present, absent, known);
  return answered;
}

/** Parts the classes further: by their start value for one more condition. Cells whose next step is known stay whole. */
function splitCells(
  { oddOnes, starts, cellOf }: Walker,
  cells: Cell[],
  c: number,
  counted: Uint8Array,
): void {
  if (counted[c] === 1) return;
  counted[c] = 1;
  const made = new Map<number, number>();
  for (const k of oddOnes[c] ?? []) {
    const from = cellOf[k] ?? -1;
    const cell = cells[from];
    if (!cell || cell.next !== undefined) continue;
    const key = from * 65_536 + (starts[k]?.[c] ?? 0) + 32_768;
    let to = made.get(key);
    if (to === undefined) {
      to = cells.push({ count: 0, example: k, decision: cell.decision, next: undefined }) - 1;
      made.set(key, to);
    }
    cellOf[k] = to;
    const target = cells[to];
    if (target) target.count++;
    cell.count--;
    if (cell.example === k) cell.example = -1;
  }
}

function startOf(
  { starts, cellOf }: Walker,
  classes: readonly number[],
  cells: readonly Cell[],
  cell: Cell,
): Int16Array {
  if (cell.example < 0) {
    const at = cells.indexOf(cell);
    cell.example = classes.find((k) => cellOf[k] === at) ?? 0;
  }
  return starts[cell.example] ?? new Int16Array();
}

/** The classes by what comes next. Nearly always that is the same for all: then nothing is copied. */
function joinCells({ cellOf }: Walker, classes: readonly number[], cells: readonly Cell[]): Part[] {
  const used = cells.filter(({ count }) => count > 0);
  const first = used[0]?.next ?? 0;
  if (used.every(({ next }) => next === first)) return [{ next: first, classes }];
  const parts: (Part & { classes: number[] })[] = [];
  const byNext = new Map<number, number[]>();
  for (const k of classes) {
    const next = cells[cellOf[k] ?? 0]?.next ?? 0;
    const members = byNext.get(next);
    if (members) {
      members.push(k);
      continue;
    }
    const part = { next, classes: [k] };
    byNext.set(next, part.classes);
    parts.push(part);
  }
  return parts;
}

function endOf(walker: Walker, weighed: Weighed, { standing, leader, beside }: Decision): number {
  const { flow, endByKey, ends } = walker;
  const isOpen = standing === "undetermined";
  const behind = isOpen
    ? []
    : (flow.evidence.broughtOnBy[leader] ?? []).filter((c) => weighed.speaks[c] !== SILENT);
  const key = isOpen ? "" : `${standing}|${leader}|${beside.join()}|${behind.join()}`;
  let end = endByKey.get(key);
  if (end === undefined) {
    end = ends.length;
    endByKey.set(key, end);
    ends.push(describeEnd(flow, standing, isOpen ? [] : [leader], isOpen ? [] : beside, behind));
  }
  return -1 - end;
}

function adoptEnd(
  { adopted, endByKey, ends, flow }: Walker,
  others: readonly SideEnd[],
  other: number,
): number {
  let end = adopted[other];
  const like = others[other];
  if (end === undefined && like) {
    const places = (ids: readonly string[]) => ids.map((id) => flow.evidence.index.get(id) ?? -1);
    const { standing, leader, beside, behind } = like;
    const key =
      leader === null
        ? ""
        : `${standing}|${places([leader]).join()}|${places(beside).join()}|${places(behind).join()}`;
    end = endByKey.get(key) ?? ends.push({ ...like }) - 1;
    endByKey.set(key, end);
    adopted[other] = end;
  }
  return -1 - (end ?? 0);
}

function describeEnd(
  flow: Flow,
  standing: Standing,
  leaders: readonly number[],
  besides: readonly number[],
  behinds: readonly number[],
): SideEnd {
  const idOf = (c: number) => flow.edition.conditions[c]?.id ?? "";
  const [leader = null] = leaders.map(idOf);
  const [beside, behind] = [besides.map(idOf), behinds.map(idOf)];
  const bringSample = leader === null || flow.condition(leader)?.needsSample === true;
  const causes = leader === null ? [null] : [...new Set([leader, ...beside, ...behind])];
  return { standing, leader, beside, behind, bringSample, causes };
}
