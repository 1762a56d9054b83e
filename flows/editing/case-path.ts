import type { Answer, Case } from "../case.ts";
import type { Flow } from "../flow.ts";
import { nextQuestion } from "../next-question.ts";
import { judge } from "../verdict.ts";

/** How a case went through the questions. */
export interface CasePath {
  /** Question and answer, in the order in which they are asked. */
  steps: readonly Answer[];
  /** What the case tells and nobody asks for. */
  told: readonly Answer[];
  /** The question that is open next; null when the case has come to its end. */
  open: string | null;
  end: { standing: string; leader: string | null } | null;
}

/** Asks the questions of a case again, in the order of this edition. */
export function followCase(flow: Flow, kase: Case): CasePath {
  const isQuestion = (to: string) => flow.question(to) !== undefined;
  // What was told unasked comes first, as it does in a conversation.
  const given: Answer[] = kase.answers.filter(({ to }) => !isQuestion(to));
  const steps: Answer[] = [];
  const left = kase.answers.filter(({ to }) => isQuestion(to));
  for (;;) {
    const next = nextQuestion(flow, { edition: kase.edition, answers: given });
    const at = next === null ? -1 : left.findIndex(({ to }) => to === next.id);
    const [answer] = at < 0 ? [] : left.splice(at, 1);
    if (answer === undefined) {
      const rest = [...given, ...left];
      const open = nextQuestion(flow, { edition: kase.edition, answers: rest })?.id ?? null;
      const told = rest.filter((one) => !steps.includes(one));
      return { steps, told, open, end: open === null ? endOf(flow, rest, kase.edition) : null };
    }
    given.push(answer);
    steps.push(answer);
  }
}

function endOf(flow: Flow, answers: readonly Answer[], edition: number) {
  const { standing, leader } = judge(flow, { edition, answers });
  const name =
    leader === null || standing === "undetermined" ? null : (flow.condition(leader)?.name ?? leader);
  return { standing, leader: name };
}
