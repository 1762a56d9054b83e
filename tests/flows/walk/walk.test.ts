import { describe, expect, it } from "vitest";
import { type Case, giveAnswer, newCase } from "../../../flows/case.ts";
import type { Edition, Standing } from "../../../flows/edition.ts";
import { type Flow, NOT_SURE, openFlow } from "../../../flows/flow.ts";
import { nextQuestion } from "../../../flows/next-question.ts";
import { judge } from "../../../flows/verdict.ts";
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
