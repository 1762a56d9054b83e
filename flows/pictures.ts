import type { Condition, Drawing, DrawingPart, Option, Question } from "./edition.ts";

/** A drawing without what it is made of: enough to find out where it belongs. */
export type DrawingEntry = Omit<Drawing, "parts" | "shows">;

/** Which drawing belongs where. */
export interface Pictures<D extends DrawingEntry> {
  ofOption(question: Question, option: Option): D | undefined;
  ofCheck(question: Pick<Question, "id">): D | undefined;
  ofCondition(condition: Pick<Condition, "id">): D | undefined;
  /** The drawing whose regions answer the question, and the option of each region. */
  pressedFor(
    question: Pick<Question, "id">,
  ): { drawing: D; regions: Drawing["presses"][number]["regions"] } | undefined;
}

/**
 * An answer shows the drawing that is made for it, else that of the first finding it establishes which has one. An
 * answer that establishes nothing shows nothing, unless a drawing is made for it.
 */
export function openPictures<D extends DrawingEntry>(drawings: readonly D[]): Pictures<D> {
  const index = (keys: (drawing: D) => readonly string[]) =>
    new Map(drawings.flatMap((drawing) => keys(drawing).map((key) => [key, drawing])));
  const byFinding = index(({ findings }) => findings);
  const byCheck = index(({ checks }) => checks);
  const byCondition = index(({ conditions }) => conditions);
  const byAnswer = index(({ answers }) => answers.map(({ to, is }) => `${to} ${is}`));
  const byQuestion = index(({ presses }) => presses.map(({ question }) => question));
  return {
    ofOption: (question, option) => {
      const found = option.present.find((id) => byFinding.has(id));
      return byAnswer.get(`${question.id} ${option.id}`) ?? byFinding.get(found ?? "");
    },
    ofCheck: ({ id }) => byCheck.get(id),
    ofCondition: ({ id }) => byCondition.get(id),
    pressedFor: ({ id }) => {
      const drawing = byQuestion.get(id);
      const regions = drawing?.presses.find(({ question }) => question === id)?.regions;
      return drawing && regions && { drawing, regions };
    },
  };
}

/** The groups of a drawing that can be pressed, in their order. */
export function regionsIn(parts: readonly DrawingPart[]): string[] {
  return parts.flatMap(({ region, parts: inner }) => [
    ...(region ? [region] : []),
    ...regionsIn(inner ?? []),
  ]);
}
