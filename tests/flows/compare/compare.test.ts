import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compareEditions } from "../../../flows/compare/compare.ts";
import type { ChangeGroup, Comparison, EndView } from "../../../flows/compare/report.ts";
import type { Edition } from "../../../flows/edition.ts";
import { openFlow } from "../../../flows/flow.ts";
import { runToEnd } from "../../../flows/progress.ts";
import { walk } from "../../../flows/walk/walk.ts";
import { tinyFlow } from "../../support/tiny-flow.ts";
import { compareOneByOne, type Tallied } from "./one-by-one.ts";
import { arbitraryEdits, smallEdition } from "./random-edits.ts";

function tally({ pairs, differ, longer, shorter, longest, groups }: Comparison): Tallied {
  const view = ({ standing, leader, beside, bringSample }: EndView) =>
    JSON.stringify([standing, leader, beside, bringSample]);
  const detail = ({ kind, steps, questions }: ChangeGroup) =>
    ({
      verdict: "",
      plan: JSON.stringify([steps.added, steps.dropped, steps.otherwise]),
      questions: JSON.stringify([
        [...questions.added].sort(),
        [...questions.dropped].sort(),
        questions.order,
      ]),
    })[kind];
  const named: Tallied["groups"] = {};
  for (const group of groups) {
    const key = `${group.kind} ${view(group.from)} ${view(group.to)} ${detail(group)}`;
    const shortest = group.example.live.answers.length + group.example.draft.answers.length;
    const before = named[key];
    named[key] = before
      ? { pairs: before.pairs + group.pairs, shortest: Math.min(before.shortest, shortest) }
      : { pairs: group.pairs, shortest };
  }
  return { pairs, differ, longer, shorter, longest, groups: named };
}

function compare(live: Edition, draft: Edition): Tallied {
  return tally(runToEnd(compareEditions(live, draft)));
}

describe("comparing every conversation", () => {
  it("counts exactly what holding each conversation against each counts, whatever was edited", {
    timeout: 900_000,
  }, () => {
    const live = smallEdition();
    let differing = 0;
    fc.assert(
      fc.property(arbitraryEdits(live), (draft) => {
        const found = compare(live, draft);
        const oracle = compareOneByOne(live, draft);
        if (runToEnd(compareEditions(live, draft)).same) {
          expect(oracle.differ).toEqual({ verdict: 0, plan: 0, questions: 0 });
          return;
        }
        expect(found).toEqual(oracle);
        if (oracle.differ.verdict + oracle.differ.plan + oracle.differ.questions > 0) differing++;
      }),
      { numRuns: Number(process.env.COMPARE_RUNS ?? 60) },
    );
    expect(differing).toBeGreaterThan(10);
  });

  it("counts the conversations themselves when nothing that matters differs", () => {
    const { edition } = tinyFlow();
    const draft = structuredClone(edition);
    draft.conversation.mostQuestions = 40;
    const wide = structuredClone(draft);
    wide.conversation.mostQuestions = 41;
    const compared = runToEnd(compareEditions(draft, wide));
    expect(compared.pairs).toBe(Number(walk(openFlow(draft)).conversations));
    expect(compared.differ).toEqual({ verdict: 0, plan: 0, questions: 0 });
  });

  it("answers at once when only wording changed", () => {
    const { edition } = tinyFlow();
    const draft = structuredClone(edition);
    for (const condition of draft.conditions) condition.name = "Something else";
    for (const question of draft.questions) question.prompt = "Something else?";
    for (const remedy of draft.remedies) remedy.steps = [];
    const work = compareEditions(edition, draft);
    const first = work.next();
    expect(first.done).toBe(true);
    expect(first.value).toMatchObject({ same: true, groups: [] });
  });
});
