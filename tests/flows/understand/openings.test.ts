import { describe, expect, it } from "vitest";
import { type Opening, scoreOpenings } from "../../../flows/understand/score.ts";
import { readText } from "../../docs/papers.ts";
import { shippedFlow } from "../../support/shipped-flow.ts";

const flow = shippedFlow();

function readOpenings(file: string): Opening[] {
  return readText(file)
    .split("\n")
    .filter((line) => line !== "")
    .map((line) => JSON.parse(line) as Opening);
}

// "openings" are real: forums, columns and fact sheets, as in open.jsonl. "invented" ones were written for the purpose.
describe.each(["tests/cases/openings.jsonl", "tests/cases/invented-openings.jsonl"])(
  "what is understood of %s",
  (file) => {
    const openings = readOpenings(file);
    const { total } = scoreOpenings(flow, openings);

    it("is right, and most of what stands there", () => {
      expect(total.findingPrecision).toBeGreaterThanOrEqual(0.95);
      expect(total.findingRecall).toBeGreaterThanOrEqual(0.75);
      expect(total.hostPrecision).toBeGreaterThanOrEqual(0.98);
      expect(total.hostRecall).toBeGreaterThanOrEqual(0.9);
    });

    it("turns no denial into its opposite", () => {
      expect(total.absentReadAsPresent).toBe(0);
      expect(openings.flatMap((one) => one.absent_in_opening).length).toBeGreaterThan(5);
    });

    it("is held against findings that exist", () => {
      const ids = openings.flatMap((one) => [...one.in_opening, ...one.absent_in_opening]);
      expect(ids.filter((id) => flow.finding(id) === undefined)).toEqual([]);
    });
  },
);

it("openings are those of the open cases, word for word", () => {
  const open = readText("tests/cases/open.jsonl")
    .split("\n")
    .filter((line) => line !== "");
  const openings = readText("tests/cases/openings.jsonl")
    .split("\n")
    .filter((line) => line !== "");
  const strip = (line: string) => {
    const { in_opening, absent_in_opening, host_in_opening, ...rest } = JSON.parse(line) as Record<
      string,
      unknown
    >;
    expect([Array.isArray(in_opening), Array.isArray(absent_in_opening)]).toEqual([true, true]);
    expect(host_in_opening === null || String(rest.opening).includes(String(host_in_opening))).toBe(true);
    return rest;
  };
  expect(openings.map(strip)).toEqual(open.map((line) => JSON.parse(line) as unknown));
});
