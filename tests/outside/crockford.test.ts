import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readBase32, writeBase32 } from "../../flows/crockford.ts";

// Douglas Crockford, "Base 32", https://www.crockford.com/base32.html: no I, L, O, U among the digits; the check symbol is
// the number modulo 37 and has five symbols more.
const digits = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
const checkSymbols = `${digits}*~$=U`;

/** Value, digits, check symbol. The last one is the published example, 1650553701 mod 37 = 18 → J; the rest is arithmetic. */
const values = [
  [0n, "0", "0"],
  [31n, "Z", "Z"],
  [32n, "10", "*"],
  [33n, "11", "~"],
  [34n, "12", "$"],
  [35n, "13", "="],
  [36n, "14", "U"],
  [37n, "15", "0"],
  [100n, "34", "T"],
  [1234n, "16J", "D"],
  [1234567n, "15NM7", "S"],
  [4294967295n, "3ZZZZZZ", "6"],
  [1650553701n, "1H62WV5", "J"],
] as const;

const numbers = fc.bigInt({ min: 0n, max: 2n ** 80n });

/** The text with another symbol at one place, or undefined where it would stay the same. */
function replaceAt(text: string, at: number, symbol: string): string | undefined {
  if (text[at] === symbol) return undefined;
  return text.slice(0, at) + symbol + text.slice(at + 1);
}

function swapAt(text: string, at: number): string | undefined {
  const [left, right] = [text[at], text[at + 1]];
  if (left === undefined || right === undefined || left === right) return undefined;
  return text.slice(0, at) + right + left + text.slice(at + 2);
}

describe("Base32 as published", () => {
  it.each(values)("writes and reads %s as %s with check symbol %s", (value, text, check) => {
    expect(writeBase32(value)).toBe(text + check);
    expect(readBase32(text + check)).toEqual({ ok: true, value });
  });

  it("uses the published digits in their order", () => {
    const first = Array.from({ length: 32 }, (_, value) => writeBase32(BigInt(value)).charAt(0));
    expect(first.join("")).toBe(digits);
  });

  it("uses the published check symbols in their order", () => {
    const checks = Array.from({ length: 37 }, (_, value) => writeBase32(BigInt(value)).slice(-1));
    expect(checks.join("")).toBe(checkSymbols);
  });

  it("reads either case, I and L as 1, O as 0, and passes over hyphens", () => {
    const expected = { ok: true, value: 1650553701n };
    for (const text of ["1h62wv5j", "IH62WV5J", "lh62wv5j", "1H6-2WV-5J", "01H62WV5J", "O1H62WV5J"]) {
      expect(readBase32(text), text).toEqual(expected);
    }
  });

  it("takes U as a check symbol only, never as a digit", () => {
    expect(readBase32("14U")).toEqual({ ok: true, value: 36n });
    expect(readBase32("1U4U")).toEqual({ ok: false, code: "CODE_BAD_SYMBOL", symbol: "U" });
    for (const extra of "*~$=")
      expect(readBase32(`1${extra}0`)).toMatchObject({ ok: false, code: "CODE_BAD_SYMBOL" });
  });

  it("reads back every number it writes", () => {
    fc.assert(
      fc.property(numbers, (value) => {
        expect(readBase32(writeBase32(value))).toEqual({ ok: true, value });
      }),
    );
  });

  it("notices every single wrong symbol", () => {
    fc.assert(
      fc.property(numbers, fc.nat(), fc.constantFrom(...checkSymbols), (value, place, symbol) => {
        const text = writeBase32(value);
        const wrong = replaceAt(text, place % text.length, symbol);
        if (wrong !== undefined) expect(readBase32(wrong).ok, `${text} → ${wrong}`).toBe(false);
      }),
      { numRuns: 2000 },
    );
  });

  it("notices every swap of unlike neighbors among the digits", () => {
    fc.assert(
      fc.property(numbers, fc.nat(), (value, place) => {
        const text = writeBase32(value);
        const wrong = text.length > 2 ? swapAt(text, place % (text.length - 2)) : undefined;
        if (wrong !== undefined) expect(readBase32(wrong).ok, `${text} → ${wrong}`).toBe(false);
      }),
      { numRuns: 2000 },
    );
  });

  it.each(values.map(([, text, check]) => text + check))("notices every slip in %s", (text) => {
    for (let at = 0; at < text.length; at++) {
      for (const symbol of checkSymbols) {
        const wrong = replaceAt(text, at, symbol);
        if (wrong !== undefined) expect(readBase32(wrong).ok, wrong).toBe(false);
      }
    }
  });
});
