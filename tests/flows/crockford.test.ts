import fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import { readBase32, writeBase32 } from "../../flows/crockford.ts";

// Slow machines may take their time.
vi.setConfig({ testTimeout: 60_000 });

// Conformance to the published alphabet and check symbol is tested in tests/outside/crockford.test.ts.

describe("readBase32", () => {
  it.each(["", " ", "---", "7", " 7 ", "–_."])(
    "calls “%s” empty: a code has a digit and a check symbol",
    (text) => {
      expect(readBase32(text)).toMatchObject({ ok: false, code: "CODE_EMPTY" });
    },
  );

  it.each(["1H6 2WV 5J", "1H62-WV5J", "1h62–wv5j", "1H62_WV5J.", "\t1H62WV5J\n"])(
    "passes over spacing: %s",
    (text) => {
      expect(readBase32(text)).toEqual({ ok: true, value: 1650553701n });
    },
  );

  it.each(["1é", "1🌱1", "１１", "1%1", "1/1"])("names the symbol that is not one of ours: %s", (text) => {
    expect(readBase32(text)).toMatchObject({ ok: false, code: "CODE_BAD_SYMBOL" });
  });

  it("never throws and never reads a number that would be written otherwise", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary" }), (text) => {
        const read = readBase32(text);
        if (read.ok) expect(readBase32(writeBase32(read.value))).toEqual(read);
      }),
      { numRuns: 1000 },
    );
  });
});
