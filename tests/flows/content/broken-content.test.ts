import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import * as z from "zod";
import { problemHelp } from "../../../flows/content/problem-help.ts";
import { problemCodes } from "../../../flows/content/problems.ts";
import { readContent } from "../../../flows/content/read-content.ts";
import { brokenContent, loadFiles, tinyContent } from "./content-files.ts";

const replacement = z.strictObject({ find: z.string(), put: z.string() });
const fixtureSchema = z.strictObject({
  lesson: z.string(),
  /** What is done to files of the tiny content. */
  files: z.record(
    z.string(),
    z.union([
      replacement,
      z.array(replacement),
      z.strictObject({ write: z.string() }),
      z.strictObject({ remove: z.literal(true) }),
    ]),
  ),
  expect: z.strictObject({ code: z.enum(problemCodes), file: z.string(), line: z.int(), column: z.int() }),
});
type Fixture = z.output<typeof fixtureSchema>;

function breakContent(
  base: Readonly<Record<string, string>>,
  changes: Fixture["files"],
): Record<string, string> {
  const files = { ...base };
  for (const [path, change] of Object.entries(changes)) {
    if ("remove" in change) delete files[path];
    else if ("write" in change) files[path] = change.write;
    else
      for (const one of Array.isArray(change) ? change : [change])
        files[path] = replaceOnce(files[path], one);
  }
  return files;
}

function replaceOnce(text: string | undefined, { find, put }: z.output<typeof replacement>): string {
  const parts = (text ?? "").split(find);
  expect(parts, `“${find}” must stand in the file once`).toHaveLength(2);
  return parts.join(put);
}

const base = loadFiles(tinyContent);
const fixtures = Object.entries(loadFiles(brokenContent)).map(([name, text]) => ({
  name,
  fixture: fixtureSchema.parse(parse(text)),
}));

describe("broken content", () => {
  it.each(fixtures)("$name: $fixture.lesson", ({ name, fixture }) => {
    expect(name).toBe(`${fixture.expect.code}.yaml`);
    const { edition, problems } = readContent(breakContent(base, fixture.files));
    expect(edition).toBeNull();
    expect(problems[0]).toMatchObject(fixture.expect);
    // One slip is told once; a slip that is told in two ways sends the editor to the wrong place.
    expect(problems.map(({ code }) => code)).toEqual([fixture.expect.code]);
  });

  it("has one fixture for each code, and help for each", () => {
    expect(fixtures.map(({ fixture }) => fixture.expect.code).sort()).toEqual([...problemCodes].sort());
    expect(Object.keys(problemHelp)).toEqual([...problemCodes]);
  });
});
