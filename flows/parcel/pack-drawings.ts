import type { Drawing, Edition } from "../edition.ts";
import { openPictures } from "../pictures.ts";
import type { DrawingGroup, DrawingIndex } from "./drawing-shape.ts";

/** So that a few small requests bring what a question needs, and the next question finds the rest. */
const MOST_IN_GROUP = 8;

/** The drawings in groups, in the order in which the conversation may need them, and where each belongs. */
export function packDrawings(edition: Edition): { index: DrawingIndex; groups: DrawingGroup[] } {
  const { drawings = [] } = edition;
  const ordered = orderByNeed(edition, drawings);
  const cuts = Array.from(
    { length: Math.ceil(ordered.length / MOST_IN_GROUP) },
    (_, at) => at * MOST_IN_GROUP,
  );
  const parts = cuts.map((at) => ordered.slice(at, at + MOST_IN_GROUP));
  return {
    index: {
      entries: drawings.map(({ shows: _shows, parts: _parts, ...entry }) => entry),
      groups: parts.map((some) => some.map(({ id }) => id)),
    },
    groups: parts.map((some) =>
      Object.fromEntries(some.map(({ id, shows, parts: of }) => [id, { shows, parts: of }])),
    ),
  };
}

function orderByNeed({ conversation, questions }: Edition, drawings: readonly Drawing[]): Drawing[] {
  const pictures = openPictures(drawings);
  const needed = [conversation.opening, ...conversation.order].flatMap((id) => {
    const question = questions.find((one) => one.id === id);
    if (!question) return [];
    return [
      pictures.pressedFor(question)?.drawing,
      ...question.options.map((option) => pictures.ofOption(question, option)),
      pictures.ofCheck(question),
    ];
  });
  return [...new Set([...needed.filter((drawing) => drawing !== undefined), ...drawings])];
}
