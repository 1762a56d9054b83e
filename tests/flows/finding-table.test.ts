import fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import type { Finding } from "../../flows/edition.ts";
import {
  ABSENT,
  closeFindings,
  counts,
  type FindingTable,
  PRESENT,
  tabulateFindings,
  UNKNOWN,
} from "../../flows/finding-table.ts";
import { finding } from "../support/make-edition.ts";
import { shippedFlow } from "../support/shipped-flow.ts";

// Slow machines may take their time.
vi.setConfig({ testTimeout: 60_000 });

/** speck → white → mark; and a whole made of two parts that implies one of them. */
const table = tabulateFindings([
  finding({ id: "mark" }),
  finding({ id: "white", implies: ["mark"] }),
  finding({ id: "speck", implies: ["white"] }),
  finding({ id: "limp" }),
  finding({ id: "soggy", kind: "site" }),
  finding({ id: "limp-in-soggy", implies: ["limp"], combines: ["limp", "soggy"] }),
]);

function close(present: string[], absent: string[], of: FindingTable = table): Record<string, number> {
  const known = closeFindings(of, present.map(of.at), absent.map(of.at));
  return Object.fromEntries([...of.index].map(([id, i]) => [id, known[i] ?? -1]));
}

describe("closeFindings", () => {
  it("knows nothing of what was not said", () => {
    expect(new Set(Object.values(close([], [])))).toEqual(new Set([UNKNOWN]));
  });

  it("lets a sharp finding bring all its vaguer ones, through several steps", () => {
    expect(close(["speck"], [])).toMatchObject({ speck: PRESENT, white: PRESENT, mark: PRESENT });
  });

  it("does not let a vague finding bring a sharper one", () => {
    expect(close(["mark"], [])).toMatchObject({ mark: PRESENT, white: UNKNOWN, speck: UNKNOWN });
  });

  it("lets an absent finding take its sharper ones with it, but not its vaguer ones", () => {
    expect(close([], ["white"])).toMatchObject({ mark: UNKNOWN, white: ABSENT, speck: ABSENT });
  });

  it("makes a whole of its parts only when all are there", () => {
    expect(close(["limp"], [])["limp-in-soggy"]).toBe(UNKNOWN);
    expect(close(["limp", "soggy"], [])["limp-in-soggy"]).toBe(PRESENT);
    expect(close(["limp"], ["soggy"])["limp-in-soggy"]).not.toBe(PRESENT);
  });

  it("makes a whole of wholes, in whatever order the findings are listed", () => {
    const nested = [
      finding({ id: "outer", combines: ["inner", "c"] }),
      finding({ id: "inner", combines: ["a", "b"] }),
      ...["a", "b", "c"].map((id) => finding({ id })),
    ];
    for (const listed of [nested, [...nested].reverse()]) {
      expect(close(["a", "b", "c"], [], tabulateFindings(listed))).toMatchObject({
        inner: PRESENT,
        outer: PRESENT,
      });
    }
  });

  it("lets what was seen overrule what was not, also when it was only implied", () => {
    expect(close(["speck"], ["mark"])).toMatchObject({ speck: PRESENT, white: PRESENT, mark: PRESENT });
    expect(close(["white"], ["white"])).toMatchObject({ white: PRESENT, speck: UNKNOWN });
    expect(close(["limp", "soggy"], ["limp-in-soggy"])).toMatchObject({ "limp-in-soggy": PRESENT });
  });

  it("survives findings that imply each other", () => {
    const circle = tabulateFindings([
      finding({ id: "a", implies: ["b"] }),
      finding({ id: "b", implies: ["a"] }),
    ]);
    expect(close(["a"], [], circle)).toEqual({ a: PRESENT, b: PRESENT });
  });

  it("clears an array that is used again", () => {
    const used = closeFindings(table, [table.at("speck")], []);
    closeFindings(table, [], [table.at("limp")], used);
    expect(used[table.at("speck")]).toBe(UNKNOWN);
    expect(used[table.at("limp")]).toBe(ABSENT);
  });
});

describe("counts", () => {
  it("passes over a vague finding when a sharper one is there", () => {
    const known = closeFindings(table, [table.at("speck")], []);
    expect(["mark", "white", "speck"].map((id) => counts(table, known, table.at(id)))).toEqual([
      false,
      false,
      true,
    ]);
  });

  it("counts the vague finding when it is all that is known", () => {
    const known = closeFindings(table, [table.at("mark")], [table.at("speck")]);
    expect(counts(table, known, table.at("mark"))).toBe(true);
    expect(counts(table, known, table.at("speck"))).toBe(false);
  });
});

describe("tabulateFindings", () => {
  it("takes site and care for circumstances, and whatever says so itself", () => {
    const { isCircumstance } = tabulateFindings([
      finding({ id: "a", kind: "symptom" }),
      finding({ id: "b", kind: "sign" }),
      finding({ id: "c", kind: "site" }),
      finding({ id: "d", kind: "care" }),
      finding({ id: "e", kind: "symptom", circumstance: true }),
    ]);
    expect(isCircumstance).toEqual([false, false, true, true, true]);
  });

  it("throws on an id it does not hold, which is a bug of the caller", () => {
    expect(() => tabulateFindings([finding({ id: "a", implies: ["b"] })])).toThrow('"b"');
  });
});

describe("the shipped findings, closed at random", () => {
  const { edition, findings } = shippedFlow();
  const some = fc.uniqueArray(fc.nat({ max: findings.size - 1 }), { maxLength: 12 });

  it("never say that a sharp finding is there and a vaguer one is not", () => {
    fc.assert(
      fc.property(some, some, (present, absent) => {
        const known = closeFindings(findings, present, absent);
        edition.findings.forEach(({ id, implies }: Finding, i) => {
          for (const vaguer of implies) {
            const state = known[findings.at(vaguer)];
            if (known[i] === PRESENT) expect(state, `${id} → ${vaguer}`).toBe(PRESENT);
            if (state === ABSENT) expect(known[i], `${id} → ${vaguer}`).toBe(ABSENT);
          }
        });
      }),
    );
  });

  it("keep everything that was seen, and close to the same again", () => {
    fc.assert(
      fc.property(some, some, (present, absent) => {
        const known = closeFindings(findings, present, absent);
        for (const seen of present) expect(known[seen]).toBe(PRESENT);
        const all = [...known.keys()];
        const again = closeFindings(
          findings,
          all.filter((i) => known[i] === PRESENT),
          all.filter((i) => known[i] === ABSENT),
        );
        expect([...again]).toEqual([...known]);
      }),
    );
  });
});
