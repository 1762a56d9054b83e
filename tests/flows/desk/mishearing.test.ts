import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readCode, writeCode } from "../../../flows/case-code.ts";
import { checkSymbols, digits, readBase32, writeBase32 } from "../../../flows/crockford.ts";
import { alternativesTo, guessCodes, variantsOf } from "../../../flows/desk/mishearing.ts";
import { caseOf } from "../../support/cases.ts";
import { arbitraryConversation } from "../../support/random-case.ts";
import { shippedFlow } from "../../support/shipped-flow.ts";

const flow = shippedFlow();
const flowOf = (number: number) => (number === flow.edition.number ? flow : undefined);
const kase = caseOf(flow, "what-you-see=marks", "host=basil", "mark-look=stipple", "tap-test=dots");
const code = writeCode(flow, kase);

/** Every way to mistake one character of a code by the table. */
function slipsOf(text: string): string[] {
  return [...text].flatMap((symbol, at) =>
    alternativesTo(symbol).map((other) => `${text.slice(0, at)}${other}${text.slice(at + 1)}`),
  );
}

describe("the table", () => {
  test("works both ways", () => {
    for (const one of checkSymbols) {
      for (const other of alternativesTo(one)) expect(alternativesTo(other)).toContain(one);
    }
  });

  test("names no character twice, and none that is never read", () => {
    for (const one of checkSymbols) {
      const others = alternativesTo(one);
      expect(new Set(others).size).toBe(others.length);
      for (const other of others) expect(checkSymbols).toContain(other);
    }
  });

  test.each(
    [..."B8", ..."S5", ..."MN", ..."Z2", ..."G6", ..."VU"].flatMap((a, i, all) =>
      i % 2 ? [] : [[a, all[i + 1] ?? ""]],
    ),
  )("knows %s and %s", (one, other) => {
    expect(alternativesTo(one)).toContain(other);
  });
});

describe("a code with one character misheard or mistyped", () => {
  test("has the right one among its variants, whatever the number", () => {
    fc.assert(
      fc.property(fc.bigInt({ min: 1n, max: 32n ** 11n }), (value) => {
        const whole = writeBase32(value);
        for (const slip of slipsOf(whole)) {
          if (readBase32(slip).ok) throw new Error(`The check symbol let ${slip} pass for ${whole}.`);
          const codes = variantsOf(slip).map((variant) => variant.code);
          if (!codes.includes(whole)) throw new Error(`${whole} is not found from ${slip}.`);
        }
      }),
      { numRuns: 150 },
    );
  });

  test("has the right case among the few that are offered", () => {
    let offered = 0;
    let slips = 0;
    fc.assert(
      fc.property(arbitraryConversation(flow), (random) => {
        const whole = writeCode(flow, random);
        for (const slip of slipsOf(whole)) {
          const guesses = guessCodes(flowOf, slip);
          expect(guesses.length).toBeLessThanOrEqual(6);
          for (const guess of guesses) expect(readCode(flowOf, guess.code).ok).toBe(true);
          if (guesses.some((guess) => guess.code === whole)) offered++;
          slips++;
        }
      }),
      { numRuns: 12 },
    );
    console.info(`right case offered after one slip: ${offered} of ${slips}`);
    expect(offered / slips).toBeGreaterThan(0.99);
  });

  test("is pointed at", () => {
    const at = 2;
    const [other = ""] = alternativesTo(code.charAt(at));
    const wrong = `${code.slice(0, at)}${other}${code.slice(at + 1)}`;
    const guess = guessCodes(flowOf, wrong.toLowerCase().split("").join(" ")).find(
      (one) => one.code === code,
    );
    expect(guess).toMatchObject({ at, slip: "heard", case: { answers: kase.answers } });
  });
});

describe("other slips", () => {
  test("neighbors that changed places are found", () => {
    const at = [...code].findIndex((symbol, i) => symbol !== code[i + 1]);
    const swapped = code.slice(0, at) + code.charAt(at + 1) + code.charAt(at) + code.slice(at + 2);
    expect(guessCodes(flowOf, swapped)).toContainEqual(
      expect.objectContaining({ code, at, slip: "swapped" }),
    );
  });

  test("a check symbol left out is found", () => {
    const guesses = guessCodes(flowOf, code.slice(0, -1));
    expect(guesses).toContainEqual(expect.objectContaining({ code, slip: "missing" }));
  });

  test("a character that no code holds is looked at alone", () => {
    const wrong = `${code.slice(0, 3)}§${code.slice(4)}`;
    expect(guessCodes(flowOf, wrong)).toContainEqual(expect.objectContaining({ code, at: 3 }));
    expect(
      variantsOf(wrong)
        .filter(({ slip }) => slip === "heard")
        .every(({ at }) => at === 3),
    ).toBe(true);
  });

  test.each(["", "7", "=", "?", "Ж", digits.repeat(20), "not a code at all, but a sentence"])(
    "%j brings no guess and no error",
    (text) => {
      expect(guessCodes(flowOf, text)).toEqual([]);
    },
  );

  test("any text is answered without a throw", () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 60 }), (text) => void guessCodes(flowOf, text)),
      { numRuns: 200 },
    );
  });
});
