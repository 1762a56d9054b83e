import type { Tree, TreeQuestion } from "./tree.ts";

/** What of a tree is drawn: all of it, what can follow one answer to the opening, or one question and its neighbors. */
export type Show = { all: true } | { from: string } | { around: string };

/** A way from an answer to a question. */
export interface Arrow {
  from: string;
  /** The answer. */
  by: string;
  to: string;
}

export interface TreePart {
  questions: readonly TreeQuestion[];
  arrows: readonly Arrow[];
  /** Pairs of questions, "from>to", that are enough to see the order: the rest is told by way of others, or leads back. */
  spine: ReadonlySet<string>;
  /** Of all questions, those that are not shown too. */
  turns: ReadonlyMap<string, number | null>;
}

/** The questions and arrows to draw. What does not exist shows everything. */
export function selectPart(tree: Tree, show: Show): TreePart {
  const arrows = tree.questions.flatMap(({ id, answers }) =>
    answers.flatMap((answer) => answer.leadsTo.map((to): Arrow => ({ from: id, by: answer.id, to }))),
  );
  const turns = new Map(tree.questions.map(({ id, turn }) => [id, turn]));
  const cut = (ids: ReadonlySet<string>, kept: readonly Arrow[]): TreePart => {
    const questions = tree.questions.filter(({ id }) => ids.has(id));
    const among = kept.filter(({ from, to }) => ids.has(from) && ids.has(to));
    return { questions, arrows: among, spine: findSpine(questions, among), turns };
  };
  if ("from" in show && hasAnswer(tree, show.from)) {
    const ways = arrows.filter(({ from, by }) => from !== tree.opening || by === show.from);
    return cut(reach(tree.opening, ways), ways);
  }
  if ("around" in show && tree.questions.some(({ id }) => id === show.around)) {
    const ways = arrows.filter(({ from, to }) => from === show.around || to === show.around);
    return cut(new Set([show.around, ...ways.flatMap(({ from, to }) => [from, to])]), ways);
  }
  return cut(new Set(tree.questions.map(({ id }) => id)), arrows);
}

/** The transitive reduction of the ways that lead onward in the order of questions. */
function findSpine(questions: readonly TreeQuestion[], arrows: readonly Arrow[]): Set<string> {
  const places = new Map(questions.map(({ id }, place) => [id, place]));
  const placeOf = (id: string) => places.get(id) ?? 0;
  const next = new Map<string, Set<string>>();
  for (const { from, to } of arrows) {
    if (placeOf(from) >= placeOf(to)) continue;
    next.set(from, (next.get(from) ?? new Set()).add(to));
  }
  const reached = new Map<string, Set<string>>();
  const spine = new Set<string>();
  for (const { id } of [...questions].reverse()) {
    const onward = [...(next.get(id) ?? [])].sort((a, b) => placeOf(a) - placeOf(b));
    const all = new Set<string>();
    for (const to of onward) {
      if (all.has(to)) continue;
      spine.add(`${id}>${to}`);
      all.add(to);
      for (const further of reached.get(to) ?? []) all.add(further);
    }
    reached.set(id, all);
  }
  return spine;
}

function hasAnswer({ opening, questions }: Tree, id: string): boolean {
  return questions.find((question) => question.id === opening)?.answers.some((one) => one.id === id) === true;
}

function reach(start: string, arrows: readonly Arrow[]): Set<string> {
  const reached = new Set([start]);
  for (const id of reached) for (const { from, to } of arrows) if (from === id) reached.add(to);
  return reached;
}
