import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readLink } from "../../../flows/case-link.ts";
import { openCauses } from "../../../flows/compare/causes.ts";
import { compareEditions } from "../../../flows/compare/compare.ts";
import type { Edition } from "../../../flows/edition.ts";
import { openFlow } from "../../../flows/flow.ts";
import { nextQuestion } from "../../../flows/next-question.ts";
import { makePlan } from "../../../flows/plan.ts";
import { runToEnd } from "../../../flows/progress.ts";
import { judge } from "../../../flows/verdict.ts";
import { arbitraryEdits, smallEdition } from "./random-edits.ts";

function edit(...changes: ((edition: Edition) => void)[]): Edition {
  const draft = smallEdition();
  for (const change of changes) change(draft);
  return draft;
}

const hallmark = (edition: Edition) => {
  const evidence = edition.conditions.find(({ id }) => id === "mealybugs")?.evidence;
  evidence?.hallmark.push("white-stuff-untested");
  if (evidence) evidence.supports = [];
};
const dryPlan = (edition: Edition) => {
  const condition = edition.conditions.find(({ id }) => id === "overwatering");
  condition?.plan.push("isolate");
};

describe("causes", () => {
  it("tell two changes apart, group by group", () => {
    const live = smallEdition();
    const draft = edit(hallmark, dryPlan);
    const { explain, units } = openCauses(live, draft);
    expect(units.map(({ sentence }) => sentence).sort()).toEqual([
      "Mealybugs: “something white” moved from supports to hallmark.",
      "Too much water: the plan changed.",
    ]);
    const { groups } = runToEnd(compareEditions(live, draft));
    const causes = groups.map(
      (group) =>
        `${group.kind} ${group.to.leader}: ${explain(group).map(({ id, alone }) => `${id} ${alone}`)}`,
    );
    expect(causes).toContain("plan overwatering: overwatering true");
    expect(causes.some((cause) => /mealybugs: mealybugs true$/.test(cause))).toBe(true);
    expect(causes.some((cause) => /,/.test(cause))).toBe(false);
  });

  it("name at least one change for every group, whatever was edited", { timeout: 300_000 }, () => {
    const live = smallEdition();
    fc.assert(
      fc.property(arbitraryEdits(live), (draft) => {
        const { groups, same } = runToEnd(compareEditions(live, draft));
        if (same) return;
        const { explain } = openCauses(live, draft);
        for (const group of groups) expect(explain(group).length).toBeGreaterThan(0);
      }),
      { numRuns: 60 },
    );
  });
});

describe("examples", () => {
  it("are whole conversations that lead where the group says, under both editions", {
    timeout: 300_000,
  }, () => {
    const live = smallEdition();
    fc.assert(
      fc.property(arbitraryEdits(live), (draft) => {
        const flows = { live: openFlow(live), draft: openFlow(draft) };
        for (const { example, from, to } of runToEnd(compareEditions(live, draft)).groups) {
          for (const [side, end] of [
            ["live", from],
            ["draft", to],
          ] as const) {
            const { case: kase, problems } = readLink(flows[side], example[side].link);
            expect(problems).toEqual([]);
            expect(nextQuestion(flows[side], kase)).toBeNull();
            const verdict = judge(flows[side], kase);
            expect(verdict.standing).toBe(end.standing);
            if (end.leader) expect([verdict.leader, verdict.beside]).toEqual([end.leader, end.beside]);
            const steps = makePlan(flows[side], kase, verdict).steps.map(({ remedy }) => remedy);
            expect(example[side].steps).toEqual(steps);
          }
        }
      }),
      { numRuns: 60 },
    );
  });
});
