import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { answerTo, giveAnswer, newCase } from "../../../flows/case.ts";
import { replayHistory } from "../../../flows/case-history.ts";
import { findPlants, findReplies } from "../../../flows/desk/find-replies.ts";
import { groupOf } from "../../../flows/desk/groups.ts";
import { keepPlaces } from "../../../flows/desk/places.ts";
import { nextQuestion, openQuestions } from "../../../flows/next-question.ts";
import { judge } from "../../../flows/verdict.ts";
import { caseOf } from "../../support/cases.ts";
import { loadHistories } from "../../support/histories.ts";
import { arbitraryCase } from "../../support/random-case.ts";
import { shippedFlow } from "../../support/shipped-flow.ts";
import { deskOf } from "./key-strokes.ts";

const flow = shippedFlow();

describe("the desk", () => {
  test("shows each question once, all open ones among them, and the best is the next", () => {
    fc.assert(
      fc.property(arbitraryCase(flow), (kase) => {
        const desk = deskOf(flow, kase);
        const best = desk.best ? [desk.best.question.id] : [];
        const open = desk.open.flatMap(({ questions }) => questions.map(({ id }) => id));
        const others = desk.others.flatMap(({ questions }) => questions.map(({ id }) => id));
        expect(best).toEqual([nextQuestion(flow, kase)?.id].filter((id) => id !== undefined));
        expect([...best, ...open]).toEqual(
          expect.arrayContaining(openQuestions(flow, kase).map(({ id }) => id)),
        );
        const all = [...best, ...open, ...others];
        expect(new Set(all).size).toBe(all.length);
        for (const { question } of [...flow.prompts, ...flow.factPrompts]) {
          expect(all.includes(question.id) || answerTo(kase, question.id) !== undefined, question.id).toBe(
            true,
          );
        }
      }),
      { numRuns: 60 },
    );
  });

  test("gives a reason for every best question, and what it promises comes true", () => {
    for (const history of loadHistories("vignettes")) {
      const { answers } = replayHistory(flow, history).case;
      for (let i = 0; i <= answers.length; i++) {
        const kase = { edition: 1, answers: answers.slice(0, i) };
        const { best, separation } = deskOf(flow, kase);
        if (best?.because.kind === "separates" || best?.because.kind === "weighs") {
          const { settles } = best.because;
          if (settles === null) continue;
          const after = judge(flow, giveAnswer(flow, kase, best.question.id, settles.is).case);
          expect([after.leader, after.standing]).toEqual([settles.leader, "suspected"]);
        }
        if (separation === null) continue;
        const weigh = (is: string) => {
          const { candidates } = judge(flow, giveAnswer(flow, kase, separation.question.id, is).case);
          const weight = (id: string) => candidates.find(({ condition }) => condition === id)?.weight ?? 0;
          return weight(separation.first) - weight(separation.second);
        };
        expect(weigh(separation.forFirst), history.id).toBeGreaterThan(weigh(separation.forSecond));
      }
    }
  });

  test("lists what stands, the leader first", () => {
    const kase = caseOf(flow, "what-you-see=marks", "host=basil", "mark-look=stipple", "tap-test=dots");
    const [first, second] = deskOf(flow, kase).rows;
    expect(first).toMatchObject({ condition: "spider-mites", rank: 1, standing: "suspected", behind: 0 });
    expect(second).toMatchObject({ rank: 2, standing: null });
    expect(second?.behind).toBeGreaterThan(0);
  });
});

describe("what a caller tells before the opening is asked", () => {
  test("stands for the opening when it can be seen on the plant", () => {
    for (const told of ["white-look=tufts", "white-cottony-tufts=yes", "mark-look=stipple"]) {
      expect(nextQuestion(flow, caseOf(flow, told))?.id, told).toBe("host");
    }
  });

  test("does not when it is about place or care alone", () => {
    for (const told of ["soil-check=soggy", "heating-season=yes", "air=dry", "host=basil"]) {
      expect(nextQuestion(flow, caseOf(flow, told))?.id, told).toBe("what-you-see");
    }
  });
});

describe("groups", () => {
  test.each([
    ["host", "plant"],
    ["what-you-see", "shows"],
    ["mark-look", "shows"],
    ["tap-test", "culprit"],
    ["soil-check", "soil"],
    ["roots-look", "soil"],
    ["light", "place"],
    ["air", "place"],
    ["salts", "care"],
    ["household", "household"],
    ["look-again", "later"],
    ["what-you-see-2", "later"],
  ])("%s stands under %s", (id, group) => {
    expect(groupOf(flow, id)).toBe(group);
  });
});

describe("words", () => {
  const open = new Set<string>();
  const found = (words: string) => findReplies(flow, open, words).map(({ to, is }) => `${to}=${is}`);

  test("find answers by the beginnings of their words, wherever they belong", () => {
    expect(found("silk web")).toContain("insect-look=webs");
    expect(found("silk web")).toContain("traces=webs");
    // The radiator plant, a peperomia, comes after what is said of radiators.
    expect(found("radiator")).toEqual(["air=vent", "host=peperomia"]);
    expect(found("zzz")).toEqual([]);
    expect(found("")).toEqual([]);
  });

  test("find those to open questions first", () => {
    const first = findReplies(flow, new Set(["traces"]), "silk web")[0];
    expect(first).toEqual({ to: "traces", is: "webs" });
  });

  test("find plants by the beginning of a name, and by near ones", () => {
    expect(findPlants(flow, "basi")[0]).toBe("basil");
    expect(findPlants(flow, "bazil")).toContain("basil");
    expect(findPlants(flow, " ")).toEqual([]);
  });
});

describe("places of a list", () => {
  const ids = fc.uniqueArray(fc.constantFrom(..."abcdefgh"));

  test("hold still while they are pointed at: no row moves, and nothing is lost", () => {
    fc.assert(
      fc.property(ids, ids, ids, (one, two, three) => {
        let places = keepPlaces([], one, false);
        for (const next of [two, three]) {
          const before = places.map(({ id }) => id);
          places = keepPlaces(places, next, true);
          expect(places.map(({ id }) => id).slice(0, before.length)).toEqual(before);
          expect(
            places
              .filter(({ isGone }) => !isGone)
              .map(({ id }) => id)
              .toSorted(),
          ).toEqual(next.toSorted());
        }
        expect(keepPlaces(places, three, false)).toEqual(three.map((id) => ({ id, isGone: false })));
      }),
    );
  });
});

test("an empty case has the opening as its best question, for what follows from it", () => {
  expect(deskOf(flow, newCase(flow)).best).toMatchObject({
    question: { id: "what-you-see" },
    because: { kind: "opening" },
  });
});
