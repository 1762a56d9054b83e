import fc from "fast-check";
import ICAL from "ical.js";
import { describe, expect, it } from "vitest";
import { escapeText, foldLine, writeLines } from "../../../flows/calendar/icalendar.ts";

const octets = (text: string) => new TextEncoder().encode(text).length;
const hostile = fc.oneof(
  fc.string({ unit: "binary" }),
  fc.string({ unit: "grapheme", maxLength: 300 }),
  fc
    .array(
      fc.constantFrom(
        "\\",
        ";",
        ",",
        "\n",
        "\r",
        "\r\n",
        ":",
        '"',
        "😀",
        "é",
        "€",
        " ",
        "\u2028",
        "\u0000",
        "END:VEVENT",
      ),
      { maxLength: 120 },
    )
    .map((parts) => parts.join("")),
);

describe("content lines", () => {
  it("are at most 75 octets, cut between characters, and unfold to what was folded", () => {
    fc.assert(
      fc.property(hostile, (text) => {
        const line = `DESCRIPTION:${escapeText(text)}`;
        const parts = foldLine(line).split("\r\n");
        for (const [i, part] of parts.entries()) {
          expect(octets(part)).toBeLessThanOrEqual(75);
          if (i > 0) expect(part.startsWith(" ")).toBe(true);
          // Whole UTF-8 by itself: nothing is lost when it is written and read alone.
          expect(new TextDecoder("utf-8", { fatal: true }).decode(new TextEncoder().encode(part))).toBe(part);
        }
        expect(parts.map((part, i) => (i === 0 ? part : part.slice(1))).join("")).toBe(line);
      }),
      { numRuns: 2000 },
    );
  });

  it("no text can end its line or begin a component", () => {
    fc.assert(
      fc.property(hostile, hostile, (a, b) => {
        const text = writeLines([
          ["BEGIN", "VCALENDAR"],
          ["X-A", escapeText(a)],
          ["X-B", escapeText(b)],
          ["END", "VCALENDAR"],
        ]);
        expect(text.endsWith("\r\n")).toBe(true);
        expect(text.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
        const calendar = new ICAL.Component(ICAL.parse(text));
        expect(calendar.getAllSubcomponents()).toHaveLength(0);
        expect(calendar.getAllProperties()).toHaveLength(2);
      }),
      { numRuns: 1000 },
    );
  });

  it("an independent parser reads a text back", () => {
    fc.assert(
      fc.property(fc.string({ unit: "grapheme", maxLength: 200 }), (text) => {
        const plain = text.replace(/\p{Cc}|\p{Zl}|\p{Zp}|\ufeff/gu, " ");
        const file = writeLines([
          ["BEGIN", "VEVENT"],
          ["SUMMARY", escapeText(plain)],
          ["END", "VEVENT"],
        ]);
        expect(new ICAL.Component(ICAL.parse(file)).getFirstPropertyValue("summary")).toBe(plain);
      }),
      { numRuns: 1000 },
    );
  });

  it("a fold never parts a character of four octets", () => {
    for (let before = 60; before < 80; before++) {
      const line = `${"x".repeat(before)}😀y`;
      expect(foldLine(line).replaceAll("\r\n ", "")).toBe(line);
    }
  });
});
