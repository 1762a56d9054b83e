import { assign, setup } from "xstate";
import { type Case, giveAnswer, newCase, takeBack } from "./case.ts";
import type { Standing } from "./edition.ts";
import type { Flow } from "./flow.ts";
import { nextQuestion } from "./next-question.ts";
import { judge } from "./verdict.ts";

export interface ConversationContext {
  case: Case;
  /** Id of the question that is due, or null when the verdict is. */
  next: string | null;
  standing: Standing;
}

/** `question` may be any question of the edition, or a finding that is volunteered with "yes" or "no". */
export type ConversationEvent =
  | { type: "answer"; question: string; is: string }
  | { type: "take back"; question: string }
  | { type: "start again" };

/**
 * The conversation as a statechart: one state a question, one a standing. Its guards and actions call the same pure
 * functions as the server and the walker; the only thing it remembers is the answers.
 */
export function buildMachine(flow: Flow) {
  const settle = (kase: Case): ConversationContext => ({
    case: kase,
    next: nextQuestion(flow, kase)?.id ?? null,
    standing: judge(flow, kase).standing,
  });
  const questions = questionIds(flow);
  return setup({
    types: {
      context: {} as ConversationContext,
      events: {} as ConversationEvent,
      input: {} as { case?: Case },
    },
    guards: {
      isNext: ({ context }, params: { question: string }) => context.next === params.question,
      stands: ({ context }, params: { standing: Standing }) => context.standing === params.standing,
    },
    actions: {
      keep: assign(({ context, event }) => {
        if (event.type === "answer") {
          return settle(giveAnswer(flow, context.case, event.question, event.is).case);
        }
        if (event.type === "take back") return settle(takeBack(flow, context.case, event.question).case);
        return settle(newCase(flow));
      }),
    },
  }).createMachine({
    id: "conversation",
    context: ({ input }) => settle(input.case ?? newCase(flow)),
    initial: "deciding",
    on: {
      answer: { target: ".deciding", actions: "keep" },
      "take back": { target: ".deciding", actions: "keep" },
      "start again": { target: ".deciding", actions: "keep" },
    },
    states: {
      deciding: {
        always: [
          ...questions.map((question) => ({
            target: question,
            guard: { type: "isNext" as const, params: { question } },
          })),
          ...(["suspected", "leaning"] as const).map((standing) => ({
            target: standing,
            guard: { type: "stands" as const, params: { standing } },
          })),
          { target: "undetermined" },
        ],
      },
      ...Object.fromEntries(questions.map((question) => [question, {}])),
      suspected: {},
      leaning: {},
      undetermined: {},
    },
  });
}

/** Every question that may be asked: about the plant, its name, and the household. */
export function questionIds(flow: Flow): string[] {
  return [
    ...flow.prompts.map(({ question }) => question.id),
    ...(flow.hostQuestion ? [flow.hostQuestion.id] : []),
    ...flow.factPrompts.map(({ question }) => question.id),
  ];
}
