import { describe, expect, it } from "vitest";
import { problemCodes } from "../../../flows/content/problems.ts";
import { openReader } from "../../../flows/editing/read-draft.ts";
import { loadFiles, shippedContent } from "../content/content-files.ts";
import { faultMakers, pickBy } from "./seeded-faults.ts";

const files = loadFiles(shippedContent);
const reader = openReader();
const SEED = 20_260_101;
const makers = problemCodes.flatMap((code) => faultMakers[code].map((make, way) => ({ code, make, way })));

describe("faults put into the shipped content by chance", () => {
  it("are over a hundred, of every kind there is", () => {
    expect(new Set(makers.map(({ code }) => code)).size).toBe(problemCodes.length);
    expect(makers.length).toBeGreaterThanOrEqual(100);
  });

  it.each(makers)("$code, way $way: is found, and pointed at", ({ code, make, way }) => {
    const fault = make(files, pickBy(SEED + way));
    expect(fault.files).not.toEqual(files);
    const { edition, problems } = reader.read(fault.files);
    expect(edition).toBeNull();
    const found = problems.filter((problem) => problem.code === code && problem.file === fault.file);
    const all = problems.map(({ code, file, line }) => `${code} ${file}:${line}`);
    expect(found, `${fault.file}:${fault.line} ${all}`).not.toEqual([]);
    if (fault.line !== undefined) {
      expect(
        found.map(({ line }) => line),
        all.join(),
      ).toContain(fault.line);
    }
    for (const { sentence, hint, line, column } of found) {
      expect(sentence).toMatch(/^["“`\w].*[.!?]$/s);
      expect(hint.length).toBeGreaterThan(10);
      expect(line).toBeLessThanOrEqual((fault.files[fault.file] ?? "").split("\n").length + 1);
      expect(column).toBeGreaterThan(0);
    }
  });
});
