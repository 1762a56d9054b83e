import fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import { isAnswer, know } from "../../flows/case.ts";
import {
  editionOf,
  findContradictions,
  LONGEST_LINK,
  linkProblemCodes,
  readLink,
  writeLink,
} from "../../flows/case-link.ts";
import { openFlow } from "../../flows/flow.ts";
import { answerSet, caseOf } from "../support/cases.ts";
import { arbitraryCase } from "../support/random-case.ts";
import { shippedFlow } from "../support/shipped-flow.ts";
import { tinyFlow } from "../support/tiny-flow.ts";

// Slow machines may take their time.
vi.setConfig({ testTimeout: 60_000 });

const flow = tinyFlow();

function read(query: string) {
  const { case: kase, problems } = readLink(flow, query);
  return {
    answers: kase.answers.map(({ to, is }) => `${to}=${is}`),
    problems: problems.map(({ code, part }) => `${code} ${part}`),
  };
}

describe("writeLink", () => {
  it("is readable: the edition, then each answer by its ids", () => {
    expect(writeLink(flow, caseOf(flow, "what-you-see=white", "host=basil", "fine-webbing=no"))).toBe(
      "e=1&what-you-see=white&host=basil&fine-webbing=no",
    );
  });

  it("needs no escaping in a URL", () => {
    for (const of of [flow, shippedFlow()]) {
      fc.assert(
        fc.property(arbitraryCase(of), (kase) => {
          expect(writeLink(of, kase)).toMatch(/^[a-z0-9=&-]+$/);
        }),
        { numRuns: 100 },
      );
    }
  });
});

describe("readLink", () => {
  it("reads answers, the plant, findings with yes or no, and bare findings", () => {
    expect(read("?e=1&what-you-see=white&host=basil&fine-webbing=no&soil-dry-deep")).toEqual({
      answers: ["what-you-see=white", "host=basil", "fine-webbing=no", "soil-dry-deep=yes"],
      problems: [],
    });
  });

  it("takes the plant by its name, common or botanical", () => {
    for (const name of ["Basil", "sweet+basil", "Sweet%20Basil", "Ocimum+basilicum"]) {
      expect(read(`host=${name}`)).toEqual({ answers: ["host=basil"], problems: [] });
    }
  });

  it("is an empty case for an empty link", () => {
    for (const query of ["", "?", "&&", "e=1"]) expect(read(query)).toEqual({ answers: [], problems: [] });
  });

  it("keeps the valid part and names the rest", () => {
    expect(
      read("moon=full&what-you-see=white&white-look=blue&host=zzzz&fine-webbing=maybe&tap-test=dots"),
    ).toEqual({
      answers: ["what-you-see=white", "tap-test=dots"],
      problems: [
        "UNKNOWN_QUESTION moon",
        "UNKNOWN_ANSWER white-look=blue",
        "UNKNOWN_PLANT zzzz",
        "UNKNOWN_ANSWER fine-webbing=maybe",
      ],
    });
  });

  it("keeps the first of two answers that contradict each other, and names the second", () => {
    expect(read("what-you-see=white&what-you-see=limp&fine-webbing=yes&fine-webbing=no")).toEqual({
      answers: ["what-you-see=white", "fine-webbing=yes"],
      problems: ["CONTRADICTION what-you-see=limp", "CONTRADICTION fine-webbing=no"],
    });
  });

  it("says nothing of an answer that is merely repeated", () => {
    expect(read("what-you-see=white&what-you-see=white")).toEqual({
      answers: ["what-you-see=white"],
      problems: [],
    });
  });

  it("names an edition that is no number, and reads the rest", () => {
    expect(read("e=latest&host=basil")).toEqual({
      answers: ["host=basil"],
      problems: ["BAD_EDITION latest"],
    });
  });

  it("starts afresh when the link is longer than any of ours", () => {
    expect(read(`host=basil&${"x".repeat(LONGEST_LINK)}`)).toEqual({ answers: [], problems: ["TOO_LONG "] });
  });

  it("is not led astray by what JavaScript objects inherit", () => {
    for (const id of ["__proto__", "constructor", "toString", "hasOwnProperty"]) {
      expect(read(id).problems).toEqual([`UNKNOWN_QUESTION ${id}`]);
      expect(read(`host=${id}`).problems).toEqual([`UNKNOWN_PLANT ${id}`]);
      expect(read(`what-you-see=${id}`).problems).toEqual([`UNKNOWN_ANSWER what-you-see=${id}`]);
    }
  });

  it("keeps a broken escape as it stands", () => {
    expect(read("%E0%A4%A=1&host=%").problems).toEqual(["UNKNOWN_QUESTION %E0%A4%A", "UNKNOWN_PLANT %"]);
  });

  it("shortens a long part before it is shown", () => {
    const [problem] = readLink(flow, "x".repeat(500)).problems;
    expect(problem?.part.length).toBeLessThanOrEqual(61);
    expect(problem?.sentence).toContain(problem?.part);
  });
});

describe("findContradictions", () => {
  const shipped = shippedFlow();
  const find = (...answers: string[]) => findContradictions(shipped, caseOf(shipped, ...answers));

  it("names a finding that was denied though a sharper one was seen, whichever came first", () => {
    for (const answers of [
      ["fine-webbing=yes", "insects-or-webs=no"],
      ["insects-or-webs=no", "fine-webbing=yes"],
    ]) {
      const [problem, ...others] = find(...answers);
      expect(others).toEqual([]);
      expect(problem).toMatchObject({ code: "CONTRADICTION", part: "insects-or-webs=no" });
      expect(problem?.sentence).toContain("fine silk webs under the leaves or in the joints");
      expect(problem?.sentence).toContain("no insects and no webs");
    }
  });

  it("takes what an answer to a question shows, and what parts amount to", () => {
    expect(find("tap-test=dots", "insects-or-webs=no")).toHaveLength(1);
    const [whole] = find("limp-or-drooping=yes", "soil-stays-soggy=yes", "wilted-in-wet-soil=no");
    expect(whole?.part).toBe("wilted-in-wet-soil=no");
    expect(whole?.sentence).toContain(shipped.finding("soil-stays-soggy")?.name);
  });

  it("has nothing to say where both can be", () => {
    expect(find("insects-or-webs=yes", "fine-webbing=no", "soil-dry-deep=no", "host=basil")).toEqual([]);
    expect(find("what-you-see=not-sure")).toEqual([]);
  });

  it("changes no case: what was seen counts with and without the denial", () => {
    const seen = caseOf(shipped, "fine-webbing=yes");
    const both = caseOf(shipped, "fine-webbing=yes", "insects-or-webs=no");
    expect(know(shipped, both).known).toEqual(know(shipped, seen).known);
  });
});

describe("every plant of the shipped content", () => {
  const shipped = shippedFlow();

  it("is read from a link by each of its names", () => {
    const misread = shipped.edition.hosts.flatMap(({ id, name, botanical, alsoCalled }) =>
      [id, name, ...(botanical ? [botanical] : []), ...alsoCalled].filter((known) => {
        const { case: kase } = readLink(shipped, `host=${encodeURIComponent(known)}`);
        return kase.answers[0]?.is !== id;
      }),
    );
    expect(misread).toEqual([]);
  });
});

describe.each([
  ["the tiny content", flow],
  ["the shipped content", shippedFlow()],
])("any case of %s", (_, of) => {
  it("comes back from its link, volunteered findings and answers out of turn included", () => {
    fc.assert(
      fc.property(arbitraryCase(of), (kase) => {
        expect(readLink(of, writeLink(of, kase))).toEqual({ case: kase, problems: [] });
      }),
      { numRuns: 500 },
    );
  });

  it("keeps its answers when strange parts are strewn among them", () => {
    const strange = fc.array(fc.stringMatching(/^[a-z0-9-]{1,12}(=[a-z0-9%+-]{0,12})?$/), { maxLength: 5 });
    fc.assert(
      fc.property(arbitraryCase(of), strange, (kase, parts) => {
        const query = [writeLink(of, kase), ...parts.map((part) => `zz-${part}`)].join("&");
        const { case: back, problems } = readLink(of, query);
        expect(answerSet(back)).toEqual(answerSet(kase));
        expect(problems.length).toBe(parts.length);
      }),
      { numRuns: 200 },
    );
  });
});

describe("any text whatever", () => {
  const ids = ["e", "host", "what-you-see", "white", "yes", "fine-webbing", "=", "&", "%", "+", "?", "1"];
  const texts = fc.oneof(
    fc.string({ unit: "binary", maxLength: 200 }),
    fc.array(fc.constantFrom(...ids), { maxLength: 40 }).map((parts) => parts.join("")),
  );

  it("is read without a throw, into answers we know and problems from the closed list", () => {
    fc.assert(
      fc.property(texts, (text) => {
        const { case: kase, problems } = readLink(flow, text);
        for (const answer of kase.answers) expect(isAnswer(flow, answer), JSON.stringify(answer)).toBe(true);
        for (const { code, sentence } of problems) {
          expect(linkProblemCodes).toContain(code);
          expect(sentence).not.toBe("");
        }
        expect(new Set(kase.answers.map(({ to }) => to)).size).toBe(kase.answers.length);
      }),
      { numRuns: 2000 },
    );
  });
});

describe("editionOf", () => {
  it.each([
    ["e=12&host=basil", 12],
    ["?host=basil&e=3", 3],
    ["host=basil", undefined],
    ["e=x", undefined],
    ["the=4", undefined],
    ["e=1234567", undefined],
  ])("reads %s as %s", (query, edition) => {
    expect(editionOf(query)).toBe(edition);
  });

  it("reads what is written, for editions of any number", () => {
    const later = openFlow({ ...flow.edition, number: 31_415 });
    expect(editionOf(writeLink(later, caseOf(later, "host=basil")))).toBe(31_415);
  });
});
