import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { z } from "zod";
import { loadFiles, shippedContent } from "../flows/content/content-files.ts";

interface Entry {
  organism: string;
  kind: "animal" | "plant" | "fungus" | "virus";
  /** Where the code is published beside the name; "from memory" where no page was found. */
  source: string;
}

/** Codes of the European and Mediterranean Plant Protection Organization. */
const published: Record<string, Entry> = {
  BOTRCI: {
    organism: "Botrytis cinerea",
    kind: "fungus",
    source: "https://rnqp.eppo.int/recommendations/summarysheet_host?id=1667",
  },
  INSV00: {
    organism: "Impatiens necrotic spot virus",
    kind: "virus",
    source: "https://gd.eppo.int/taxon/INSV00/datasheet",
  },
  FRANOC: {
    organism: "Frankliniella occidentalis",
    kind: "animal",
    source: "https://pra.eppo.int/pra/0d243d4f-835b-4acf-98c8-1f06550e865c/export",
  },
  TRIAVA: {
    organism: "Trialeurodes vaporariorum",
    kind: "animal",
    source: "https://gd.eppo.int/taxon/TRIAVA/distribution/ES_ci",
  },
  BEMITA: {
    organism: "Bemisia tabaci",
    kind: "animal",
    source: "https://rnqp.eppo.int/recommendations/summarysheet_host?id=674",
  },
  TETRUR: { organism: "Tetranychus urticae", kind: "animal", source: "from memory" },
  MYZUPE: { organism: "Myzus persicae", kind: "animal", source: "from memory" },
  APHIGO: { organism: "Aphis gossypii", kind: "animal", source: "from memory" },
  COCCHE: { organism: "Coccus hesperidum", kind: "animal", source: "from memory" },
};

/** The organism that a condition's own code has to stand for. */
const expected: Record<string, string> = { "spider-mites": "TETRUR", "grey-mold": "BOTRCI" };

const conditionShape = z.object({
  id: z.string(),
  kind: z.string(),
  eppo: z.string().nullish(),
  eppo_note: z.string().nullish(),
});
type Condition = z.infer<typeof conditionShape>;

const conditions = Object.entries(loadFiles(shippedContent))
  .filter(([name]) => name.startsWith("conditions/"))
  .map(([, text]) => conditionShape.parse(parse(text.split(/^---$/m)[1] ?? "")));

/**
 * Five letters for plants; six for all others, where viruses and the like may end in digits.
 * "EPPO codes", https://www.eppo.int/RESOURCES/eppo_databases/eppo_codes (from memory; the five and the six letters also
 * in https://wikimili.com/en/EPPO_Code and its copies).
 */
function hasForm(code: string, kind: Entry["kind"]): boolean {
  if (kind === "plant") return /^[A-Z]{5}$/.test(code);
  if (kind === "virus") return /^[A-Z]{4}(?:[A-Z]{2}|[A-Z]\d|\d{2})$/.test(code);
  return /^[A-Z]{6}$/.test(code);
}

/** A condition's own code and those in its note: capitals or digits that stand like a code. */
function codesOf({ eppo, eppo_note }: Condition): string[] {
  const inNote = eppo_note?.match(/\b(?=[A-Z0-9]*[A-Z]{4})[A-Z0-9]{5,6}\b/g) ?? [];
  return [...(eppo ? [eppo] : []), ...inNote];
}

describe("EPPO codes", () => {
  const used = [...new Set(conditions.flatMap(codesOf))].sort();

  it("are read from every condition", () => {
    expect(conditions.length).toBeGreaterThan(50);
    expect(used.length).toBeGreaterThan(0);
  });

  it.each(used)("%s is a published code of the right form", (code) => {
    const entry = published[code];
    expect(entry, `${code} is not in the table`).toBeDefined();
    expect(entry && hasForm(code, entry.kind)).toBe(true);
  });

  it("stand for the organism the condition is about", () => {
    const own = conditions.flatMap(({ id, eppo }) => (eppo ? [[id, eppo] as const] : []));
    expect(Object.fromEntries(own)).toEqual(expected);
  });

  it("are given only to living causes", () => {
    const wrong = conditions.filter(
      (condition) => condition.kind === "abiotic" && codesOf(condition).length > 0,
    );
    expect(wrong.map(({ id }) => id)).toEqual([]);
  });

  // Published examples of the rule: Zea mays ZEAMX or ZEAMA, Phytophthora infestans PHYTIN, Bemisia tabaci BEMITA
  // (https://wikimili.com/en/EPPO_Code); poinsettia EPHPU (https://rnqp.eppo.int/recommendations/summarysheet_host?id=900).
  it.each([
    ["ZEAMA", "plant"],
    ["EPHPU", "plant"],
    ["PHYTIN", "fungus"],
    ["BEMITA", "animal"],
    ["INSV00", "virus"],
  ] as const)("%s has the form of a %s", (code, kind) => {
    expect(hasForm(code, kind)).toBe(true);
    expect(hasForm(code.toLowerCase(), kind)).toBe(false);
    expect(hasForm(`${code}X`, kind)).toBe(false);
  });
});
