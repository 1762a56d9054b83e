import { readFileSync } from "node:fs";
import fc from "fast-check";
import { distance as published } from "fastest-levenshtein";
import { describe, expect, it, test, vi } from "vitest";
import { parse } from "yaml";
import { distance, findHosts } from "../../flows/find-host.ts";
import { host, makeFlow } from "../support/make-edition.ts";
import { shippedFlow } from "../support/shipped-flow.ts";

// Slow machines may take their time.
vi.setConfig({ testTimeout: 60_000 });

interface Typed {
  typed: string;
  means: string;
}

interface PlantNames {
  published: Typed[];
  misspelt: Typed[];
  spoken: Typed[];
  nothing: string[];
}

const names = parse(
  readFileSync(new URL("../cases/plant-names.yaml", import.meta.url), "utf8"),
) as PlantNames;
const flow = shippedFlow();
const first = (text: string) => findHosts(flow, text)[0]?.id;

describe("findHosts", () => {
  it.each(names.published)("knows the published name $typed", ({ typed, means }) => {
    expect(first(typed)).toBe(means);
  });

  it.each(names.misspelt)("forgives $typed", ({ typed, means }) => {
    expect(first(typed)).toBe(means);
  });

  it.each(names.spoken)("takes “$typed” as it is said", ({ typed, means }) => {
    expect(first(typed)).toBe(means);
  });

  it.each(names.nothing)("gives nothing for “%s”", (text) => {
    expect(findHosts(flow, text)).toEqual([]);
  });

  it("puts every plant first for each of its own names, in whatever case", () => {
    const wrong = flow.edition.hosts.flatMap(({ id, name, botanical, alsoCalled }) =>
      [name, ...(botanical ? [botanical] : []), ...alsoCalled].filter(
        (known) => first(known) !== id || first(known.toUpperCase()) !== id,
      ),
    );
    expect(wrong).toEqual([]);
  });

  it("gives the best first, each plant once, and no more than asked for", () => {
    const found = findHosts(flow, "palm", 3);
    expect(found.length).toBe(3);
    expect(found[0]?.id).toBe("any-palm");
    const ids = findHosts(flow, "fern", 50).map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it("leaves short names alone: one wrong letter makes another word", () => {
    const short = makeFlow({ findings: [], hosts: [host({ id: "fig" }), host({ id: "mint" })] });
    expect(findHosts(short, "fog")).toEqual([]);
    expect(findHosts(short, "mind")).toEqual([]);
    expect(findHosts(short, "mint").map(({ id }) => id)).toEqual(["mint"]);
  });

  it("does not depend on the order of the plants in the edition, save between equals", () => {
    const hosts = [host({ id: "a", name: "Sword fern" }), host({ id: "b", name: "Fern" })];
    const ids = (of: typeof hosts) =>
      findHosts(makeFlow({ findings: [], hosts: of }), "fern").map(({ id }) => id);
    expect(ids(hosts)).toEqual(ids([...hosts].reverse()));
  });

  it("never throws, whatever is typed, and gives plants of the edition only", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary", maxLength: 300 }), fc.nat({ max: 12 }), (text, limit) => {
        const found = findHosts(flow, text, limit);
        expect(found.length).toBeLessThanOrEqual(limit);
        for (const plant of found) expect(flow.host(plant.id)).toBe(plant);
      }),
      { numRuns: 300 },
    );
  });
});

test("the distance is Levenshtein's, as the package fastest-levenshtein has it", () => {
  const word = fc.string({ unit: fc.constantFrom(..."abcé "), maxLength: 12 });
  fc.assert(
    fc.property(word, word, (a, b) => {
      expect(distance(a, b)).toBe(published(a, b));
    }),
    { numRuns: 3_000 },
  );
});
