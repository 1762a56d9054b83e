import { fleschKincaid } from "flesch-kincaid";
import { describe, expect, it } from "vitest";
import { makeGrader } from "./reading-grade.ts";
import { gradePieces, LONG_PIECE, wordsIn } from "./shopper-pieces.ts";

// US EPA asks for grade 7 to 8 at most and 4 to 6 for critical instructions; NIH for 6 to 8.
const MEDIAN_GRADE = 6;
const HIGHEST_GRADE = 8;

const pieces = gradePieces();

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

const longPieces = pieces.filter(({ units }) => wordsIn(units) >= LONG_PIECE);

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
