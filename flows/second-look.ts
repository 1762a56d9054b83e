import { answerTo, type Case } from "./case.ts";
import { type Method, methods } from "./edition.ts";
import { type Flow, MOST_LOOKS, NOT_SURE, type Prompt } from "./flow.ts";
import { makePlan, type Plan } from "./plan.ts";
import { judge, type Verdict } from "./verdict.ts";

/** What a look finds; `not-sure` counts as no change. */
export const lookWords = ["better", "same", "worse", "new"] as const;
export type LookWord = (typeof lookWords)[number] | typeof NOT_SURE;

export const sampleReasons = [
  "two-rounds",
  "worse-under-chemical",
  "tried-unknown",
  "nothing-left",
  "undetermined",
  "last-look",
] as const;
export type SampleReason = (typeof sampleReasons)[number];

/** What a look leads to. */
export type LookOutcome =
  /** No look has been taken. */
  | { kind: "none" }
  /** Better: finish the rounds, then prevent. */
  | { kind: "finish" }
  /** Go on with the same. `mend`: the option of the technique question that names what went wrong, or null. */
  | { kind: "continue"; mend: string | null; checkTechnique: boolean }
  /** One method further in the plan. */
  | { kind: "step-up"; from: Method; to: Method }
  /** New signs: the questions are open again, and the verdict is that of all answers together. */
  | { kind: "reopen" }
  | { kind: "sample"; because: SampleReason };

/** Either something must still be asked, or the look is over. */
export type LookDecision = { ask: "tried" | "technique" } | LookOutcome;

/** All that a look depends on besides its own answers: it knows nothing of the way that led to the plan. */
export interface LookGround {
  undetermined: boolean;
  /** Methods of the plan's treating steps, gentlest first. */
  ladder: readonly Method[];
}

export interface LookAnswers {
  looks: readonly LookWord[];
  /** A method, "not-sure", or undefined when not asked yet. */
  tried: string | undefined;
  technique: string | undefined;
  /** The option of the technique question that says all was done. */
  allDone: string | undefined;
}

/** The rules of the second look. */
export function decideLook(ground: LookGround, answers: LookAnswers): LookDecision {
  const { looks } = answers;
  const last = looks.at(-1);
  if (last === undefined) return { kind: "none" };
  if (last === "better") return { kind: "finish" };
  if (last === "new") return { kind: "reopen" };
  if (ground.undetermined) return { kind: "sample", because: "undetermined" };
  if (isNoBetter(looks.at(-2))) return { kind: "sample", because: "two-rounds" };
  if (looks.length >= MOST_LOOKS) return { kind: "sample", because: "last-look" };
  const { ladder } = ground;
  const tried = ladder.length > 1 ? answers.tried : (ladder[0] ?? "cultural");
  if (tried === undefined) return { ask: "tried" };
  const rung = methods.find((method) => method === tried);
  return last === "worse" ? decideWorse(ladder, rung) : decideSame(ladder, rung, answers);
}

function isNoBetter(word: LookWord | undefined): boolean {
  return word === "same" || word === "worse" || word === NOT_SURE;
}

function decideWorse(ladder: readonly Method[], rung: Method | undefined): LookOutcome {
  // What was used is not known: it may have been a chemical.
  if (rung === undefined) return { kind: "sample", because: "tried-unknown" };
  if (rung === "chemical") return { kind: "sample", because: "worse-under-chemical" };
  return stepUp(ladder, rung);
}

function decideSame(
  ladder: readonly Method[],
  rung: Method | undefined,
  { technique, allDone }: LookAnswers,
): LookDecision {
  if (rung === undefined) return { kind: "continue", mend: null, checkTechnique: true };
  if (rung === "cultural") {
    // Care takes its time: where nothing stronger is planned, the same once more is right.
    const goOn: LookOutcome = { kind: "continue", mend: null, checkTechnique: false };
    return above(ladder, rung) ? stepUp(ladder, rung) : goOn;
  }
  if (technique === undefined) return { ask: "technique" };
  if (technique === allDone) return stepUp(ladder, rung);
  return { kind: "continue", mend: technique === NOT_SURE ? null : technique, checkTechnique: true };
}

function above(ladder: readonly Method[], rung: Method): Method | undefined {
  return ladder.find((method) => methods.indexOf(method) > methods.indexOf(rung));
}

function stepUp(ladder: readonly Method[], rung: Method): LookOutcome {
  const next = above(ladder, rung);
  return next ? { kind: "step-up", from: rung, to: next } : { kind: "sample", because: "nothing-left" };
}

/** The looks of a case, in order. A look counts only when the one before it was answered. */
export function readLooks(flow: Flow, kase: Case): LookWord[] {
  const words: LookWord[] = [];
  for (const { question } of flow.looks?.again ?? []) {
    const is = answerTo(kase, question.id);
    if (is === undefined) break;
    words.push(is as LookWord);
  }
  return words;
}

/** How many looks reopened the questions, and were told what is new. */
export function countReopened(flow: Flow, answered: ReadonlySet<string>): number {
  return flow.looks?.reopenings.filter(({ question }) => answered.has(question.id)).length ?? 0;
}

/** The question about what is new, while it is due. */
export function dueReopening(flow: Flow, kase: Case): Prompt | undefined {
  const looks = readLooks(flow, kase);
  const due = flow.looks?.reopenings.filter((_, i) => looks[i] === "new") ?? [];
  return due.find(({ question }) => answerTo(kase, question.id) === undefined);
}

/** What the latest look still has to ask: what was tried, then how. */
export function dueLookPrompt(flow: Flow, kase: Case): Prompt | undefined {
  if (!flow.looks || readLooks(flow, kase).length === 0) return undefined;
  const verdict = judge(flow, kase);
  const decision = decideLook(
    groundOf(flow, verdict, makePlan(flow, kase, verdict)),
    readAnswers(flow, kase),
  );
  return "ask" in decision ? flow.looks[decision.ask] : undefined;
}

/** What a plan gives a look to stand on. Steps that prevent, and last resorts, are no treatment. */
export function groundOf(flow: Flow, { standing }: Pick<Verdict, "standing">, plan: Plan): LookGround {
  const used = new Set(treatingSteps(flow, plan).map(({ method }) => method));
  return { undetermined: standing === "undetermined", ladder: methods.filter((method) => used.has(method)) };
}

export function treatingSteps(flow: Flow, plan: Plan) {
  return plan.steps.flatMap(({ remedy: id, phase }) => {
    const remedy = flow.remedy(id);
    return remedy && phase !== "prevent" && remedy.lastResort !== true ? [remedy] : [];
  });
}

function readAnswers(flow: Flow, kase: Case): LookAnswers {
  const { looks } = flow;
  return {
    looks: readLooks(flow, kase),
    tried: looks && answerTo(kase, looks.tried.question.id),
    technique: looks && answerTo(kase, looks.technique.question.id),
    allDone: allDoneOption(flow),
  };
}

export function allDoneOption(flow: Flow): string | undefined {
  return flow.looks?.technique.question.options.find(({ none }) => none)?.id;
}

/** The latest look of a case: what it leads to, and the steps it leads to. */
export interface SecondLook {
  /** Looks taken so far. */
  taken: number;
  /** "none" also while something must still be asked. */
  outcome: LookOutcome;
  /** Remedies to do now, from this very plan: all of it, what the step up adds, or what prevents. */
  remedies: string[];
  bringSample: boolean;
}

/** What the looks of a case lead to. Depends on the set of answers, never on their order. */
export function secondLook(flow: Flow, kase: Case, verdict = judge(flow, kase)): SecondLook {
  const plan = makePlan(flow, kase, verdict);
  const answers = readAnswers(flow, kase);
  const decision = decideLook(groundOf(flow, verdict, plan), answers);
  const outcome: LookOutcome = "ask" in decision ? { kind: "none" } : decision;
  return {
    taken: answers.looks.length,
    outcome,
    remedies: remediesFor(flow, plan, outcome),
    bringSample: verdict.bringSample || outcome.kind === "sample",
  };
}

function remediesFor(flow: Flow, plan: Plan, outcome: LookOutcome): string[] {
  const all = plan.steps.map(({ remedy }) => remedy);
  switch (outcome.kind) {
    case "step-up": {
      const added = treatingSteps(flow, plan).filter(({ method }) => method === outcome.to);
      // Of one method only the gentlest: the most toxic step is never the first.
      const least = Math.min(...added.map(({ toxicity }) => toxicity));
      return added.filter(({ toxicity }) => toxicity === least).map(({ id }) => id);
    }
    case "sample":
      // What a bench has to name is not sprayed again before it is seen.
      return all.filter((id) => flow.remedy(id)?.method !== "chemical");
    default:
      return all;
  }
}
