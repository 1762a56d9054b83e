import type { Edition, Question } from "../../flows/edition.ts";
import { NOT_SURE } from "../../flows/flow.ts";
import * as words from "../views/words.ts";
import type { Names } from "./protocol.ts";

/** How everything is called; where several editions name it, the last one's word counts. */
export function nameAll(editions: readonly Edition[]): Names {
  const names: Names = { conditions: {}, remedies: {}, questions: {} };
  for (const { conditions, remedies, questions, hosts } of editions) {
    for (const { id, name } of conditions) names.conditions[id] = name;
    for (const { id, name } of remedies) names.remedies[id] = name;
    const plants = Object.fromEntries(hosts.map(({ id, name }) => [id, name]));
    for (const question of questions) {
      const before = names.questions[question.id]?.answers;
      const answers = { ...before, ...nameAnswers(question, plants) };
      names.questions[question.id] = { prompt: question.prompt, answers };
    }
  }
  return names;
}

function nameAnswers(
  { kind, options }: Question,
  plants: Readonly<Record<string, string>>,
): Record<string, string> {
  if (kind === "host") return { ...plants, [NOT_SURE]: words.plantUnknown };
  return { ...Object.fromEntries(options.map(({ id, label }) => [id, label])), [NOT_SURE]: words.notSure };
}
