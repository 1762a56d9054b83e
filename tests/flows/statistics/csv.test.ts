import { parse } from "csv-parse/sync";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { writeCsv } from "../../../flows/statistics/csv.ts";

/** Strictly as RFC 4180 has it: no trimming, no loose quotes, the same number of fields everywhere. */
const read = (text: string) => parse(text, { record_delimiter: "\r\n", relax_quotes: false }) as string[][];

describe("a table as CSV", () => {
  test("is written as the examples of RFC 4180, section 2, are", () => {
    expect(writeCsv(["aaa", "bbb", "ccc"], [["zzz", "yyy", "xxx"]])).toBe("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n");
    expect(writeCsv(["aaa", "b\r\nbb", "ccc"], [])).toBe('aaa,"b\r\nbb",ccc\r\n');
    expect(writeCsv(["aaa", 'b"bb', "ccc"], [])).toBe('aaa,"b""bb",ccc\r\n');
  });

  test("comes back whole from another program's reader", () => {
    const text = fc.string({ unit: fc.constantFrom("a", "é", ",", '"', "\r", "\n", "'", " ", ";") });
    const row = fc.tuple(
      fc.constant("x").chain((x) => text.map((rest) => x + rest)),
      fc.integer(),
    );
    fc.assert(
      fc.property(fc.array(row, { minLength: 1 }), (rows) => {
        const back = read(writeCsv(["name", "number"], rows));
        expect(back).toEqual([["name", "number"], ...rows.map(([name, number]) => [name, String(number)])]);
      }),
    );
  });

  test.each(["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", '=HYPERLINK("https://evil.example")', "＝1"])(
    "keeps a spreadsheet from running %j",
    (text) => {
      expect(read(writeCsv(["a"], [[text]]))).toEqual([["a"], [`'${text}`]]);
    },
  );

  test("leaves numbers and nothing as they are", () => {
    expect(writeCsv(["a", "b"], [[-3, null]])).toBe("a,b\r\n-3,\r\n");
  });
});
