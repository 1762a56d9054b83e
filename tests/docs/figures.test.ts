import { describe, expect, it } from "vitest";
import { z } from "zod";
import { giveAnswer, newCase } from "../../flows/case.ts";
import { type CaseHistory, replayHistory, scoreReplays } from "../../flows/case-history.ts";
import { readLink } from "../../flows/case-link.ts";
import { makePlan } from "../../flows/plan.ts";
import { type Opening, scoreOpenings } from "../../flows/understand/score.ts";
import { judge } from "../../flows/verdict.ts";
import { gradePieces, LONG_PIECE, wordsIn } from "../outside/shopper-pieces.ts";
import { shippedFlow } from "../support/shipped-flow.ts";
import { readTable, readText, toNumber } from "./papers.ts";

const readme = readText("README.md");
const flow = shippedFlow();

function scoreFile(file: string) {
  const histories = readText(file)
    .split("\n")
    .filter((line) => line.trim() !== "")
    .map((line) => JSON.parse(line) as CaseHistory);
  return scoreReplays(
    histories,
    histories.map((history) => replayHistory(flow, history)),
  );
}

describe("the figures of the README", () => {
  const rows = readTable(readme, "Over case histories");
  it.each([
    ["open cases", 1, "tests/cases/open.jsonl"],
    ["vignettes", 3, "tests/cases/vignettes.jsonl"],
  ] as const)("are those of the %s today", (_, column, file) => {
    const stated = rows.map((row) => [row[0], toNumber(row[column] ?? "")]);
    expect(Object.fromEntries(stated)).toEqual(scoreFile(file));
  });

  it.each([
    ["real", 1, "tests/cases/openings.jsonl"],
    ["invented", 3, "tests/cases/invented-openings.jsonl"],
  ] as const)("are those of the %s openings today", (_, column, file) => {
    const openings = readText(file)
      .split("\n")
      .filter((line) => line.trim() !== "")
      .map((line) => JSON.parse(line) as Opening);
    const stated = readTable(readme, "Of opening lines").map((row) => [row[0], toNumber(row[column] ?? "")]);
    expect(Object.fromEntries(stated)).toEqual(scoreOpenings(flow, openings).total);
  });

  it("are those of the last walk", () => {
    const walked = z
      .object({ conversations: z.number(), longest: z.number() })
      .parse(JSON.parse(readText("tests/docs/walk-figures.json")));
    const stated = new Map(readTable(readme, "Over all conversations").map(([key, is]) => [key, is ?? ""]));
    expect(toNumber(stated.get("conversations") ?? "")).toBe(walked.conversations);
    expect(toNumber(stated.get("longest") ?? "")).toBe(walked.longest);
    expect(stated.get("violations")).toBe("0");
  });

  it("are the reading grades of what a shopper reads", () => {
    const pieces = gradePieces();
    const long = pieces.filter(({ units }) => wordsIn(units) >= LONG_PIECE);
    const measured = [pieces, long].map((some) => [
      some.length,
      Number(some[Math.floor(some.length / 2)]?.grade.toFixed(1)),
      Number(some[0]?.grade.toFixed(1)),
    ]);
    const stated = readTable(readme, "Reading grade").map((row) => row.slice(1, 4).map(toNumber));
    expect(stated).toEqual(measured);
  });

  it("are the counts of what the content holds", () => {
    const { conditions, hosts, remedies, questions, findings } = flow.edition;
    const counts = { conditions, hosts, remedies, questions, findings };
    const stated = readTable(readme, "Content").map(([kind, count]) => [kind, toNumber(count ?? "")]);
    expect(Object.fromEntries(stated)).toEqual(
      Object.fromEntries(Object.entries(counts).map(([kind, entries]) => [kind, entries.length])),
    );
  });
});

describe("the worked example of the README", () => {
  const rows = readTable(readme, "After the answer");

  it("weighs as the engine weighs", () => {
    let kase = newCase(flow);
    for (const [answer = "", mites = "", thrips = "", lead = "", standing] of rows) {
      const [to = "", is = ""] = answer.split("=");
      kase = giveAnswer(flow, kase, to, is).case;
      const verdict = judge(flow, kase);
      const weight = (id: string) => verdict.candidates.find(({ condition }) => condition === id)?.weight;
      expect({ answer, mites: weight("spider-mites"), thrips: weight("thrips") }).toEqual({
        answer,
        mites: toNumber(mites),
        thrips: toNumber(thrips),
      });
      expect([verdict.lead, verdict.standing]).toEqual([toNumber(lead), standing]);
    }
  });

  it("leaves out what the README says it leaves out", () => {
    const [query = ""] = /(?<=npm run -s ask -- ")[^"]+/.exec(readme) ?? [];
    const { case: kase, problems } = readLink(flow, query);
    expect(problems).toEqual([]);
    expect(kase.answers.map(({ to, is }) => `${to}=${is}`)).toEqual(rows.map(([answer]) => answer));
    const { leftOut } = makePlan(flow, kase, judge(flow, kase));
    expect(leftOut).toEqual([{ remedy: "labelled-miticide", because: "eaten" }]);
    expect(readme).toContain("`labelled-miticide`");
  });
});

describe("what is from memory", () => {
  const isMark = (source: string) => source === "from-memory" || source === "common-practice";

  it("is counted right, kind by kind", () => {
    const { conditions, remedies, hosts } = flow.edition;
    const counted = Object.entries({ conditions, remedies, hosts }).map(([kind, entries]) => {
      const having = (holds: (sources: string[]) => boolean) =>
        entries.filter(({ sources }) => holds(sources)).length;
      return [
        kind,
        entries.length,
        having((sources) => sources.includes("from-memory")),
        having((sources) => sources.includes("common-practice")),
        having((sources) => sources.every(isMark)),
      ];
    });
    const stated = readTable(readme, "Entries").map(([kind, ...cells]) => [kind, ...cells.map(toNumber)]);
    expect(stated).toEqual(counted);
  });

  it("stands beside the number of sources", () => {
    const counted = ["A", "B"].map((tier) => flow.edition.sources.filter((one) => one.tier === tier).length);
    const [, ...stated] = /(\d+) of tier A and (\d+) of tier B/.exec(readme) ?? [];
    expect(stated.map(Number)).toEqual(counted);
  });
});
