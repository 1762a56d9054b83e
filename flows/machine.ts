import { assign, setup } from "xstate";
import type { CivilDate } from "./calendar/civil-date.ts";
import { type Answer, type Case, giveAnswer, newCase, takeBack } from "./case.ts";
import type { Standing } from "./edition.ts";
import type { Flow } from "./flow.ts";
import { nextQuestion } from "./next-question.ts";
import { secondLook } from "./second-look.ts";
import { lookDue, lookIds } from "./second-look-due.ts";
import { judge } from "./verdict.ts";

export interface ConversationContext {
  case: Case;
  /** Id of the question that is due, or null when the verdict is. */
  next: string | null;
  standing: Standing;
  /** What the latest look leads to: "none" before the first, and "reopen" while the verdict is that of new signs. */
  look: LookKind;
  /** What was understood of something typed. Nothing of it counts before it is agreed to. */
  proposed: readonly Answer[];
}

/** Where a look can end. The other outcomes lead back to the standings. */
export const lookStates = ["finish", "continue", "step-up", "sample"] as const;
type LookKind = ReturnType<typeof secondLook>["outcome"]["kind"];

/** `question` may be any question of the edition, or a finding that is volunteered with "yes" or "no". */
export type ConversationEvent =
  | { type: "answer"; question: string; is: string }
  | { type: "take back"; question: string }
  /** Something was typed, and understood as these answers; and which of them were agreed to. */
  | { type: "say"; proposed: readonly Answer[] }
  | { type: "agree"; answers: readonly Answer[] }
  /** The case is opened again. Asks how the plant is, when a look is due on that day. */
  | { type: "look again"; today: CivilDate }
  | { type: "start again" };

/**
 * The conversation as a statechart: one state a question, one a standing. Its guards and actions call the same pure
 * functions as the server and the walker; the only thing it remembers is the answers.
 */
export function buildMachine(flow: Flow) {
  const settle = (kase: Case): ConversationContext => ({
    case: kase,
    next: nextQuestion(flow, kase)?.id ?? null,
    proposed: [],
    ...judgeWithLook(flow, kase),
  });
  const questions = [...questionIds(flow), ...lookIds(flow)];
  const looks = flow.looks ? lookStates : [];
  return setup({
    types: {
      context: {} as ConversationContext,
      events: {} as ConversationEvent,
      input: {} as { case?: Case },
    },
    guards: {
      isNext: ({ context }, params: { question: string }) => context.next === params.question,
      stands: ({ context }, params: { standing: Standing }) => context.standing === params.standing,
      looked: ({ context }, params: { look: string }) => context.look === params.look,
    },
    actions: {
      keep: assign(({ context, event }) => {
        if (event.type === "answer") {
          return settle(giveAnswer(flow, context.case, event.question, event.is).case);
        }
        if (event.type === "agree") return settle(giveAll(flow, context, event.answers));
        if (event.type === "take back") return settle(takeBack(flow, context.case, event.question).case);
        return settle(newCase(flow));
      }),
      propose: assign(({ event }) => (event.type === "say" ? { proposed: event.proposed } : {})),
      ask: assign(({ context, event }) => {
        if (event.type !== "look again") return context;
        const { due, question } = lookDue(flow, context.case, event.today);
        return due && question ? { ...context, next: question.id } : context;
      }),
    },
  }).createMachine({
    id: "conversation",
    context: ({ input }) => settle(input.case ?? newCase(flow)),
    initial: "deciding",
    on: {
      answer: { target: ".deciding", actions: "keep" },
      "take back": { target: ".deciding", actions: "keep" },
      say: { target: ".confirming", actions: "propose" },
      "look again": { target: ".deciding", actions: "ask" },
      "start again": { target: ".deciding", actions: "keep" },
    },
    states: {
      deciding: {
        always: [
          ...questions.map((question) => ({
            target: question,
            guard: { type: "isNext" as const, params: { question } },
          })),
          ...looks.map((look) => ({ target: look, guard: { type: "looked" as const, params: { look } } })),
          ...(["suspected", "leaning"] as const).map((standing) => ({
            target: standing,
            guard: { type: "stands" as const, params: { standing } },
          })),
          { target: "undetermined" },
        ],
      },
      ...Object.fromEntries(questions.map((question) => [question, {}])),
      ...Object.fromEntries(looks.map((look) => [look, {}])),
      confirming: { on: { agree: { target: "deciding", actions: "keep" } } },
      suspected: {},
      leaning: {},
      undetermined: {},
    },
  });
}

/** Gives those answers that were proposed; others were never shown. */
function giveAll(
  flow: Flow,
  { case: kase, proposed }: ConversationContext,
  answers: readonly Answer[],
): Case {
  return answers
    .filter(({ to, is }) => proposed.some((one) => one.to === to && one.is === is))
    .reduce((before, { to, is }) => giveAnswer(flow, before, to, is).case, kase);
}

function judgeWithLook(flow: Flow, kase: Case): Pick<ConversationContext, "standing" | "look"> {
  const verdict = judge(flow, kase);
  return { standing: verdict.standing, look: secondLook(flow, kase, verdict).outcome.kind };
}

/** Every question that the first conversation may ask: about the plant, its name, and the household. */
export function questionIds(flow: Flow): string[] {
  return [
    ...flow.prompts.map(({ question }) => question.id),
    ...(flow.hostQuestion ? [flow.hostQuestion.id] : []),
    ...flow.factPrompts.map(({ question }) => question.id),
  ];
}
