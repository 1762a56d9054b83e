import { describe, expect, it } from "vitest";
import { readProse } from "../../../flows/content/prose.ts";

const locate = (line: number, column: number) => ({ file: "text.md", line, column });
const read = (text: string) => readProse(text, locate);
const codesOf = (text: string) =>
  read(text).problems.map(({ code, line, column }) => `${line}:${column} ${code}`);
const text = (value: string) => ({ t: "text", text: value });

describe("readProse", () => {
  it("keeps paragraphs, lists, emphasis, code, links and breaks", () => {
    const { blocks, problems } = read(
      "One *two* **three `four`**  \nfive [six](https://example.org/a?b=1&c=2).\n\n- a\n  wrapped\n- b\n  1. c\n",
    );
    expect(problems).toEqual([]);
    expect(blocks).toEqual([
      {
        t: "p",
        of: [
          text("One "),
          { t: "em", of: [text("two")] },
          text(" "),
          { t: "strong", of: [text("three "), { t: "code", text: "four" }] },
          { t: "break" },
          text("five "),
          { t: "link", to: "https://example.org/a?b=1&c=2", of: [text("six")] },
          text("."),
        ],
      },
      {
        t: "list",
        ordered: false,
        items: [
          [{ t: "p", of: [text("a wrapped")] }],
          [
            { t: "p", of: [text("b")] },
            { t: "list", ordered: true, items: [[{ t: "p", of: [text("c")] }]] },
          ],
        ],
      },
    ]);
  });

  it("leaves text as it is typed: nothing is escaped, nothing is decoded", () => {
    expect(read('5 < 6 & 7 > 6 \\*star\\* "quote"').blocks).toEqual([
      { t: "p", of: [text("5 < 6 & 7 > 6 "), text("*"), text("star"), text("*"), text(' "quote"')] },
    ]);
  });

  it.each(["https://example.org", "mailto:desk@example.org", "tel:+1-555-0100"])(
    "allows a link to %s",
    (to) => {
      expect(read(`[here](${to})`)).toMatchObject({ problems: [], blocks: [{ of: [{ t: "link", to }] }] });
    },
  );

  it.each([
    "[here](http://example.org)",
    "[here](javascript:alert(1))",
    "[here](JaVaScRiPt:alert(1))",
    "[here](data:text/html,x)",
    "[here](//example.org)",
    "[here](/page)",
    "[here](https:example.org)",
    "[here](&#106;avascript:alert(1))",
    "www.example.org",
  ])("refuses the link %s", (link) => {
    expect(codesOf(link)).toContain("1:1 PROSE_LINK");
  });

  it.each([
    ["a\n\n<div>b</div>\n", ["3:1 PROSE_HTML"]],
    ["a <!-- b --> c", ["1:3 PROSE_HTML"]],
    ["20 &deg;C", ["1:4 PROSE_HTML"]],
    ["- a\n- b\n  - c ![d](https://e.org/f.png)", ["3:7 PROSE_IMAGE"]],
    ["# a", ["1:1 PROSE_HEADING"]],
    ["a\n===", ["1:1 PROSE_HEADING"]],
    ["a\n\n---\n\nb", ["3:1 PROSE_OTHER"]],
    ["~~a~~", ["1:1 PROSE_OTHER"]],
    ["- [ ] a", ["1:1 PROSE_OTHER"]],
    ["2. a\n3. b", ["1:1 PROSE_OTHER"]],
    ['[a](https://example.org "b")', ["1:1 PROSE_OTHER"]],
    ["```\na\n```", ["1:1 PROSE_CODE_BLOCK"]],
    ["same ![a](https://b.org) same ![a](https://b.org)", ["1:6 PROSE_IMAGE", "1:31 PROSE_IMAGE"]],
  ])("refuses %j where it stands", (markdown, codes) => {
    expect(codesOf(markdown)).toEqual(codes);
  });

  it.each([
    ["nested quotes and lists", "> - ".repeat(200)],
    ["unclosed brackets", "[".repeat(5000)],
    ["unclosed emphasis", "*a ".repeat(2000)],
    ["backticks", "`".repeat(5000)],
    ["angle brackets", "<".repeat(5000)],
  ])("does not run away on %s", (_, markdown) => {
    const start = performance.now();
    read(markdown);
    expect(performance.now() - start).toBeLessThan(2000);
  });
});
