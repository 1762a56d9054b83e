import fc from "fast-check";
import { type Answer, type Case, giveAnswer, newCase } from "../../flows/case.ts";
import { type Flow, NOT_SURE } from "../../flows/flow.ts";
import { nextQuestion } from "../../flows/next-question.ts";

/** Every answer that the edition knows to a question, the host plant, a fact or a finding. */
export function possibleAnswers(flow: Flow): Answer[] {
  const hosts = [...flow.edition.hosts.map(({ id }) => id), NOT_SURE];
  return [
    ...(flow.hostQuestion ? hosts.map((is) => ({ to: flow.hostQuestion?.id ?? "", is })) : []),
    ...[...flow.promptById].flatMap(([to, { replies }]) => replies.map(({ id }) => ({ to, is: id }))),
    ...flow.edition.findings.flatMap(({ id: to }) => [
      { to, is: "yes" },
      { to, is: "no" },
    ]),
  ];
}

/** Follows the conversation, choosing each reply by the next of `choices`, until they run out or the verdict is due. */
export function converse(flow: Flow, start: Case, choices: readonly number[]): Case {
  let kase = start;
  for (const choice of choices) {
    const next = nextQuestion(flow, kase);
    if (!next) break;
    const replies =
      next.id === flow.hostQuestion?.id
        ? [...flow.edition.hosts.map(({ id }) => id), NOT_SURE]
        : (flow.promptById.get(next.id)?.replies.map(({ id }) => id) ?? []);
    kase = giveAnswer(flow, kase, next.id, replies[choice % replies.length] ?? NOT_SURE).case;
  }
  return kase;
}

/**
 * Cases as they come about: something volunteered first, a conversation that may stop anywhere, then answers out of
 * turn: to questions whose turn never came, and about findings nobody asked for.
 */
export function arbitraryCase(flow: Flow): fc.Arbitrary<Case> {
  const all = possibleAnswers(flow);
  const perQuestion = new Map(all.map(({ to }) => [to, all.filter((answer) => answer.to === to)]));
  const outOfTurn = fc.constantFrom(...perQuestion.values()).chain((answers) => fc.constantFrom(...answers));
  return fc
    .record({
      early: fc.array(outOfTurn, { maxLength: 3 }),
      choices: fc.array(fc.nat({ max: 10_000 }), { maxLength: 14 }),
      late: fc.array(outOfTurn, { maxLength: 4 }),
    })
    .map(({ early, choices, late }) => {
      const begun = add(newCase(flow), early);
      return add(converse(flow, begun, choices), late);
    });
}

/** Conversations carried to their end, answered at random. */
export function arbitraryConversation(flow: Flow): fc.Arbitrary<Case> {
  return fc
    .array(fc.nat({ max: 10_000 }), { minLength: 20, maxLength: 20 })
    .map((choices) => converse(flow, newCase(flow), choices));
}

function add(kase: Case, answers: readonly Answer[]): Case {
  const added = [...kase.answers];
  for (const answer of answers) if (!added.some(({ to }) => to === answer.to)) added.push(answer);
  return { ...kase, answers: added };
}

/** A case together with another order of the same answers. */
export function arbitraryReordered(flow: Flow): fc.Arbitrary<{ kase: Case; reordered: Case }> {
  return arbitraryCase(flow).chain((kase) =>
    fc
      .shuffledSubarray([...kase.answers], { minLength: kase.answers.length })
      .map((answers) => ({ kase, reordered: { ...kase, answers } })),
  );
}
