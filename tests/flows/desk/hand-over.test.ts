import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readCode, writeCode } from "../../../flows/case-code.ts";
import { replayHistory } from "../../../flows/case-history.ts";
import { writeLink } from "../../../flows/case-link.ts";
import { makeHandOver, SHORT_MESSAGE, writeSms } from "../../../flows/desk/hand-over.ts";
import { groupCode, spellCode } from "../../../flows/desk/spelling.ts";
import { NOT_SURE } from "../../../flows/flow.ts";
import { loadHistories } from "../../support/histories.ts";
import { shippedFlow } from "../../support/shipped-flow.ts";
import { blurt, median } from "./key-strokes.ts";

const flow = shippedFlow();
const { shop } = flow.edition;
const base = "https://check.example/";
const histories = [...loadHistories("open"), ...loadHistories("vignettes")];
const inTurn = histories.map((history) => replayHistory(flow, history).case);
/** What callers tell at once, before anything is asked: all of it stands outside the path of the questions. */
const blurted = inTurn.map((kase) => ({
  ...kase,
  answers: blurt(kase.answers.filter(({ is }) => is !== NOT_SURE)).filter(({ to }) => to !== "what-you-see"),
}));

describe("lengths over the case histories", () => {
  test.each([
    ["in turn", inTurn],
    ["blurted out", blurted],
  ])("link, code and message stay short, %s", (name, cases) => {
    const codes = cases.map((kase) => writeCode(flow, kase));
    const messages = codes.map((code) => makeHandOver(shop, base, code).message);
    // A link also holds the day it was made.
    const links = cases.map((kase) => `${base}check?${writeLink(flow, kase)}&made=2026-05-04`);
    const sum = (texts: string[]) => {
      const lengths = texts.map(({ length }) => length);
      return { median: median(lengths), worst: Math.max(...lengths) };
    };
    const figures = { link: sum(links), code: sum(codes), message: sum(messages) };
    console.info(`lengths ${name}:`, JSON.stringify(figures));
    expect(figures.link.worst).toBeLessThanOrEqual(300);
    expect(figures.code.median).toBeLessThanOrEqual(12);
    expect(figures.message.worst).toBeLessThanOrEqual(SHORT_MESSAGE);
  });

  test("the case comes back from the code of what was blurted out", () => {
    for (const kase of blurted) {
      const read = readCode(() => flow, writeCode(flow, kase));
      const set = (answers: readonly { to: string; is: string }[]) =>
        answers.map(({ to, is }) => `${to}=${is}`).sort();
      expect(read.ok && set(read.case.answers)).toEqual(set(kase.answers));
    }
  });
});

describe("the text message", () => {
  test.each([
    ["+1 555 0100", "sms:+15550100?"],
    ["(555) 010-0199", "sms:+15550100199?"],
    ["0555 0100199", "sms:+15550100199?"],
    ["+44 20 7946 0000", "sms:+442079460000?"],
  ])("to %s", (typed, start) => {
    expect(writeSms(shop, typed, "hello")?.startsWith(start)).toBe(true);
  });

  test.each(["", "+", "12", "call me", "+0 555 0100", "555;ext=1", "+1555010010055501001", "<script>"])(
    "goes not to %j",
    (typed) => {
      expect(writeSms(shop, typed, "hello")).toBeNull();
    },
  );

  test("is of the letters that need no more room than one text message", () => {
    // The basic character set of 3GPP TS 23.038, 6.2.1, as far as it is ASCII; the rest would halve the room.
    for (const kase of inTurn) {
      const { message } = makeHandOver(shop, base, writeCode(flow, kase));
      expect(message).toMatch(/^[A-Za-z0-9 @$_!"#%&'()*+,\-./:;<=>?\n]+$/);
    }
  });

  test("ends in a link that no phone cuts short", () => {
    for (const symbol of "*~$=U") {
      const { shortLink } = makeHandOver(shop, base, `E01J${symbol}`);
      expect(shortLink).toMatch(/[A-Z0-9]$/);
      expect(decodeURIComponent(shortLink)).toBe(`${base}c/E01J${symbol}`);
    }
  });
});

describe("spelling", () => {
  test("every character of every code has a word", () => {
    for (const kase of inTurn) {
      for (const { symbol, word } of spellCode(writeCode(flow, kase))) expect(word).not.toBe(symbol);
    }
  });

  test("groups have three or four characters and lose none", () => {
    fc.assert(
      fc.property(fc.string({ minLength: 6, maxLength: 40 }), (code) => {
        const groups = groupCode(code);
        expect(groups.join("")).toBe(code);
        for (const { length } of groups) expect([3, 4]).toContain(length);
      }),
    );
  });
});
