import { describe, expect, it } from "vitest";
import { frequencies } from "../../flows/edition.ts";
import { hostWord, tabulateEvidence } from "../../flows/evidence-table.ts";
import { tabulateFindings } from "../../flows/finding-table.ts";
import {
  condition,
  finding,
  type GivenCondition,
  host,
  makeEdition,
  plainWeights,
} from "../support/make-edition.ts";

const fern = host({ id: "sword-fern", groups: ["fern"] });
const basil = host({ id: "basil", groups: ["herb"] });

function tabulate(...conditions: GivenCondition[]) {
  const edition = makeEdition({
    findings: ["h", "s", "a", "x", "n"].map((id) => finding({ id })),
    conditions: conditions.map((given) => condition(given)),
    hosts: [fern, basil],
  });
  return tabulateEvidence(edition, tabulateFindings(edition.findings));
}

const evidence = { hallmark: ["h"], supports: ["s"], against: ["a"], excludes: ["x"] };

describe("tabulateEvidence", () => {
  it("gives each word its weight from the table when the finding is present", () => {
    const { present } = tabulate({ id: "c", evidence });
    expect(present.map((bearings) => bearings[0]?.weight)).toEqual([13, 5, -5, -30, undefined]);
    expect(present.map((bearings) => bearings[0]?.word)).toEqual([
      "hallmark",
      "supports",
      "against",
      "excludes",
      undefined,
    ]);
  });

  it("lets a missing hallmark speak against by its own weight, and missing counter-evidence say nothing", () => {
    const { absent } = tabulate({ id: "c", evidence });
    expect(absent.map((bearings) => bearings[0]?.weight)).toEqual([-4, -1, undefined, undefined, undefined]);
    expect(absent[0]?.[0]?.word).toBe("against");
  });

  it("lets `whenAbsent` replace the usual weight, never add to it", () => {
    const { absent } = tabulate({ id: "c", evidence, whenAbsent: { against: ["s"], excludes: ["h"] } });
    expect(absent[0]).toEqual([{ condition: 0, word: "excludes", weight: -30 }]);
    expect(absent[1]).toEqual([{ condition: 0, word: "against", weight: -5 }]);
  });

  it("leaves out what weighs nothing when absent", () => {
    const edition = makeEdition({
      findings: ["h", "s", "a", "x"],
      conditions: [condition({ id: "c", evidence })],
      weights: { ...plainWeights, absent: { hallmark: -4, supports: 0, against: -5, excludes: -30 } },
    });
    const { absent } = tabulateEvidence(edition, tabulateFindings(edition.findings));
    expect(absent.map((bearings) => bearings.length)).toEqual([1, 0, 0, 0]);
  });

  it.each(frequencies)("starts a condition that is %s at its weight in the table", (howCommon) => {
    expect([...tabulate({ id: "c", howCommon }).start(null)]).toEqual([plainWeights.howCommon[howCommon]]);
  });

  it("adds the word of the host plant to the start", () => {
    const table = tabulate(
      { id: "prone", prone: ["fern"] },
      { id: "immune", immune: ["sword-fern"] },
      { id: "only-herbs", onlyOn: ["herb"] },
      { id: "any" },
    );
    expect([...table.start("sword-fern")]).toEqual([4, -40, -40, 0]);
    expect([...table.start("basil")]).toEqual([0, 0, 0, 0]);
    expect([...table.start(null)]).toEqual([0, 0, -4, 0]);
  });

  it("links both sides when one names the other, and no condition with itself", () => {
    const table = tabulate(
      { id: "a", broughtOnBy: ["b"] },
      { id: "b" },
      { id: "c", brings: ["a"], looksLike: [{ other: "b", check: [] }] },
    );
    expect(table.linked.map((mask) => [...mask])).toEqual([
      [0, 1, 1],
      [1, 0, 0],
      [1, 0, 0],
    ]);
    expect(table.alike.map((mask) => [...mask])).toEqual([
      [0, 0, 0],
      [0, 0, 1],
      [0, 1, 0],
    ]);
  });

  it("lists the same bearings by condition as by finding", () => {
    const table = tabulate({ id: "a", evidence }, { id: "b", evidence: { hallmark: ["n"], against: ["h"] } });
    const byCondition = table.rows.flatMap((rows, c) =>
      rows.map((row) => `${c} ${row.finding} ${row.weight}`),
    );
    const byFinding = [table.present, table.absent].flatMap((columns) =>
      columns.flatMap((bearings, f) => bearings.map(({ condition: c, weight }) => `${c} ${f} ${weight}`)),
    );
    expect(byCondition.sort()).toEqual(byFinding.sort());
  });
});

describe("hostWord", () => {
  const word = (given: Partial<GivenCondition>, plant = fern) =>
    hostWord(condition({ id: "c", ...given }), plant);

  it("lets immune overrule prone", () => {
    expect(word({ prone: ["fern"], immune: ["sword-fern"] })).toBe("immune");
  });

  it("says where a condition lives only on other plants", () => {
    expect(word({ onlyOn: ["herb"] })).toBe("elsewhere");
    expect(word({ onlyOn: ["fern"] })).toBeUndefined();
    expect(word({ onlyOn: ["fern"], prone: ["sword-fern"] })).toBe("prone");
  });

  it("says so when the plant is not known and that matters", () => {
    expect(hostWord(condition({ id: "c", onlyOn: ["fern"] }), undefined)).toBe("unknown");
    expect(hostWord(condition({ id: "c", prone: ["fern"], immune: ["herb"] }), undefined)).toBeUndefined();
  });
});
