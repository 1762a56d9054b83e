import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { answerTo, type Case, giveAnswer, isAnswer, know, newCase } from "../../../flows/case.ts";
import { readLink, writeLink } from "../../../flows/case-link.ts";
import { nextQuestion } from "../../../flows/next-question.ts";
import { asksAlone, type Chip, type Proposal, propose } from "../../../flows/understand/propose.ts";
import { readReply } from "../../../flows/understand/read-reply.ts";
import { understand } from "../../../flows/understand/understand.ts";
import { judge } from "../../../flows/verdict.ts";
import { readText } from "../../docs/papers.ts";
import { arbitraryCase } from "../../support/random-case.ts";
import { shippedFlow } from "../../support/shipped-flow.ts";

const flow = shippedFlow();
const openings = readText("tests/cases/openings.jsonl")
  .split("\n")
  .filter((line) => line !== "")
  .map((line) => (JSON.parse(line) as { opening: string }).opening);

function chipsOf({ reply, plants, present, absent, home }: Proposal): Chip[] {
  return [...(reply ? [reply] : []), ...plants.slice(0, 1), ...present, ...absent, ...home];
}

function agree(kase: Case, chips: readonly Chip[]): Case {
  return chips.reduce((before, { to, is }) => giveAnswer(flow, before, to, is).case, kase);
}

function reply(id: string, typed: string): string | undefined {
  const question = flow.question(id);
  return question && readReply(flow, question, typed, understand(flow, typed));
}

describe("a proposal", () => {
  it("holds answers that the case can take, and they travel in its link", () => {
    for (const typed of openings) {
      const kase = newCase(flow);
      const chips = chipsOf(propose(flow, kase, nextQuestion(flow, kase), typed));
      expect(chips.filter((chip) => !isAnswer(flow, chip))).toEqual([]);
      const agreed = agree(kase, chips);
      expect(readLink(flow, writeLink(flow, agreed))).toEqual({ case: agreed, problems: [] });
    }
  });

  it("agreed to, gives the verdict of the same answers given by hand, in whatever order", () => {
    const cases = fc.tuple(arbitraryCase(flow), fc.constantFrom(...openings));
    fc.assert(
      fc.property(cases, ([kase, typed]) => {
        const chips = chipsOf(propose(flow, kase, nextQuestion(flow, kase), typed));
        const answers = chips.map(({ to, is }) => ({ to, is }));
        const byHand: Case = {
          ...kase,
          answers: [
            ...answers.toReversed(),
            ...kase.answers.filter(({ to }) => !answers.some((one) => one.to === to)),
          ],
        };
        expect(judge(flow, agree(kase, chips))).toEqual(judge(flow, byHand));
      }),
      { numRuns: 300, seed: 11 },
    );
  });

  it("asks nothing that is known already", () => {
    const { case: kase } = readLink(flow, "e=1&fine-webbing=yes&host=basil&household=pets");
    const { plants, present, home, halfTold } = propose(
      flow,
      kase,
      null,
      "webs on my basil, and I have a cat",
    );
    expect({ plants, present, home, halfTold }).toEqual({ plants: [], present: [], home: [], halfTold: [] });
  });

  it("tells a household half, where only half was told, and in full where all was", () => {
    const half = propose(flow, newCase(flow), null, "we have a cat");
    expect(half.home).toEqual([]);
    expect(half.halfTold.map(({ question, fits }) => [question.id, fits])).toEqual([
      ["household", ["pets", "both"]],
    ]);
    const full = propose(flow, newCase(flow), null, "we have a cat and no children");
    expect(full.home).toMatchObject([{ to: "household", is: "pets" }]);
  });

  it("takes a theory for a theory: the case and its verdict stay as they are", () => {
    const kase = newCase(flow);
    const heard = propose(flow, kase, null, "I think it is mealybugs");
    expect(heard.theories).toMatchObject([{ conditions: ["mealybugs"], denied: false }]);
    expect(chipsOf(heard)).toEqual([]);
  });

  it("knows when only questions were typed", () => {
    expect(asksAlone(propose(flow, newCase(flow), null, "Will it live?"))).toBe(true);
    expect(asksAlone(propose(flow, newCase(flow), null, "Will it live? It has webs."))).toBe(false);
  });
});

describe("a reply to the question in hand", () => {
  it.each([
    ["soil-check", "soggy", "soggy"],
    ["soil-check", "the second one", "dry"],
    ["soil-check", "dunno", "not-sure"],
    ["soil-check", "I'm not sure", "not-sure"],
    ["soil-check", "bone dry", "dry"],
    ["soil-check", "just damp", "damp"],
    ["ants-too", "yes", "yes"],
    ["ants-too", "nope", "no"],
    ["white-look", "the last", flow.question("white-look")?.options.at(-1)?.id],
    ["what-you-see", "tiny flies", "flies"],
    ["eaten", "no, never", "no"],
    ["household", "both", "both"],
  ])("%s: “%s” is %s", (question, typed, option) => {
    expect(reply(question, typed)).toBe(option);
  });

  it.each([
    ["soil-check", "the neighbor plays the trumpet"],
    ["soil-check", "not dry"],
    ["soil-check", "1 or 2"],
    ["what-you-see", ""],
  ])("%s: “%s” is none", (question, typed) => {
    expect(reply(question, typed)).toBeUndefined();
  });

  it("is always one of the answers", () => {
    const kases = fc.tuple(arbitraryCase(flow), fc.string({ maxLength: 30 }));
    fc.assert(
      fc.property(kases, ([kase, typed]) => {
        const question = nextQuestion(flow, kase);
        if (!question) return;
        const is = readReply(flow, question, typed, understand(flow, typed));
        if (is !== undefined) expect(isAnswer(flow, { to: question.id, is })).toBe(true);
        expect(answerTo(kase, question.id)).toBe(
          know(flow, kase).answered.has(question.id) ? expect.anything() : undefined,
        );
      }),
      { numRuns: 300, seed: 5 },
    );
  });
});
