import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { initialTransition, transition } from "xstate";
import { type Case, giveAnswer, know } from "../../flows/case.ts";
import { readCode, writeCode } from "../../flows/case-code.ts";
import { readLink, writeLink } from "../../flows/case-link.ts";
import { type Method, methods } from "../../flows/edition.ts";
import { type Flow, MOST_LOOKS, NOT_SURE } from "../../flows/flow.ts";
import { buildMachine, lookStates } from "../../flows/machine.ts";
import { nextQuestion } from "../../flows/next-question.ts";
import { makePlan } from "../../flows/plan.ts";
import { decideLook, type LookAnswers, readLooks, secondLook } from "../../flows/second-look.ts";
import { beginPlan, firstCase, lookDue, takeLook } from "../../flows/second-look-due.ts";
import { judge } from "../../flows/verdict.ts";
import { findPlanFaults } from "../../flows/walk/plan-invariants.ts";
import { answerSet, caseOf } from "../support/cases.ts";
import { arbitraryConversation, arbitraryReordered, converse } from "../support/random-case.ts";
import { shippedFlow } from "../support/shipped-flow.ts";

const flow = shippedFlow();
const ladder: Method[] = ["cultural", "mechanical", "chemical"];
const ground = { undetermined: false, ladder };

function answers(looks: LookAnswers["looks"], tried?: string, technique?: string): LookAnswers {
  return { looks, tried, technique, allDone: "none" };
}

describe("the rules", () => {
  it.each([
    ["no look yet", answers([]), { kind: "none" }],
    ["better: finish and prevent", answers(["better"]), { kind: "finish" }],
    ["something new: the questions open again", answers(["new"]), { kind: "reopen" }],
    ["the same: first what was done", answers(["same"]), { ask: "tried" }],
    ["then how it was done", answers(["same"], "mechanical"), { ask: "technique" }],
    [
      "the same, a side was missed: continue and mend that",
      answers(["same"], "chemical", "undersides"),
      { kind: "continue", mend: "undersides", checkTechnique: true },
    ],
    [
      "the same, how is not known: continue and check",
      answers(["same"], "mechanical", NOT_SURE),
      { kind: "continue", mend: null, checkTechnique: true },
    ],
    [
      "the same, all done well: one method up",
      answers(["same"], "mechanical", "none"),
      { kind: "step-up", from: "mechanical", to: "chemical" },
    ],
    [
      "the same after care alone: one method up",
      answers(["same"], "cultural"),
      { kind: "step-up", from: "cultural", to: "mechanical" },
    ],
    [
      "the same, all done, nothing left",
      answers(["same"], "chemical", "none"),
      { kind: "sample", because: "nothing-left" },
    ],
    [
      "worse under a chemical",
      answers(["worse"], "chemical"),
      { kind: "sample", because: "worse-under-chemical" },
    ],
    [
      "worse, what was done is not known",
      answers(["worse"], NOT_SURE),
      { kind: "sample", because: "tried-unknown" },
    ],
    [
      "worse after washing: one method up",
      answers(["worse"], "mechanical"),
      { kind: "step-up", from: "mechanical", to: "chemical" },
    ],
    [
      "two rounds without improvement",
      answers(["same", "same"], "mechanical", "none"),
      { kind: "sample", because: "two-rounds" },
    ],
    [
      "same, then worse",
      answers(["same", "worse"], "mechanical", "none"),
      { kind: "sample", because: "two-rounds" },
    ],
    [
      "better in between is an improvement",
      answers(["same", "better"], "mechanical", "none"),
      { kind: "finish" },
    ],
    [
      "no better at the last look",
      answers(["same", "better", "same"], "mechanical", "none"),
      { kind: "sample", because: "last-look" },
    ],
    ["“not sure” twice", answers([NOT_SURE, NOT_SURE], NOT_SURE), { kind: "sample", because: "two-rounds" }],
  ] as const)("%s", (_, given, decision) => {
    expect(decideLook(ground, given)).toEqual(decision);
  });

  it("what was never determined is not treated further", () => {
    for (const word of ["same", "worse", NOT_SURE] as const) {
      expect(decideLook({ ...ground, undetermined: true }, answers([word]))).toEqual({
        kind: "sample",
        because: "undetermined",
      });
    }
  });

  it("a plan of care alone gets its time, then a bench", () => {
    const care = { undetermined: false, ladder: ["cultural"] as Method[] };
    expect(decideLook(care, answers(["same"]))).toMatchObject({ kind: "continue" });
    expect(decideLook(care, answers(["same", "same"]))).toMatchObject({ kind: "sample" });
    expect(decideLook(care, answers(["worse"]))).toEqual({ kind: "sample", because: "nothing-left" });
  });
});

const mites = caseOf(
  flow,
  "fine-webbing",
  "moving-dots-on-paper",
  "pale-stippling",
  "host=spider-plant",
  "air=not-sure",
  "household=neither",
  "flowering-or-outdoors=no",
  "eaten=not-sure",
);
const begun = beginPlan(flow, mites, "2026-05-04");

/** Takes a look and gives the answers that follow, in any order. */
function look(kase: Case, today: string, is: string, ...more: string[]): Case {
  return caseOf(flow, ...more).answers.reduce(
    (given, answer) => giveAnswer(flow, given, answer.to, answer.is).case,
    takeLook(flow, kase, is, today),
  );
}

describe("opening a case again", () => {
  it("asks first on a later day, and not before", () => {
    expect(lookDue(flow, begun, "2026-05-04")).toMatchObject({ due: false, days: 0 });
    expect(lookDue(flow, begun, "2026-05-03").due).toBe(false);
    expect(lookDue(flow, begun, "2026-05-05")).toMatchObject({ due: true, days: 1 });
    expect(lookDue(flow, begun, "2026-05-05").question?.id).toBe("look-again");
  });

  it("without a day the look is on offer, but not pressed on anyone", () => {
    expect(lookDue(flow, mites, "2026-05-05")).toMatchObject({ due: false, days: null });
    expect(lookDue(flow, mites, "2026-05-05").question?.id).toBe("look-again");
  });

  it("is never asked of a case that has no plan yet", () => {
    const open = caseOf(flow, "fine-webbing");
    expect(nextQuestion(flow, open)).not.toBeNull();
    expect(lookDue(flow, open, "2026-06-01")).toMatchObject({ due: false, question: null });
  });

  it("asks too where the plan began before all questions were answered, and asks no more of those", () => {
    const early = beginPlan(flow, caseOf(flow, "fine-webbing", "moving-dots-on-paper"), "2026-05-04");
    expect(nextQuestion(flow, early)).not.toBeNull();
    expect(lookDue(flow, early, "2026-05-11").due).toBe(true);
    expect(nextQuestion(flow, look(early, "2026-05-11", "better"))).toBeNull();
  });

  it("counts the next look from the last one", () => {
    const looked = look(begun, "2026-05-11", "better");
    expect(lookDue(flow, looked, "2026-05-11").due).toBe(false);
    expect(lookDue(flow, looked, "2026-05-18")).toMatchObject({ due: true, days: 7 });
    expect(lookDue(flow, looked, "2026-05-18").question?.id).toBe("look-again-2");
  });

  it("ends after the last look, and after a request for a sample", () => {
    let kase = begun;
    for (let n = 1; n <= MOST_LOOKS; n++) kase = look(kase, `2026-05-${10 + n}`, "better");
    expect(readLooks(flow, kase)).toHaveLength(MOST_LOOKS);
    expect(lookDue(flow, kase, "2026-07-01").question).toBeNull();
    const sampled = look(begun, "2026-05-11", "worse", "tried=chemical");
    expect(lookDue(flow, sampled, "2026-07-01").question).toBeNull();
  });
});

describe("what follows", () => {
  it("asks what was done and how, then steps up to the gentlest of the next method", () => {
    const same = look(begun, "2026-05-11", "same");
    expect(nextQuestion(flow, same)?.id).toBe("tried");
    const tried = giveAnswer(flow, same, "tried", "mechanical").case;
    expect(nextQuestion(flow, tried)?.id).toBe("technique");
    const done = giveAnswer(flow, tried, "technique", "none").case;
    expect(nextQuestion(flow, done)).toBeNull();
    const { outcome, remedies } = secondLook(flow, done);
    expect(outcome).toMatchObject({ kind: "step-up", from: "mechanical" });
    const to = outcome.kind === "step-up" ? outcome.to : "";
    expect(remedies.length).toBeGreaterThan(0);
    const all = makePlan(flow, done, judge(flow, done)).steps.flatMap(
      ({ remedy }) => flow.remedy(remedy) ?? [],
    );
    const added = all.filter(({ method, lastResort }) => method === to && !lastResort);
    for (const id of remedies) {
      expect(flow.remedy(id)?.method).toBe(to);
      expect(flow.remedy(id)?.toxicity).toBe(Math.min(...added.map(({ toxicity }) => toxicity)));
    }
  });

  it("better keeps the whole plan, so that the rounds are finished", () => {
    const better = look(begun, "2026-05-11", "better");
    const plan = makePlan(flow, better, judge(flow, better));
    expect(secondLook(flow, better)).toMatchObject({
      taken: 1,
      outcome: { kind: "finish" },
      remedies: plan.steps.map(({ remedy }) => remedy),
    });
  });

  it("worse under a chemical asks for a sample, and sprays no more", () => {
    const worse = look(begun, "2026-05-11", "worse", "tried=chemical");
    const { outcome, remedies, bringSample } = secondLook(flow, worse);
    expect(outcome).toEqual({ kind: "sample", because: "worse-under-chemical" });
    expect(bringSample).toBe(true);
    expect(remedies.map((id) => flow.remedy(id)?.method)).not.toContain("chemical");
  });

  it("something new opens the questions, keeps what was said, and may change the verdict", () => {
    const fresh = look(begun, "2026-05-11", "new");
    const opening = flow.edition.conversation.opening;
    expect(nextQuestion(flow, fresh)?.id).toBe(`${opening}-2`);
    expect(secondLook(flow, fresh).outcome.kind).toBe("reopen");
    const told = ["white-cottony-tufts", "sticky-film"].reduce(
      (kase, finding) => giveAnswer(flow, kase, finding, "yes").case,
      giveAnswer(flow, fresh, `${opening}-2`, NOT_SURE).case,
    );
    for (const answer of mites.answers) expect(told.answers).toContainEqual(answer);
    const before = judge(flow, mites);
    const after = judge(flow, told);
    expect(before.leader).toBe("spider-mites");
    expect([after.leader, ...after.beside]).toEqual(expect.arrayContaining(["spider-mites", "mealybugs"]));
  });

  it("new signs double the questions about the plant at the most, and lead to no faulty plan", () => {
    fc.assert(
      fc.property(
        arbitraryConversation(flow),
        fc.array(fc.nat(1000), { minLength: 30, maxLength: 30 }),
        (kase, picks) => {
          const fresh = look(beginPlan(flow, kase, "2026-05-04"), "2026-05-11", "new");
          const done = converse(flow, fresh, picks);
          expect(nextQuestion(flow, done)).toBeNull();
          const about = flow.prompts.filter(
            ({ question }) => question.id !== flow.edition.conversation.opening,
          );
          const asked = about.filter(({ question }) => done.answers.some(({ to }) => to === question.id));
          expect(asked.length).toBeLessThanOrEqual(2 * flow.edition.conversation.mostQuestions);
          const verdict = judge(flow, done);
          const plan = makePlan(flow, done, verdict);
          expect(findPlanFaults(flow, plan, verdict.standing, know(flow, done))).toEqual([]);
        },
      ),
      { numRuns: 150 },
    );
  });
});

/** A conversation and the looks after it, answered at random. */
const looked = fc
  .tuple(
    arbitraryConversation(flow),
    fc.array(fc.constantFrom("better", "same", "worse", "new", NOT_SURE), { maxLength: 5 }),
    fc.array(fc.nat(1000), { minLength: 40, maxLength: 40 }),
  )
  .map(([kase, words, picks]) =>
    words.reduce(
      (given, word, i) =>
        converse(flow, takeLook(flow, given, word, `2026-06-${10 + i}`), picks.slice(i * 8, i * 8 + 8)),
      beginPlan(flow, kase, "2026-06-01"),
    ),
  );

describe("carried along", () => {
  it("link and code of a second look carry it, and the first case with it", () => {
    fc.assert(
      fc.property(looked, (kase) => {
        const linked = readLink(flow, writeLink(flow, kase));
        expect(linked.problems).toEqual([]);
        expect(linked.case.answers).toEqual(kase.answers);
        const coded = readCode(() => flow, writeCode(flow, kase));
        expect(coded.ok && answerSet(coded.case)).toEqual(answerSet(kase));
        expect(coded.ok && answerSet(firstCase(flow, coded.case))).toEqual(answerSet(firstCase(flow, kase)));
        if (coded.ok) expect(secondLook(flow, coded.case)).toEqual(secondLook(flow, kase));
      }),
      { numRuns: 200 },
    );
  });

  it("the same answers in any order lead to the same", () => {
    fc.assert(
      fc.property(arbitraryReordered(flow), ({ kase, reordered }) => {
        expect(secondLook(flow, reordered)).toEqual(secondLook(flow, kase));
        expect(nextQuestion(flow, reordered)?.id).toBe(nextQuestion(flow, kase)?.id);
      }),
      { numRuns: 200 },
    );
  });

  it("a code with a day grows by a handful of characters", () => {
    const first = writeCode(flow, mites).length;
    expect(writeCode(flow, begun).length - first).toBeLessThanOrEqual(6);
    expect(writeCode(flow, look(begun, "2026-05-11", "better")).length - first).toBeLessThanOrEqual(14);
  });

  it.each(["began=2026-02-30", "began=yes", "looked=1999-01-01", "look-again=fine", "look-again-9=same"])(
    "“%s” in a link is named and the rest kept",
    (part) => {
      const { case: kase, problems } = readLink(flow, `e=1&fine-webbing=yes&${part}`);
      expect(problems).toHaveLength(1);
      expect(kase.answers).toEqual([{ to: "fine-webbing", is: "yes" }]);
    },
  );
});

describe("the statechart", () => {
  const outcomeState = (of: Flow, kase: Case) => {
    const { kind } = secondLook(of, kase).outcome;
    return (lookStates as readonly string[]).includes(kind) ? kind : judge(of, kase).standing;
  };

  it("asks when the day has come, and stands where the pure functions say", () => {
    const machine = buildMachine(flow);
    let [state] = initialTransition(machine, { case: begun });
    [state] = transition(machine, state, { type: "look again", today: "2026-05-04" });
    expect(state.value).toBe(judge(flow, begun).standing);
    [state] = transition(machine, state, { type: "look again", today: "2026-05-11" });
    expect(state.value).toBe("look-again");
    for (const [question, is, then] of [
      ["look-again", "same", "tried"],
      ["tried", "mechanical", "technique"],
      ["technique", "interval", "continue"],
    ] as const) {
      [state] = transition(machine, state, { type: "answer", question, is });
      expect(state.value).toBe(then);
    }
  });

  it("agrees on random looks", () => {
    const machine = buildMachine(flow);
    fc.assert(
      fc.property(looked, (kase) => {
        const [state] = initialTransition(machine, { case: kase });
        expect(state.value).toBe(nextQuestion(flow, kase)?.id ?? outcomeState(flow, kase));
      }),
      { numRuns: 100 },
    );
  });

  it("every method has a place in the question about what was done", () => {
    expect(flow.question("tried")?.options.map(({ id }) => id)).toEqual([...methods]);
  });
});
