import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { createActor, initialTransition, transition } from "xstate";
import { giveAnswer, newCase } from "../../flows/case.ts";
import { type Flow, NOT_SURE } from "../../flows/flow.ts";
import { buildMachine, lookStates, questionIds } from "../../flows/machine.ts";
import { nextQuestion } from "../../flows/next-question.ts";
import { lookIds } from "../../flows/second-look-due.ts";
import { judge } from "../../flows/verdict.ts";
import { shippedFlow } from "../support/shipped-flow.ts";
import { tinyFlow } from "../support/tiny-flow.ts";

function repliesTo(flow: Flow, id: string): string[] {
  const question = flow.question(id);
  const own =
    question?.kind === "host"
      ? flow.edition.hosts.map((host) => host.id)
      : question?.options.map((o) => o.id);
  return [...(own ?? []), NOT_SURE];
}

/** Plays one conversation on the machine and on the pure functions, picking replies by the given numbers. */
function playBoth(flow: Flow, machine: ReturnType<typeof buildMachine>, picks: readonly number[]): void {
  let [state] = initialTransition(machine, {});
  let kase = newCase(flow);
  for (const pick of picks) {
    const next = nextQuestion(flow, kase);
    expect(state.value).toBe(next?.id ?? judge(flow, kase).standing);
    if (!next) return;
    const replies = repliesTo(flow, next.id);
    const is = replies[pick % replies.length] ?? NOT_SURE;
    kase = giveAnswer(flow, kase, next.id, is).case;
    [state] = transition(machine, state, { type: "answer", question: next.id, is });
    expect(state.context.case.answers).toEqual(kase.answers);
  }
}

describe("the statechart", () => {
  it("stands where the pure functions say, on thousands of random conversations", () => {
    const flow = shippedFlow();
    const machine = buildMachine(flow);
    const picks = fc.array(fc.nat(1000), { minLength: 16, maxLength: 16 });
    fc.assert(
      fc.property(picks, (numbers) => playBoth(flow, machine, numbers)),
      { numRuns: 3000, seed: 7 },
    );
  });

  it("has a state for every question and every standing, and no other", () => {
    const flow = tinyFlow();
    const states = Object.keys(buildMachine(flow).states);
    expect(states.sort()).toEqual(
      [
        ...[...questionIds(flow), ...lookIds(flow), ...lookStates],
        ...["deciding", "confirming", "suspected", "leaning", "undetermined"],
      ].sort(),
    );
  });

  it("counts nothing that was typed before it is agreed to, and then only that", () => {
    const machine = buildMachine(tinyFlow());
    const [start] = initialTransition(machine, {});
    const web = { to: "fine-webbing", is: "yes" };
    const basil = { to: "host", is: "basil" };
    const [confirming] = transition(machine, start, { type: "say", proposed: [web, basil] });
    expect(confirming.value).toBe("confirming");
    expect(confirming.context.case.answers).toEqual([]);
    const [agreed] = transition(machine, confirming, {
      type: "agree",
      answers: [basil, { to: "roots-brown-mushy", is: "yes" }],
    });
    expect(agreed.value).not.toBe("confirming");
    expect(agreed.context.case.answers).toEqual([basil]);
    expect(agreed.context.proposed).toEqual([]);
  });

  it("takes an answer back and starts again", () => {
    const flow = tinyFlow();
    const opening = flow.edition.conversation.opening;
    const actor = createActor(buildMachine(flow), { input: {} }).start();
    const first = actor.getSnapshot().value;
    actor.send({ type: "answer", question: opening, is: NOT_SURE });
    expect(actor.getSnapshot().value).not.toBe(first);
    actor.send({ type: "take back", question: opening });
    expect(actor.getSnapshot().value).toBe(first);
    actor.send({ type: "answer", question: opening, is: NOT_SURE });
    actor.send({ type: "start again" });
    expect(actor.getSnapshot().context.case.answers).toEqual([]);
  });

  it("takes up a case where it stopped", () => {
    const flow = tinyFlow();
    const kase = giveAnswer(flow, newCase(flow), flow.edition.conversation.opening, NOT_SURE).case;
    const actor = createActor(buildMachine(flow), { input: { case: kase } }).start();
    expect(actor.getSnapshot().value).toBe(nextQuestion(flow, kase)?.id);
  });
});
