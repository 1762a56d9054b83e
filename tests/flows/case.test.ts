import fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import { answerTo, applies, giveAnswer, isAnswer, know, newCase, takeBack } from "../../flows/case.ts";
import { ABSENT, PRESENT, UNKNOWN } from "../../flows/finding-table.ts";
import { answerSet, caseOf } from "../support/cases.ts";
import { finding, host, makeFlow, question } from "../support/make-edition.ts";
import { arbitraryCase, possibleAnswers } from "../support/random-case.ts";
import { shippedFlow } from "../support/shipped-flow.ts";
import { tinyFlow } from "../support/tiny-flow.ts";

// Slow machines may take their time.
vi.setConfig({ testTimeout: 60_000 });

const flow = makeFlow({
  findings: [
    finding({ id: "white", vague: true }),
    finding({ id: "limp", vague: true }),
    finding({ id: "tufts", implies: ["white"] }),
    finding({ id: "film", implies: ["white"] }),
    finding({ id: "soggy", kind: "site" }),
  ],
  hosts: [host({ id: "fern" }), host({ id: "basil" })],
  questions: [
    question({
      id: "first",
      options: [
        { id: "white", present: ["white"] },
        { id: "limp", present: ["limp"] },
      ],
    }),
    question({
      id: "look",
      askWhen: { any: ["white"], none: [] },
      options: [
        { id: "tufts", present: ["tufts"] },
        { id: "film", present: ["film"], absent: ["tufts"] },
        { id: "none", none: true },
      ],
    }),
    question({
      id: "soil",
      askWhen: { any: ["limp"], none: ["tufts"] },
      options: [{ id: "wet", present: ["soggy"] }],
    }),
    question({ id: "which", kind: "host" }),
    question({
      id: "household",
      kind: "fact",
      options: [
        { id: "pets", facts: { pets: "yes", children: "no" } },
        { id: "neither", facts: { pets: "no", children: "no" } },
      ],
    }),
  ],
});

const state = (id: string, ...answers: string[]) =>
  know(flow, caseOf(flow, ...answers)).known[flow.findings.at(id)];

describe("know", () => {
  it("starts from nothing", () => {
    const { known, host: plant, facts, answered } = know(flow, newCase(flow));
    expect([...known]).toEqual([0, 0, 0, 0, 0]);
    expect([plant, facts, answered.size]).toEqual([undefined, {}, 0]);
  });

  it("reads what an option establishes and excludes", () => {
    expect(state("film", "look=film")).toBe(PRESENT);
    expect(state("white", "look=film")).toBe(PRESENT);
    expect(state("tufts", "look=film")).toBe(ABSENT);
  });

  it("lets “none of these” exclude what the other options would establish", () => {
    expect(state("tufts", "look=none")).toBe(ABSENT);
    expect(state("film", "look=none")).toBe(ABSENT);
    expect(state("white", "look=none")).toBe(UNKNOWN);
  });

  it("takes “not sure” for an answer that tells nothing", () => {
    const { known, answered } = know(flow, caseOf(flow, "look=not-sure"));
    expect(known.every((value) => value === UNKNOWN)).toBe(true);
    expect(answered.has("look")).toBe(true);
  });

  it("reads volunteered findings, the plant and the household", () => {
    expect(state("soggy", "soggy")).toBe(PRESENT);
    expect(state("soggy", "soggy=no")).toBe(ABSENT);
    expect(know(flow, caseOf(flow, "which=fern", "household=pets"))).toMatchObject({
      host: "fern",
      facts: { pets: "yes", children: "no" },
    });
  });

  it("tells a plant not known from a plant not asked for", () => {
    expect(know(flow, caseOf(flow, "which=not-sure")).host).toBeNull();
    expect(know(flow, caseOf(flow)).host).toBeUndefined();
  });
});

describe("isAnswer", () => {
  it.each(["look=tufts", "look=not-sure", "which=fern", "which=not-sure", "soggy=yes", "household=pets"])(
    "knows %s",
    (text) => {
      const [to = "", is = ""] = text.split("=");
      expect(isAnswer(flow, { to, is })).toBe(true);
    },
  );

  it.each(["look=wet", "look=", "which=oak", "soggy=maybe", "soggy=not-sure", "moon=full", "look=yes"])(
    "does not know %s",
    (text) => {
      const [to = "", is = ""] = text.split("=");
      expect(isAnswer(flow, { to, is })).toBe(false);
    },
  );
});

describe("giveAnswer", () => {
  const give = (to: string, is: string, ...answers: string[]) => {
    const { case: kase, dropped } = giveAnswer(flow, caseOf(flow, ...answers), to, is);
    const short = (all: readonly { to: string; is: string }[]) => all.map((a) => `${a.to}=${a.is}`);
    return { kept: short(kase.answers), dropped: short(dropped) };
  };

  it("adds a new answer at the end and leaves the given case alone", () => {
    const before = caseOf(flow, "first=white");
    expect(answerTo(giveAnswer(flow, before, "look", "tufts").case, "look")).toBe("tufts");
    expect(before.answers).toEqual([{ to: "first", is: "white" }]);
  });

  it("changes an answer in place and keeps the later ones that still apply", () => {
    expect(
      give("look", "film", "first=white", "look=tufts", "which=fern", "soggy=yes", "household=pets"),
    ).toEqual({
      kept: ["first=white", "look=film", "which=fern", "soggy=yes", "household=pets"],
      dropped: [],
    });
  });

  it("hands back the later answers that no longer apply", () => {
    expect(give("first", "limp", "first=white", "look=tufts", "which=fern")).toEqual({
      kept: ["first=limp", "which=fern"],
      dropped: ["look=tufts"],
    });
  });

  it("keeps an answer that something volunteered later still makes fit", () => {
    expect(give("first", "limp", "first=white", "look=tufts", "white=yes")).toEqual({
      kept: ["first=limp", "look=tufts", "white=yes"],
      dropped: [],
    });
  });

  it("keeps an answer given out of turn, which never hung on the one that changes", () => {
    expect(give("which", "basil", "which=fern", "first=white", "soil=wet")).toEqual({
      kept: ["which=basil", "first=white", "soil=wet"],
      dropped: [],
    });
  });

  it("drops nothing when the same answer is given again", () => {
    expect(give("first", "white", "first=white", "soil=wet", "look=tufts").dropped).toEqual([]);
  });
});

describe("takeBack", () => {
  it("removes the answer and what hung on it", () => {
    const change = takeBack(flow, caseOf(flow, "which=fern", "first=white", "look=tufts", "soggy"), "first");
    expect(answerSet(change.case)).toEqual(["soggy=yes", "which=fern"]);
    expect(change.dropped).toEqual([{ to: "look", is: "tufts" }]);
  });

  it("leaves a case alone that holds no such answer", () => {
    const kase = caseOf(flow, "first=white");
    expect(takeBack(flow, kase, "look")).toEqual({ case: kase, dropped: [] });
  });
});

describe.each([
  ["the tiny content", tinyFlow()],
  ["the shipped content", shippedFlow()],
])("changing an answer in any case of %s", (_, of) => {
  const changes = fc.record({ kase: arbitraryCase(of), given: fc.constantFrom(...possibleAnswers(of)) });

  it("loses no answer unsaid, keeps the order, and drops only what no longer applies", () => {
    fc.assert(
      fc.property(changes, ({ kase, given }) => {
        const { case: after, dropped } = giveAnswer(of, kase, given.to, given.is);
        expect(answerTo(after, given.to)).toBe(given.is);
        const others = kase.answers.filter(({ to }) => to !== given.to);
        const kept = after.answers.filter(({ to }) => to !== given.to);
        expect(kept).toEqual(others.filter((answer) => !dropped.includes(answer)));
        expect(kept.length + dropped.length).toBe(others.length);
        const { known } = know(of, after);
        for (const { to } of dropped) {
          const prompt = of.promptById.get(to);
          expect(prompt?.question.kind).toBe("finding");
          expect(prompt && applies(prompt, known), `${to} still applies`).toBe(false);
        }
      }),
      { numRuns: 500 },
    );
  });

  it("drops nothing when the answer stays the same", () => {
    fc.assert(
      fc.property(arbitraryCase(of), fc.nat(), (kase, at) => {
        const same = kase.answers[at % Math.max(1, kase.answers.length)];
        if (same) expect(giveAnswer(of, kase, same.to, same.is)).toEqual({ case: kase, dropped: [] });
      }),
      { numRuns: 300 },
    );
  });
});
