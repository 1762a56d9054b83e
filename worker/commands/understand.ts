/**
 * `npm run -s understand -- FILE…`: reads the openings of case histories (one JSON object a line, with `opening`,
 * `in_opening`, `absent_in_opening` and `host_in_opening`) as a shopper's opening line, and prints one JSON document with
 * every miss and the rates over all of them. How a vaguer finding counts beside a sharper one: see scoreOpenings.
 */
import { readFile } from "node:fs/promises";
import { type Opening, scoreOpenings } from "../../flows/understand/score.ts";
import { loadFlow } from "./load-flow.ts";

const files = process.argv.slice(2);
if (files.length === 0) fail("Name at least one file of openings: npm run -s understand -- FILE…");
const flow = await loadFlow();
const openings = (await Promise.all(files.map(readOpenings))).flat();
console.log(JSON.stringify(scoreOpenings(flow, openings), null, 2));

async function readOpenings(file: string): Promise<Opening[]> {
  const text = await readFile(file, "utf8").catch(() => fail(`There is no file ${file}.`));
  return text
    .split("\n")
    .flatMap((line, i) => (line.trim() === "" ? [] : [readOpening(line, `${file}:${i + 1}`)]));
}

function readOpening(line: string, place: string): Opening {
  const read: unknown = parse(line) ?? fail(`${place} is not a JSON object on one line.`);
  const { id, opening, in_opening, absent_in_opening, host_in_opening } = read as Record<string, unknown>;
  if (typeof opening !== "string") fail(`${place} has no opening.`);
  return {
    id: typeof id === "string" ? id : place,
    opening,
    in_opening: readIds(in_opening, `${place}: in_opening`),
    absent_in_opening: readIds(absent_in_opening, `${place}: absent_in_opening`),
    host_in_opening: typeof host_in_opening === "string" ? host_in_opening : null,
  };
}

function parse(line: string): object | null {
  try {
    const read: unknown = JSON.parse(line);
    return typeof read === "object" ? read : null;
  } catch {
    return null;
  }
}

function readIds(value: unknown, place: string): string[] {
  if (!Array.isArray(value)) fail(`${place} is not a list.`);
  return value.map(String);
}

function fail(sentence: string): never {
  console.error(sentence);
  process.exit(1);
}
