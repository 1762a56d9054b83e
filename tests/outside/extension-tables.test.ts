import { describe, expect, it } from "vitest";
import { z } from "zod";
import { judge } from "../../flows/verdict.ts";
import { shippedFlow } from "../support/shipped-flow.ts";
import { readOutside, unknownIds, volunteer } from "./outside-file.ts";

const ids = z.array(z.string()).min(1);
const rowShape = z.strictObject({
  says: z.string(),
  findings: ids,
  host: z.string().optional(),
  causes: ids,
});
const tableShape = z.strictObject({
  publisher: z.string(),
  title: z.string(),
  url: z.string(),
  read: z.enum(["excerpt", "facts"]),
  rows: z.array(rowShape).min(1),
});

/** Rows that are not about houseplants or name no condition of ours: what the row says → why it is left out. */
const exceptions: Record<string, string> = {};

const flow = shippedFlow();
const tables = readOutside("extension-tables.yaml", z.array(tableShape));
const rows = tables
  .flatMap((table) => table.rows.map((row) => ({ ...row, from: `${table.publisher}, ${table.title}` })))
  .filter(({ says }) => !(says in exceptions));
type Row = (typeof rows)[number];

/** The best place that one of the row's causes takes, from 1; a cause for which nothing speaks takes none. */
function bestPlace(row: Row): number {
  const verdict = judge(flow, volunteer(flow, { present: row.findings, absent: [], host: row.host }));
  const leads = verdict.candidates.filter(({ speaks }) => speaks).map(({ condition }) => condition);
  const places = row.causes.map((cause) => leads.indexOf(cause) + 1).filter((place) => place > 0);
  return Math.min(...places);
}

function describeMiss(row: Row): string {
  const verdict = judge(flow, volunteer(flow, { present: row.findings, absent: [], host: row.host }));
  const leads = verdict.candidates.slice(0, 5).map(({ condition, weight }) => `${condition} ${weight}`);
  return `${row.from}: ${row.says}\n    place ${bestPlace(row)} of ${row.causes.join(", ")}; we say ${leads.join(", ")}`;
}

describe("published tables of houseplant problems", () => {
  it("are at least 60 rows of at least 5 publishers", () => {
    expect(rows.length).toBeGreaterThanOrEqual(60);
    expect(new Set(tables.map(({ publisher }) => publisher)).size).toBeGreaterThanOrEqual(5);
  });

  it("name only findings, plants and conditions of ours", () => {
    const unknown = rows.flatMap(({ findings, causes, host }) =>
      unknownIds(flow, { findings, conditions: causes, host }),
    );
    expect(unknown).toEqual([]);
  });

  it.each(rows.map((row) => [row.from, row.says, row] as const))(
    "%s: %s (a printed cause is among our first five)",
    (_from, _says, row) => {
      expect(bestPlace(row), describeMiss(row)).toBeLessThanOrEqual(5);
    },
  );

  it("have a printed cause among our first three in four rows of five", () => {
    const misses = rows.filter((row) => bestPlace(row) > 3);
    console.info(
      [
        `${rows.length - misses.length} of ${rows.length} rows among the first three; the others:`,
        ...misses.map(describeMiss),
      ].join("\n  "),
    );
    expect(misses.length / rows.length).toBeLessThanOrEqual(0.2);
  });
});
