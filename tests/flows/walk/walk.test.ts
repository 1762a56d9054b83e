import { describe, expect, it } from "vitest";
import { type Case, giveAnswer, know, newCase } from "../../../flows/case.ts";
import type { Edition, Standing } from "../../../flows/edition.ts";
import { type Flow, NOT_SURE, openFlow } from "../../../flows/flow.ts";
import { nextQuestion } from "../../../flows/next-question.ts";
import { makePlan } from "../../../flows/plan.ts";
import { type LookOutcome, type LookWord, secondLook } from "../../../flows/second-look.ts";
import { lookDue } from "../../../flows/second-look-due.ts";
import { judge } from "../../../flows/verdict.ts";
import { findPlanFaults } from "../../../flows/walk/plan-invariants.ts";
import { findLookFaults } from "../../../flows/walk/second-look.ts";
import { walk } from "../../../flows/walk/walk.ts";
import { tinyFlow } from "../../support/tiny-flow.ts";

/** Every conversation one by one, through the same function that the server asks: the oracle for the walker. */
function countOneByOne(flow: Flow): {
  conversations: number;
  longest: number;
  byStanding: Record<Standing, number>;
} {
  const byStanding = { undetermined: 0, leaning: 0, suspected: 0 };
  let longest = 0;
  const follow = (kase: Case, asked: number) => {
    const next = nextQuestion(flow, kase);
    if (!next) {
      byStanding[judge(flow, kase).standing]++;
      longest = Math.max(longest, asked);
      return;
    }
    const replies =
      next.kind === "host"
        ? [...flow.edition.hosts.map(({ id }) => id), NOT_SURE]
        : [...next.options.map(({ id }) => id), NOT_SURE];
    for (const is of replies) follow(giveAnswer(flow, kase, next.id, is).case, asked + 1);
  };
  follow(newCase(flow), 0);
  const conversations = byStanding.undetermined + byStanding.leaning + byStanding.suspected;
  return { conversations, longest, byStanding };
}

function change(edit: (edition: Edition) => void): Flow {
  const edition = structuredClone(tinyFlow().edition);
  edit(edition);
  return openFlow(edition);
}

function broken(edit: (edition: Edition) => void): string[] {
  return walk(change(edit)).violations.map(({ invariant }) => invariant);
}

describe("walking every conversation", () => {
  it("counts exactly what following them one by one counts", () => {
    const flow = tinyFlow();
    const { conversations, longest, byStanding } = countOneByOne(flow);
    const report = walk(flow);
    expect(Number(report.conversations)).toBe(conversations);
    expect(report.longest).toBe(longest);
    expect(Object.fromEntries(Object.entries(report.byStanding).map(([k, n]) => [k, Number(n)]))).toEqual(
      byStanding,
    );
  });

  it("counts exactly with other limits and weights too", () => {
    for (const most of [1, 2, 3]) {
      const flow = change((edition) => {
        edition.conversation.mostQuestions = most;
        edition.weights.reach = most * 4;
      });
      expect(Number(walk(flow).conversations)).toBe(countOneByOne(flow).conversations);
    }
  });
});

/** Every look after every conversation, one by one, through the functions that the server asks. */
function countLooksOneByOne(flow: Flow): { conversations: number; byOutcome: Record<string, number> } {
  const byOutcome: Record<string, number> = {};
  const replies = (id: string) =>
    flow.hostQuestion?.id === id
      ? [...flow.edition.hosts.map((host) => host.id), NOT_SURE]
      : (flow.promptById.get(id)?.replies.map((reply) => reply.id) ?? []);
  const follow = (kase: Case) => {
    const { outcome } = secondLook(flow, kase);
    const next = outcome.kind === "reopen" ? null : nextQuestion(flow, kase);
    if (next) {
      for (const is of replies(next.id)) follow(giveAnswer(flow, kase, next.id, is).case);
      return;
    }
    const { question } = lookDue(flow, kase, "2026-06-01");
    if (outcome.kind === "reopen" || !question) {
      byOutcome[outcome.kind] = (byOutcome[outcome.kind] ?? 0) + 1;
      return;
    }
    for (const is of replies(question.id)) follow(giveAnswer(flow, kase, question.id, is).case);
  };
  follow(newCase(flow));
  return { conversations: Object.values(byOutcome).reduce((sum, n) => sum + n, 0), byOutcome };
}

describe("walking the second look", () => {
  it("counts exactly what following every look one by one counts", { timeout: 300_000 }, () => {
    const flow = tinyFlow();
    const { conversations, byOutcome } = countLooksOneByOne(flow);
    const { looks } = walk(flow);
    expect(Number(looks.conversations)).toBe(conversations);
    const counted = Object.entries(looks.byOutcome).filter(([, ways]) => ways > 0n);
    expect(Object.fromEntries(counted.map(([kind, ways]) => [kind, Number(ways)]))).toEqual(byOutcome);
  });

  it("keeps every plan after new signs free of faults, one by one", { timeout: 300_000 }, () => {
    const flow = tinyFlow();
    const ends: Case[] = [];
    const follow = (kase: Case, reopened: boolean) => {
      const next = nextQuestion(flow, kase);
      if (!next) {
        if (reopened) ends.push(kase);
        else follow(giveAnswer(flow, kase, "look-again", "new").case, true);
        return;
      }
      // Two plants and two households are enough here: the walk goes through all of them.
      const all =
        next.kind === "host" ? ["basil", NOT_SURE] : [...next.options.map(({ id }) => id), NOT_SURE];
      const replies = next.kind === "fact" ? [all[0] ?? "", NOT_SURE] : all;
      for (const is of replies) {
        if (next.kind === "host" && is !== NOT_SURE && !flow.host(is)) continue;
        follow(giveAnswer(flow, kase, next.id, is).case, reopened);
      }
    };
    follow(newCase(flow), false);
    expect(ends.length).toBeGreaterThan(100);
    for (const kase of ends) {
      const verdict = judge(flow, kase);
      const plan = makePlan(flow, kase, verdict);
      expect(findPlanFaults(flow, plan, verdict.standing, know(flow, kase))).toEqual([]);
    }
  });

  it("notices rules that break an invariant", () => {
    const ground = { undetermined: false, ladder: ["cultural", "mechanical", "chemical"] as const };
    const answers = { tried: "chemical", technique: "none", allDone: "none" };
    const faults = (looks: LookWord[], outcome: LookOutcome) =>
      findLookFaults(ground, { ...answers, looks }, outcome).map((fault) => fault.split(":")[0]);
    const goOn = { kind: "continue", mend: null, checkTechnique: true } as const;
    expect(faults(["same", "same"], goOn)).toContain("SAMPLE_AFTER_TWO_ROUNDS");
    expect(faults(["worse"], goOn)).toContain("SAMPLE_WHEN_WORSE");
    expect(faults(["better"], goOn)).toContain("BETTER_FINISHES");
    expect(faults(["same"], { kind: "step-up", from: "cultural", to: "chemical" })).toContain("ONE_STEP_UP");
    expect(
      findLookFaults({ ...ground, undetermined: true }, { ...answers, looks: ["same"] }, goOn)[0],
    ).toContain("NO_STEP_WHEN_UNDETERMINED");
  });
});

describe("invariants are noticed when broken", () => {
  it("finds nothing wrong with the tiny content's plans", () => {
    const found = walk(tinyFlow()).violations.map(({ invariant }) => invariant);
    expect(found.filter((name) => !name.startsWith("EVERY_"))).toEqual([]);
  });

  it("a systemic that food plants could get", () => {
    const found = broken((edition) => {
      for (const remedy of edition.remedies) {
        if (remedy.toxicity !== 3) continue;
        remedy.neverWhen = [];
        remedy.forFoodPlants = true;
        remedy.needsStanding = "leaning";
      }
    });
    expect(found).toContain("FOOD_PLANT_SAFE");
  });

  it("the most toxic step first", () => {
    const found = broken((edition) => {
      for (const condition of edition.conditions) condition.plan = ["soap-spray"];
    });
    expect(found).toContain("MOST_TOXIC_NEVER_FIRST");
  });

  it("a chemical step while nothing is certain: refused even if the content asks for it", () => {
    const found = broken((edition) => {
      edition.conversation.firstAid = ["soap-spray"];
    });
    expect(found).toContain("PLAN_NOT_EMPTY");
    expect(found).not.toContain("NO_CHEMICAL_WHEN_UNDETERMINED");
  });

  it("a question that can never be asked", () => {
    const found = broken((edition) => {
      const last = edition.questions.findLast(
        ({ kind, id }) => kind === "finding" && id !== edition.conversation.opening,
      );
      if (last)
        last.askWhen = { any: [edition.findings[0]?.id ?? ""], none: [edition.findings[0]?.id ?? ""] };
    });
    expect(found).toContain("EVERY_QUESTION_ASKABLE");
  });

  it("a condition that nothing leads to", () => {
    const found = broken((edition) => {
      const [condition] = edition.conditions;
      if (condition) condition.evidence = { hallmark: [], supports: [], against: [], excludes: [] };
    });
    expect(found).toContain("EVERY_CONDITION_REACHABLE");
  });
});
