import { describe, expect, it, vi } from "vitest";
import { writeCode } from "../../flows/case-code.ts";
import { type CaseHistory, type Replay, replayHistory, scoreReplays } from "../../flows/case-history.ts";
import { writeLink } from "../../flows/case-link.ts";
import { NOT_SURE } from "../../flows/flow.ts";
import { loadHistories } from "../support/histories.ts";
import { shippedFlow } from "../support/shipped-flow.ts";
import { tinyFlow } from "../support/tiny-flow.ts";

// Slow machines may take their time.
vi.setConfig({ testTimeout: 60_000 });

const flow = tinyFlow();

function history(given: Partial<CaseHistory> & { id: string }): CaseHistory {
  return {
    plant: "",
    present: [],
    absent: [],
    household: { edible: null, pets: null, children: null },
    accept: [],
    also: [],
    in_scope: true,
    ...given,
  };
}

const replies = (given: Partial<CaseHistory>) =>
  Object.fromEntries(
    replayHistory(flow, history({ id: "x", ...given })).case.answers.map(({ to, is }) => [to, is]),
  );

describe("the simulated shopper", () => {
  it("is sure of nothing when the history tells nothing", () => {
    expect(new Set(Object.values(replies({})))).toEqual(new Set([NOT_SURE]));
  });

  it("answers with what is present, also where a sharper finding implies it", () => {
    expect(replies({ present: ["white-cottony-tufts"] })).toMatchObject({
      "what-you-see": "white",
      "white-look": "tufts",
    });
  });

  it("says “none of these” only when all of them are known to be absent", () => {
    const white = ["white-stuff-untested"];
    const both = ["white-cottony-tufts", "white-film-wipes-off"];
    expect(replies({ present: white, absent: both })["white-look"]).toBe("nothing");
    expect(replies({ present: white, absent: both.slice(0, 1) })["white-look"]).toBe(NOT_SURE);
  });

  it("names the plant when the history does", () => {
    expect(replies({ plant: "Jade plant (about ten years old)" }).host).toBe("jade-plant");
    expect(replies({ plant: "some shrub" }).host).toBe(NOT_SURE);
  });

  it("tells of the household what the history tells", () => {
    const sick = { present: ["white-cottony-tufts"], plant: "jade plant" };
    expect(replies({ ...sick, household: { edible: null, pets: true, children: false } }).household).toBe(
      "pets",
    );
    expect(replies({ ...sick, household: { edible: null, pets: true, children: null } }).household).toBe(
      NOT_SURE,
    );
  });
});

describe("scoreReplays", () => {
  const replay = (given: Partial<Replay> & { id: string }): Replay => ({
    ...replayHistory(flow, history({ id: given.id })),
    questions: 5,
    standing: "leaning",
    firstThree: ["a", "b", "c"],
    ...given,
  });

  it("counts what was right first, among three, and when sure", () => {
    const histories = [
      history({ id: "1", accept: ["a"] }),
      history({ id: "2", accept: ["c"] }),
      history({ id: "3", accept: ["z"], also: ["a"] }),
      history({ id: "4", accept: ["z"] }),
    ];
    const replays = [
      replay({ id: "1", standing: "suspected", questions: 2 }),
      replay({ id: "2", questions: 9 }),
      replay({ id: "3", standing: "suspected" }),
      replay({ id: "4", standing: "suspected" }),
    ];
    expect(scoreReplays(histories, replays)).toEqual({
      inScope: 4,
      rightFirst: 0.25,
      rightInThree: 0.5,
      rightWhenSuspected: 0.667,
      suspected: 3,
      samplesSuspected: 1,
      medianQuestions: 5,
      longest: 9,
    });
  });

  it("counts a case without a right answer only among the samples, and leaves out what is out of scope", () => {
    const histories = [
      history({ id: "1" }),
      history({ id: "2" }),
      history({ id: "3", accept: ["a"], in_scope: false }),
    ];
    const replays = histories.map(({ id }) =>
      replay({ id, standing: id === "1" ? "suspected" : "undetermined" }),
    );
    expect(scoreReplays(histories, replays)).toMatchObject({
      inScope: 0,
      suspected: 0,
      samplesSuspected: 0.5,
    });
  });
});

describe.each([
  ["open", { rightFirst: 0.65, rightWhenSuspected: 0.95, samplesSuspected: 0.1, rightInThree: 0 }],
  ["vignettes", { rightFirst: 0.9, rightWhenSuspected: 0.98, samplesSuspected: 0, rightInThree: 0.98 }],
] as const)("the %s cases", (name, floor) => {
  const shipped = shippedFlow();
  const histories = loadHistories(name);
  const replays = histories.map((each) => replayHistory(shipped, each));
  const total = scoreReplays(histories, replays);

  it("are all there", () => {
    expect(histories.length).toBeGreaterThan(90);
    expect(total.inScope).toBeGreaterThanOrEqual(80);
  });

  it("come out right as often as promised", () => {
    expect(total.rightFirst).toBeGreaterThanOrEqual(floor.rightFirst);
    expect(total.rightInThree).toBeGreaterThanOrEqual(floor.rightInThree);
    expect(total.rightWhenSuspected).toBeGreaterThanOrEqual(floor.rightWhenSuspected);
    expect(total.samplesSuspected).toBeLessThanOrEqual(floor.samplesSuspected);
  });

  it("take no more questions than promised", () => {
    expect(total.medianQuestions).toBeLessThanOrEqual(7);
    expect(total.longest).toBeLessThanOrEqual(14);
  });

  it("give links of at most 300 and codes of at most 12 characters", () => {
    const links = replays.map((replay) => writeLink(shipped, replay.case).length);
    const codes = replays.map((replay) => writeCode(shipped, replay.case).length);
    expect(Math.max(...links)).toBeLessThanOrEqual(300);
    expect(Math.max(...codes)).toBeLessThanOrEqual(12);
  });
});
