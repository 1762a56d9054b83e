import { describe, expect, it } from "vitest";
import { codeProblemCodes } from "../../flows/case-code.ts";
import { linkProblemCodes } from "../../flows/case-link.ts";
import { problemHelp } from "../../flows/content/problem-help.ts";
import { problemCodes } from "../../flows/content/problems.ts";
import { planInvariants } from "../../flows/walk/plan-invariants.ts";
import { problemKinds } from "../../worker/api/problem.ts";
import { readTable, readText } from "./papers.ts";

const paper = readText("DEVELOPERS.md");
const firstCells = (first: string) => readTable(paper, first).map(([cell]) => cell);

describe("DEVELOPERS.md has a row for", () => {
  it("each content problem, in the words of the program", () => {
    const stated = readTable(paper, "Content problem");
    expect(stated).toEqual(
      problemCodes.map((code) => [code, problemHelp[code].means, problemHelp[code].hint]),
    );
  });

  it("each problem of a case link", () => {
    expect(firstCells("Link problem")).toEqual([...linkProblemCodes]);
  });

  it("each problem of a case code", () => {
    expect(firstCells("Code problem")).toEqual([...codeProblemCodes]);
  });

  it("each problem of the API, with its status", () => {
    const stated = readTable(paper, "API problem").map(([name, status]) => [name, Number(status)]);
    expect(stated).toEqual(Object.entries(problemKinds).map(([name, { status }]) => [name, status]));
  });

  it("each rule of safety that the walk checks", () => {
    expect(firstCells("Invariant")).toEqual(expect.arrayContaining([...planInvariants]));
  });
});
