import fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import type { Case } from "../../flows/case.ts";
import { isAnswer } from "../../flows/case.ts";
import { codeProblemCodes, editionOfCode, LONGEST_CODE, readCode, writeCode } from "../../flows/case-code.ts";
import { writeBase32 } from "../../flows/crockford.ts";
import { type Flow, openFlow } from "../../flows/flow.ts";
import { answerSet, caseOf } from "../support/cases.ts";
import { arbitraryCase, arbitraryConversation } from "../support/random-case.ts";
import { shippedFlow } from "../support/shipped-flow.ts";
import { tinyFlow } from "../support/tiny-flow.ts";

// Slow machines may take their time.
vi.setConfig({ testTimeout: 60_000 });

// The alphabet, the forgiving reading and the check symbol: Douglas Crockford, "Base 32", crockford.com/base32.html.
// A check modulo 37, a prime above 32, notices every wrong symbol and every swap of unlike neighbors.
const digits = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
const symbols = `${digits}*~$=U`;

const reader = (flow: Flow) => (edition: number) => (edition === flow.edition.number ? flow : undefined);
const read = (flow: Flow, text: string) => readCode(reader(flow), text);

/** The answers of a code as a set, or its problem. */
function readSet(flow: Flow, text: string): string[] | string {
  const reading = read(flow, text);
  return reading.ok ? answerSet(reading.case) : reading.code;
}

describe.each([
  ["the tiny content", tinyFlow()],
  ["the shipped content", shippedFlow()],
])("a code of %s", (_, flow) => {
  it("gives back the answers, volunteered findings and answers out of turn included", () => {
    fc.assert(
      fc.property(arbitraryCase(flow), (kase) => {
        expect(readSet(flow, writeCode(flow, kase))).toEqual(answerSet(kase));
      }),
      { numRuns: 300 },
    );
  });

  it("is the same for the same answers in any order", () => {
    fc.assert(
      fc.property(arbitraryCase(flow), (kase) => {
        const turned: Case = { ...kase, answers: [...kase.answers].reverse() };
        expect(writeCode(flow, turned)).toBe(writeCode(flow, kase));
      }),
      { numRuns: 200 },
    );
  });

  it("is read with spaces, hyphens, in lower case, with O for 0 and with I or L for 1", () => {
    const styles = fc.record({
      gap: fc.constantFrom("", " ", "-", "  "),
      one: fc.constantFrom("I", "L", "i", "l"),
    });
    fc.assert(
      fc.property(arbitraryConversation(flow), styles, fc.boolean(), (kase, { gap, one }, lower) => {
        const code = writeCode(flow, kase);
        const [body, check] = [code.slice(0, -1), code.slice(-1)];
        const typed = [...body]
          .map((symbol) => (symbol === "0" ? "O" : symbol === "1" ? one : symbol))
          .join(gap);
        const text = `${typed}${gap}${check}`;
        expect(readSet(flow, lower ? text.toLowerCase() : text)).toEqual(answerSet(kase));
      }),
      { numRuns: 150 },
    );
  });

  it("is refused with any one symbol wrong, and with any two unlike neighbors swapped", () => {
    const codes = fc
      .sample(arbitraryCase(flow), { numRuns: 60, seed: 11 })
      .map((kase) => writeCode(flow, kase));
    for (const code of codes) {
      for (let at = 0; at < code.length; at++) {
        for (const symbol of symbols) {
          if (symbol === code[at]) continue;
          const wrong = code.slice(0, at) + symbol + code.slice(at + 1);
          expect(read(flow, wrong).ok, `${code} → ${wrong}`).toBe(false);
        }
        const [left = "", right = ""] = code.slice(at, at + 2);
        if (right === "" || left === right) continue;
        const swapped = code.slice(0, at) + right + left + code.slice(at + 2);
        expect(read(flow, swapped).ok, `${code} → ${swapped}`).toBe(false);
      }
    }
  });
});

describe("readCode", () => {
  const flow = tinyFlow();
  const code = writeCode(flow, caseOf(flow, "what-you-see=white", "host=basil", "white-look=tufts"));

  it.each([
    ["CODE_EMPTY", ""],
    ["CODE_EMPTY", "  - "],
    ["CODE_TOO_LONG", "x".repeat(LONGEST_CODE + 1)],
    ["CODE_BAD_SYMBOL", "AB!C"],
    ["CODE_WRONG_CHECK", "12"],
  ])("answers with %s", (problem, text) => {
    expect(readSet(flow, text)).toBe(problem);
  });

  it("names the symbol that is wrong", () => {
    expect(read(flow, "AB!C")).toMatchObject({ sentence: expect.stringContaining("!") });
  });

  it("refuses a code of an edition that is not at hand", () => {
    const other = openFlow({ ...flow.edition, number: 2 });
    expect(readSet(other, code)).toBe("CODE_UNKNOWN_EDITION");
    expect(editionOfCode(code)).toBe(1);
  });

  it("refuses a sound number that is not the code of any case", () => {
    const shipped = shippedFlow();
    const numbers = fc.sample(fc.bigInt({ min: 0n, max: 2n ** 40n }), { numRuns: 500, seed: 3 });
    const readings = numbers.map((rest) => {
      const text = writeBase32(1n + 64n * rest);
      const reading = read(shipped, text);
      if (reading.ok) expect(writeCode(shipped, reading.case)).toBe(text);
      return reading.ok ? "read" : reading.code;
    });
    expect(new Set(readings)).toEqual(new Set(["read", "CODE_NOT_A_CASE"]));
  });

  it("reads the code of a case in which everything was answered and everything volunteered", () => {
    for (const of of [flow, shippedFlow()]) {
      const questions = [...of.promptById.values()].map(
        ({ question, replies }) => `${question.id}=${replies[0]?.id}`,
      );
      const plant = `${of.hostQuestion?.id}=${of.edition.hosts.at(-1)?.id}`;
      const kase = caseOf(of, plant, ...questions, ...of.edition.findings.map(({ id }) => `${id}=no`));
      expect(readSet(of, writeCode(of, kase))).toEqual(answerSet(kase));
    }
  });

  it.each([1, 63, 64, 999, 31_415])("knows the edition it was made under, number %i", (number) => {
    const of = openFlow({ ...flow.edition, number });
    const kase = caseOf(of, "what-you-see=limp", "host=not-sure", "fine-webbing");
    const written = writeCode(of, kase);
    expect(editionOfCode(written)).toBe(number);
    expect(readSet(of, written)).toEqual(answerSet(kase));
    expect(read(of, written)).toMatchObject({ ok: true, case: { edition: number } });
  });

  it("answers any text with answers we know or a problem from the closed list, never with a throw", () => {
    const texts = fc.oneof(
      fc.string({ unit: "binary", maxLength: 260 }),
      fc.array(fc.constantFrom(...symbols), { maxLength: 40 }).map((all) => all.join("")),
    );
    fc.assert(
      fc.property(texts, (text) => {
        const reading = read(flow, text);
        if (!reading.ok) {
          expect(codeProblemCodes).toContain(reading.code);
          expect(reading.sentence).not.toBe("");
        } else for (const answer of reading.case.answers) expect(isAnswer(flow, answer)).toBe(true);
      }),
      { numRuns: 1000 },
    );
  });

  it("gives a case that holds each question once, whatever sound number it is given", () => {
    const shipped = shippedFlow();
    fc.assert(
      fc.property(fc.bigInt({ min: 0n, max: 2n ** 90n }), (rest) => {
        const reading = read(shipped, writeBase32(1n + 64n * rest));
        if (!reading.ok) return;
        const asked = reading.case.answers.map(({ to }) => to);
        expect(new Set(asked).size).toBe(asked.length);
        for (const answer of reading.case.answers) expect(isAnswer(shipped, answer)).toBe(true);
      }),
      { numRuns: 300 },
    );
  });
});
