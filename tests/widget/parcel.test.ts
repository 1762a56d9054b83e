import { describe, expect, test } from "vitest";
import type { Edition } from "../../flows/edition.ts";
import { packFirst, packProse } from "../../flows/parcel/pack.ts";
import { addProse, unpackFirst } from "../../flows/parcel/unpack.ts";
import { shippedFlow } from "../support/shipped-flow.ts";
import { tinyFlow } from "../support/tiny-flow.ts";

const editions = { shipped: shippedFlow().edition, tiny: tinyFlow().edition };

/** As sent and received. */
function travel(edition: Edition): Edition {
  const first = JSON.parse(JSON.stringify(packFirst(edition)));
  const prose = JSON.parse(JSON.stringify(packProse(edition)));
  return addProse(unpackFirst(first), prose);
}

/** Lists of ids whose order says nothing. */
function sortLists({ hallmark, supports, against, excludes }: Edition["conditions"][number]["evidence"]) {
  return [hallmark, supports, against, excludes].map((ids) => ids.toSorted());
}

describe.each(Object.entries(editions))("the parcels of the %s edition", (_name, edition) => {
  const back = travel(edition);

  test("bring back all that asks and judges", () => {
    for (const key of ["number", "hash", "weights", "conversation", "findings", "questions"] as const) {
      expect(back[key], key).toEqual(edition[key]);
    }
    expect(back.shop).toEqual(edition.shop);
    edition.conditions.forEach((condition, at) => {
      const { evidence, sources, eppo, whenAbsent, ...rest } = condition;
      expect(back.conditions[at]).toMatchObject(rest);
      expect(sortLists(back.conditions[at]?.evidence ?? evidence)).toEqual(sortLists(evidence));
      expect(back.conditions[at]?.whenAbsent.against.toSorted()).toEqual(whenAbsent.against.toSorted());
      expect(back.conditions[at]?.whenAbsent.excludes.toSorted()).toEqual(whenAbsent.excludes.toSorted());
    });
  });

  test("bring back all that the plan says", () => {
    edition.remedies.forEach(({ toxicity, sources, uses = [], ...remedy }, at) => {
      expect(back.remedies[at]).toMatchObject({ ...remedy, uses });
    });
    edition.hosts.forEach(({ light, water, sources, ...host }, at) => {
      expect(back.hosts[at]).toMatchObject(host);
    });
  });

  test("bring back all that days and amounts come from", () => {
    expect(back.products ?? []).toEqual(edition.products ?? []);
    expect(back.pots).toEqual(edition.pots);
    expect(back.pacing).toEqual(edition.pacing);
  });

  test("hold no papers that nobody would see", () => {
    const cited = new Set(edition.conditions.flatMap(({ sources }) => sources));
    for (const source of back.sources) expect(cited.has(source.id) && source.tier !== "none").toBe(true);
  });
});
