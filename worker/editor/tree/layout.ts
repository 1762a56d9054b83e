/** Where the cards and arrows of a drawn tree stand. Units are pixels at 100 %. */
import { Graph, layout } from "@dagrejs/dagre";
import type { TreeAnswer, TreeQuestion } from "../../../flows/editing/tree.ts";
import type { TreePart } from "../../../flows/editing/tree-part.ts";

export const LINE = 18;
export const PAD = 12;
/** Cards of an overview, and those with answers. */
const SMALL = 200;
const WIDE = 256;
/** Pixels that a character takes on average in the widest of the fonts that may be at hand. */
const BOLD = 8.7;
const PLAIN = 7.4;
const LEAST_HEIGHT = 48;
export const VERDICT = "*verdict";

export interface Point {
  x: number;
  y: number;
}

export interface PlacedRow {
  answer: TreeAnswer;
  lines: readonly string[];
  /** From the top of the drawing: its first line, and its middle. */
  y: number;
  middle: number;
}

export interface PlacedCard extends Point {
  id: string;
  /** Null for the card of the verdict. */
  question: TreeQuestion | null;
  width: number;
  height: number;
  heading: readonly string[];
  rows: readonly PlacedRow[];
  /** Lines below the heading, of a small card. */
  notes: readonly string[];
}

/** All ways from one question to another: the answers that take them, and the bends on the way. */
export interface PlacedArrow {
  from: string;
  to: string;
  by: readonly string[];
  /** `end`: to the verdict, or from it to what only the plan asks. `then`: asked next although no answer leads there. */
  kind: "asks" | "end" | "then";
  points: readonly Point[];
}

export interface PlacedTree {
  width: number;
  height: number;
  cards: readonly PlacedCard[];
  arrows: readonly PlacedArrow[];
}

interface Extra {
  opening: string;
  /** Pairs of questions that follow each other in a case. They are drawn whatever else is. */
  follow: readonly { from: string; to: string }[];
  /** Questions after which only the verdict comes. */
  last: readonly string[];
  /** Small cards; else with the answers. */
  isOverview: boolean;
  /** Every arrow; else no more than the order needs. */
  isWhole: boolean;
}

const common = { rankdir: "LR", ranker: "tight-tree", align: "UL", marginx: 24, marginy: 24 } as const;
const overview = { ...common, nodesep: 22, ranksep: 50, edgesep: 12 } as const;
const closeUp = { ...common, nodesep: 22, ranksep: 90, edgesep: 10 } as const;

/** Lays out what is shown, the opening first. The cards come in the turn of their questions. */
export function placeTree(part: TreePart, extra: Extra): PlacedTree {
  const graph = new Graph({ directed: true });
  graph.setGraph({ ...(extra.isOverview ? overview : closeUp) });
  graph.setDefaultEdgeLabel(() => ({}));
  const drafts = part.questions.map((question) =>
    extra.isOverview ? draftSmall(question, part) : draftCard(question, part),
  );
  for (const { id, width, height } of drafts) graph.setNode(id, { width, height });
  const kinds = listKinds(part, extra);
  const hasEnd = kinds.some(({ kind }) => kind === "end");
  if (hasEnd) graph.setNode(VERDICT, { width: SMALL, height: LEAST_HEIGHT });
  for (const { from, to } of kinds) graph.setEdge(from, to, {});
  layout(graph);
  const cards = [...drafts, ...(hasEnd ? [verdictCard] : [])].map((draft) =>
    settleCard(draft, graph.node(draft.id)),
  );
  const byId = new Map(cards.map((card) => [card.id, card]));
  const arrows = kinds.flatMap((arrow): PlacedArrow[] => {
    const points: readonly Point[] = graph.edge(arrow.from, arrow.to)?.points ?? [];
    return byId.has(arrow.from) && byId.has(arrow.to) ? [{ ...arrow, points }] : [];
  });
  const { width = 0, height = 0 } = graph.graph() as { width?: number; height?: number };
  return { width: Math.ceil(width), height: Math.ceil(height), cards, arrows };
}

type Kind = Omit<PlacedArrow, "points">;

function listKinds(part: TreePart, { opening, follow, last, isWhole }: Extra): Kind[] {
  const kinds = new Map<string, Kind>();
  const ids = new Set(part.questions.map(({ id }) => id));
  const put = (from: string, to: string, kind: Kind["kind"], by: string[] = []) => {
    const key = `${from}>${to}`;
    const before = kinds.get(key);
    kinds.set(key, before ? { ...before, by: [...before.by, ...by] } : { from, to, kind, by });
  };
  const followed = new Set(follow.map(({ from, to }) => `${from}>${to}`));
  for (const { from, to, by } of part.arrows) {
    const key = `${from}>${to}`;
    if (isWhole || part.spine.has(key) || followed.has(key)) put(from, to, "asks", [by]);
  }
  for (const { from, to } of follow)
    if (ids.has(from) && ids.has(to) && !kinds.has(`${from}>${to}`)) put(from, to, "then");
  for (const from of last) put(from, VERDICT, "end");
  for (const { id, kind } of part.questions) {
    if (kind === "host" && id !== opening && !followed.has(`${opening}>${id}`)) put(opening, id, "asks");
    if (kind === "fact" || kind === "look") put(VERDICT, id, "end");
  }
  return [...kinds.values()];
}

interface DraftCard {
  id: string;
  question: TreeQuestion | null;
  width: number;
  height: number;
  heading: readonly string[];
  rows: readonly { answer: TreeAnswer; lines: readonly string[] }[];
  notes: readonly string[];
}

const verdictCard: DraftCard = {
  ...{ id: VERDICT, question: null, width: SMALL, height: LEAST_HEIGHT },
  ...{ heading: ["The verdict"], rows: [], notes: [] },
};

/** An answer, with the turns of all questions that it brings up. */
function sayRow({ label, leadsTo, isDeadEnd }: TreeAnswer, turns: TreePart["turns"]): string {
  if (isDeadEnd) return `${label} (dead end)`;
  const later = leadsTo.map((id) => turns.get(id) ?? Number.POSITIVE_INFINITY).sort((a, b) => a - b);
  // The arrow stays with the first number.
  return `${label} →\u00a0${later.join(", ")}`;
}

function draftCard(question: TreeQuestion, { arrows, turns }: TreePart): DraftCard {
  const { id, prompt, answers } = question;
  const leading = new Set(arrows.filter(({ from }) => from === id).map(({ by }) => by));
  const heading = wrap(prompt, (WIDE - 2 * PAD) / BOLD);
  const rows = answers
    .filter((answer) => leading.has(answer.id) || answer.isDeadEnd)
    .map((answer) => ({
      answer,
      lines: wrap(sayRow(answer, turns), (WIDE - 2.5 * PAD) / PLAIN),
    }));
  const lines = 1 + heading.length + rows.reduce((sum, row) => sum + row.lines.length, 0);
  const height = Math.max(LEAST_HEIGHT, lines * LINE + rows.length * 6 + 2 * PAD);
  return { id, question, width: WIDE, height, heading, rows, notes: [] };
}

/** Only what is asked, and after which others, by their turns. */
function draftSmall(question: TreeQuestion, { questions, arrows }: TreePart): DraftCard {
  const before = questions.filter(({ id }) =>
    arrows.some(({ from, to }) => from === id && to === question.id),
  );
  const dead = question.answers.filter(({ isDeadEnd }) => isDeadEnd).length;
  const heading = wrap(question.prompt, (SMALL - 2 * PAD) / BOLD);
  const notes = [
    ...(before.length > 0 ? [`after ${before.map(({ turn }) => turn ?? "–").join(", ")}`] : []),
    ...(dead > 0 ? [`⊣ ${dead} dead ${dead === 1 ? "end" : "ends"}`] : []),
  ].flatMap((note) => wrap(note, (SMALL - 2 * PAD) / PLAIN));
  const height = (1 + heading.length + notes.length) * LINE + 2 * PAD - 4;
  return { id: question.id, question, width: SMALL, height, heading, rows: [], notes };
}

function settleCard(draft: DraftCard, at: Point): PlacedCard {
  const [x, top] = [at.x - draft.width / 2, at.y - draft.height / 2];
  let y = top + PAD + LINE * (1 + draft.heading.length);
  const rows = draft.rows.map((row): PlacedRow => {
    y += 6;
    const placed = { ...row, y, middle: y + (row.lines.length * LINE) / 2 };
    y += row.lines.length * LINE;
    return placed;
  });
  return { ...draft, x, y: top, rows };
}

/** Breaks a text into lines of so many characters. A word that is longer than a line is cut. */
function wrap(text: string, fit: number): string[] {
  const most = Math.floor(fit);
  const lines: string[] = [""];
  for (const word of text.split(/[ \t\n]+/).flatMap((one) => cut(one, most))) {
    const line = lines.at(-1) ?? "";
    if (line !== "" && line.length + 1 + word.length > most) lines.push(word);
    else lines[lines.length - 1] = line === "" ? word : `${line} ${word}`;
  }
  return lines;
}

function cut(word: string, most: number): string[] {
  const letters = [...word];
  const pieces: string[] = [];
  for (let at = 0; at < letters.length; at += most) pieces.push(letters.slice(at, at + most).join(""));
  return pieces;
}
