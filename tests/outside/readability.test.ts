import { fleschKincaid } from "flesch-kincaid";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { z } from "zod";
import { type Condition, facts, findingKinds, type Question, type Remedy } from "../../flows/edition.ts";
import { loadFiles, shippedContent } from "../flows/content/content-files.ts";
import { shippedFlow } from "../support/shipped-flow.ts";
import { makeGrader, unitsOf } from "./reading-grade.ts";

/** A piece of prose that a shopper reads in one go, and where it stands. */
interface Piece {
  place: string;
  units: string[];
}

// US EPA asks for grade 7 to 8 at most and 4 to 6 for critical instructions; NIH for 6 to 8.
const MEDIAN_GRADE = 6;
const HIGHEST_GRADE = 8;
const LONG_PIECE = 30;

const { edition } = shippedFlow();
const tradeWords = z.array(z.string()).parse(parse(loadFiles(shippedContent)["trade-words.yaml"] ?? ""));
const grade = makeGrader(tradeWords);

function conditionPieces(condition: Condition): Piece[] {
  const sections = {
    "what it is": condition.whatItIs,
    "what brings it on": condition.whatBringsItOn,
    "will it live": condition.willItLive,
    "does it spread": condition.doesItSpread,
    prevention: condition.prevention,
    "when to give up": condition.whenToGiveUp,
    "when to bring it in": condition.whenToBringIn,
    ...Object.fromEntries(condition.looksLike.map(({ other, check }) => [`check against ${other}`, check])),
  };
  return Object.entries(sections).map(([name, blocks]) => ({
    place: `condition ${condition.id}, ${name}`,
    units: unitsOf(blocks),
  }));
}

function remedyPieces(remedy: Remedy): Piece[] {
  const { id, name, amount, cautions, repeat, steps } = remedy;
  const pieces: Record<string, string[]> = {
    steps: [name, ...unitsOf(steps)],
    amount: amount === null ? [] : [amount],
    "repeat until": repeat?.until ? [repeat.until] : [],
    ...Object.fromEntries((["always", ...facts] as const).map((when) => [`caution ${when}`, cautions[when]])),
  };
  return Object.entries(pieces).map(([part, units]) => ({ place: `remedy ${id}, ${part}`, units }));
}

function questionPieces({ id, prompt, why, howToCheck, options }: Question): Piece[] {
  const pieces: Record<string, string[]> = {
    prompt: [prompt],
    why: [why],
    "how to check": unitsOf(howToCheck),
    labels: options.map(({ label }) => label),
  };
  return Object.entries(pieces).map(([part, units]) => ({ place: `question ${id}, ${part}`, units }));
}

/** Names are phrases, not prose: they are graded together, kind by kind. */
function findingPieces(): Piece[] {
  return findingKinds.flatMap((kind) => {
    const ofKind = edition.findings.filter((finding) => finding.kind === kind);
    return [
      { place: `names of findings, ${kind}`, units: ofKind.map(({ name }) => name) },
      { place: `names of absent findings, ${kind}`, units: ofKind.map(({ absent }) => absent) },
    ];
  });
}

const pieces = [
  ...edition.conditions.flatMap(conditionPieces),
  ...edition.remedies.flatMap(remedyPieces),
  ...edition.questions.flatMap(questionPieces),
  ...findingPieces(),
  { place: "how to bring a sample", units: unitsOf(edition.conversation.howToBring) },
]
  .filter(({ units }) => units.length > 0)
  .map((piece) => ({ ...piece, grade: grade(piece.units) }))
  .sort((a, b) => b.grade - a.grade);

describe("the Flesch-Kincaid grade", () => {
  // Grade = 11.8 · syllables/words + 0.39 · words/sentences − 15.59.
  it("agrees with the published formula", () => {
    expect(fleschKincaid({ sentence: 10, word: 100, syllable: 150 })).toBeCloseTo(6.01, 2);
    expect(fleschKincaid({ sentence: 1, word: 1, syllable: 1 })).toBeCloseTo(-3.4, 2);
  });

  it("counts words of the trade as plain and every unit as a sentence", () => {
    expect(makeGrader(["fungus gnats", "fungus"])(["Fungus gnats"])).toBeCloseTo(-3.4, 2);
    expect(makeGrader(["edema"])(["Wipe it. Wait", "Edema"])).toBeCloseTo(0.39 * (4 / 3) + 11.8 - 15.59, 2);
  });
});

// A label or a prompt is easy by being short, so the longer pieces have to hold on their own too.
const longPieces = pieces.filter(({ units }) => units.join(" ").split(/\s+/).length >= LONG_PIECE);

describe("what a shopper reads", () => {
  it.each([
    ["all pieces", pieces],
    [`pieces of ${LONG_PIECE} words and more`, longPieces],
  ])(`has a median grade of ${MEDIAN_GRADE} at most: %s`, (name, some) => {
    const median = some[Math.floor(some.length / 2)]?.grade;
    console.info(
      `${some.length} ${name}: median grade ${median?.toFixed(2)}, highest ${some[0]?.grade.toFixed(2)}`,
    );
    expect(some.length).toBeGreaterThan(100);
    expect(median).toBeLessThanOrEqual(MEDIAN_GRADE);
  });

  it(`has no piece above grade ${HIGHEST_GRADE}`, () => {
    const hard = pieces.filter((piece) => piece.grade > HIGHEST_GRADE);
    expect(
      hard.map((piece) => `${piece.grade.toFixed(1)} ${piece.place}: ${piece.units.join(" | ")}`),
    ).toEqual([]);
  });
});
