/**
 * `npm run -s cases -- FILE…`: plays case histories (one JSON object a line) through a simulated shopper and prints one
 * JSON document with every replay and the rates over all of them.
 */
import { readFile } from "node:fs/promises";
import { type CaseHistory, replayHistory, scoreReplays } from "../../flows/case-history.ts";
import { loadFlow } from "./load-flow.ts";

const files = process.argv.slice(2);
if (files.length === 0) {
  console.error("Name at least one file of case histories: npm run -s cases -- FILE…");
  process.exit(1);
}
const flow = await loadFlow();
const histories = (await Promise.all(files.map(readHistories))).flat();
const replays = histories.map((history) => replayHistory(flow, history));
const cases = replays.map(({ id, questions, standing, firstThree, secondFinding, methods, asked, link }) => ({
  id,
  questions,
  standing,
  firstThree,
  secondFinding,
  methods,
  asked,
  link,
}));
console.log(JSON.stringify({ cases, total: scoreReplays(histories, replays) }, null, 2));

async function readHistories(file: string): Promise<CaseHistory[]> {
  const lines = (await readFile(file, "utf8").catch(() => fail(`There is no file ${file}.`))).split("\n");
  return lines.flatMap((line, i) => {
    if (line.trim() === "") return [];
    try {
      return [JSON.parse(line) as CaseHistory];
    } catch {
      return fail(`${file}:${i + 1} is not a JSON object on one line.`);
    }
  });
}

function fail(sentence: string): never {
  console.error(sentence);
  process.exit(1);
}
