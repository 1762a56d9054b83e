import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { newCase } from "../../../flows/case.ts";
import { bestQuestion } from "../../../flows/desk/best-question.ts";
import { dropRemark, layPieces, type Piece, setPiece, takePieces } from "../../../flows/desk/pieces.ts";
import { propose } from "../../../flows/understand/propose.ts";
import type { Opening } from "../../../flows/understand/score.ts";
import { judge } from "../../../flows/verdict.ts";
import { readText } from "../../docs/papers.ts";
import { caseOf } from "../../support/cases.ts";
import { arbitraryCase } from "../../support/random-case.ts";
import { shippedFlow } from "../../support/shipped-flow.ts";

const flow = shippedFlow();
const blurted =
  "My basil has spider mites, white fuzzy stuff on the stems, no webs, the zebra is fine, and we have a cat. Will it live?";

function hear(typed: string, ...told: string[]): Piece[] {
  const kase = caseOf(flow, ...told);
  return layPieces(propose(flow, kase, bestQuestion(flow, kase)?.question ?? null, typed));
}

const said = (pieces: readonly Piece[]) =>
  pieces.map(({ key, kind, to, is, isTaken }) => `${isTaken ? "+" : "-"}${key} ${kind} ${to}=${is}`);

describe("what a caller blurts", () => {
  test("is laid out in pieces: plant, seen, not seen, home, idea and question, each with its key", () => {
    expect(said(hear(blurted))).toEqual([
      "+1 plant host=basil",
      "+2 seen white-cottony-tufts=yes",
      "+3 not-seen fine-webbing=no",
      "-4 home household=pets",
      "-5 home household=both",
      "+6 idea thought=spider-mites",
      "+7 ask asked=will-it-live",
    ]);
  });

  test("of several plants the first is taken, and taking another leaves it out", () => {
    const pieces = hear("the basil or the mint has white fuzzy stuff");
    const plants = pieces.filter(({ kind }) => kind === "plant");
    expect(plants.map(({ is, isTaken }) => [is, isTaken])).toEqual([
      ["basil", true],
      ["mint", false],
    ]);
    const [, mint] = plants;
    const chosen = mint ? setPiece(pieces, mint, true) : [];
    expect(chosen.filter(({ isTaken, kind }) => isTaken && kind === "plant").map(({ is }) => is)).toEqual([
      "mint",
    ]);
    expect(chosen.filter(({ kind }) => kind !== "plant")).toEqual(
      pieces.filter(({ kind }) => kind !== "plant"),
    );
  });

  test("names a plant that was not known before", () => {
    const taken = takePieces(flow, caseOf(flow, "host=not-sure"), {}, hear("it is a basil", "host=not-sure"));
    expect(taken.case.answers).toEqual([{ to: "host", is: "basil" }]);
  });

  test("with nothing in it gives no piece", () => {
    expect(hear("zzzz qqqq")).toEqual([]);
  });
});

describe("agreeing", () => {
  test("takes what is ticked, and only that; ideas and questions weigh nothing", () => {
    const pieces = hear(blurted);
    const [, tufts] = pieces;
    const left = tufts ? setPiece(pieces, tufts, false) : [];
    const taken = takePieces(flow, newCase(flow), { asked: "can-i-eat-it" }, left);
    expect(taken.case.answers).toEqual([
      { to: "host", is: "basil" },
      { to: "fine-webbing", is: "no" },
    ]);
    expect(taken.remarks).toEqual({ thought: "spider-mites", asked: "can-i-eat-it.will-it-live" });
    const ideas = hear("I think it is spider mites. Will it spread?");
    expect(judge(flow, takePieces(flow, newCase(flow), {}, ideas).case)).toEqual(judge(flow, newCase(flow)));
  });

  test("over every opening of the case histories: nothing counts before, all that is ticked counts after", () => {
    const openings = readText("tests/cases/openings.jsonl")
      .trim()
      .split("\n")
      .map((line) => (JSON.parse(line) as Opening).opening);
    let all = 0;
    for (const opening of openings) {
      const pieces = hear(opening);
      const none = pieces.reduce((some, piece) => setPiece(some, piece, false), pieces);
      expect(takePieces(flow, newCase(flow), {}, none)).toEqual({
        case: newCase(flow),
        remarks: {},
        dropped: [],
      });
      const { case: kase } = takePieces(flow, newCase(flow), {}, pieces);
      const wanted = pieces.filter(({ isTaken, kind }) => isTaken && kind !== "idea" && kind !== "ask");
      expect(kase.answers).toEqual(wanted.map(({ to, is }) => ({ to, is })));
      expect(new Set(pieces.map(({ key }) => key)).size).toBe(pieces.length);
      all += wanted.length;
    }
    expect(openings.length).toBeGreaterThan(80);
    expect(all).toBeGreaterThan(openings.length);
  });

  test("never throws, whatever is typed at whatever point of a call", () => {
    fc.assert(
      fc.property(arbitraryCase(flow), fc.string({ maxLength: 60 }), (kase, typed) => {
        const pieces = layPieces(propose(flow, kase, bestQuestion(flow, kase)?.question ?? null, typed));
        const taken = takePieces(flow, kase, {}, pieces);
        for (const { to, is, kind, isTaken } of pieces) {
          if (!isTaken || kind === "idea" || kind === "ask") continue;
          expect(taken.case.answers).toContainEqual({ to, is });
        }
      }),
      { numRuns: 60 },
    );
  });
});

test("a remark is taken back id by id", () => {
  const remarks = { thought: "spider-mites.thrips", asked: "will-it-live" };
  expect(dropRemark(remarks, "thought", "thrips")).toEqual({
    thought: "spider-mites",
    asked: "will-it-live",
  });
  expect(dropRemark(remarks, "asked", "will-it-live")).toEqual({ thought: "spider-mites.thrips" });
  expect(dropRemark(remarks, "asked", "will-it-spread")).toEqual(remarks);
});
