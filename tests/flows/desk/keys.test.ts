import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { newCase } from "../../../flows/case.ts";
import { replayHistory } from "../../../flows/case-history.ts";
import { assignLetters, keysNow, readKeys } from "../../../flows/desk/keys.ts";
import { NOT_SURE } from "../../../flows/flow.ts";
import { loadHistories } from "../../support/histories.ts";
import { arbitraryCase, possibleAnswers } from "../../support/random-case.ts";
import { shippedFlow } from "../../support/shipped-flow.ts";
import { tinyFlow } from "../../support/tiny-flow.ts";
import { blurt, deskOf, median, pressesFor, readPresses, typeCase } from "./key-strokes.ts";

const flow = shippedFlow();
const histories = [...loadHistories("open"), ...loadHistories("vignettes")];
const cases = histories.map((history) => replayHistory(flow, history).case);

describe("letters", () => {
  test.each([flow, tinyFlow()])("every question has one, and no three share it", (some) => {
    const letters = assignLetters(some);
    const asked = [...some.promptById.keys(), some.hostQuestion?.id ?? ""];
    expect(asked.filter((id) => !/^[a-z]$/.test(letters.get(id) ?? ""))).toEqual([]);
    const repeats = /-[2-4]$/;
    const shared = new Map<string, string[]>();
    for (const [id, letter] of letters) {
      if (!repeats.test(id)) shared.set(letter, [...(shared.get(letter) ?? []), id]);
    }
    expect([...shared.values()].filter((ids) => ids.length > 2)).toEqual([]);
  });

  test("the plant's is h and its own", () => {
    const letters = assignLetters(flow);
    expect(letters.get("host")).toBe("h");
    expect([...letters.values()].filter((letter) => letter === "h")).toEqual(["h"]);
  });

  test("never change while a case goes on", () => {
    const none = keysNow(flow, new Set());
    const some = keysNow(flow, new Set(["tap-test", "traces"]));
    for (const [id, key] of some.keyOf) expect(key.charAt(0)).toBe(none.keyOf.get(id)?.charAt(0));
  });

  test("open questions of the case histories are chosen by one press", () => {
    const twice = cases.flatMap((kase) => {
      const desk = deskOf(flow, kase);
      const open = desk.open.flatMap(({ questions }) => questions);
      return open.filter(({ id }) => (desk.keys.keyOf.get(id)?.length ?? 9) > 1).map(({ id }) => id);
    });
    expect(twice).toEqual([]);
  });
});

describe("presses", () => {
  test("give any answer to any question at any time", () => {
    const answers = possibleAnswers(flow).filter(({ to }) => flow.question(to) !== undefined);
    fc.assert(
      fc.property(arbitraryCase(flow), fc.constantFrom(...answers), (kase, answer) => {
        const desk = deskOf(flow, kase);
        expect(readPresses(flow, desk, pressesFor(flow, desk, answer))).toEqual(answer);
      }),
      { numRuns: 150 },
    );
  });

  test("never do anything by accident: whatever is typed is read, and only whole keys answer", () => {
    const desk = deskOf(flow, newCase(flow));
    const best = desk.best?.question.id ?? null;
    fc.assert(
      fc.property(fc.string(), (typed) => {
        const reading = readKeys(flow, desk.keys, best, typed);
        if (reading.kind !== "answer") return;
        const known =
          reading.is === NOT_SURE || flow.question(reading.to)?.options.some(({ id }) => id === reading.is);
        expect(known).toBe(true);
        expect(typed.length).toBeLessThanOrEqual(3);
      }),
    );
  });

  test.each([
    ["3", { kind: "answer", to: "what-you-see", is: "bumps" }],
    ["0", { kind: "answer", to: "what-you-see", is: NOT_SURE }],
    ["h", { kind: "question", to: "host" }],
    ["h0", { kind: "answer", to: "host", is: NOT_SURE }],
    ["hPeace l", { kind: "plant", to: "host", name: "peace l", pick: null }],
    ["hbas2", { kind: "plant", to: "host", name: "bas", pick: 1 }],
    ["/brown tips", { kind: "words", words: "brown tips" }],
    [" brown", { kind: "words", words: "brown" }],
    ["?", { kind: "command", command: "keys" }],
    [".", { kind: "command", command: "hand-over" }],
    [",", { kind: "command", command: "take-over" }],
    ["", { kind: "empty" }],
    ["12", { kind: "unknown" }],
    ["é", { kind: "unknown" }],
  ])("%j is read as it should", (typed, reading) => {
    const desk = deskOf(flow, newCase(flow));
    expect(readKeys(flow, desk.keys, desk.best?.question.id ?? null, typed)).toEqual(reading);
  });
});

describe("keystrokes over the case histories", () => {
  test("median 2 or less for each answer, in turn and blurted out", () => {
    const inTurn = cases.map((kase) => typeCase(flow, kase.answers));
    // Nobody blurts out that they do not know.
    const told = cases.map((kase) => typeCase(flow, blurt(kase.answers.filter(({ is }) => is !== NOT_SURE))));
    expect([...inTurn, ...told].flatMap(({ failed }) => failed)).toEqual([]);
    const counts = (some: typeof inTurn) => some.flatMap((one) => one.counts);
    const figures = {
      inTurn: { median: median(counts(inTurn)), worst: Math.max(...counts(inTurn)) },
      blurted: { median: median(counts(told)), worst: Math.max(...counts(told)) },
      aCall: median(inTurn.map((one) => one.counts.reduce((sum, count) => sum + count, 0))),
    };
    console.info("keystrokes:", JSON.stringify(figures));
    expect(figures.inTurn.median).toBe(1);
    expect(figures.blurted.median).toBeLessThanOrEqual(2);
  });
});
