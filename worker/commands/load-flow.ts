import { formatProblem } from "../../flows/content/problems.ts";
import { readContent } from "../../flows/content/read-content.ts";
import { type Flow, openFlow } from "../../flows/flow.ts";
import { loadContent } from "../build.ts";
import { hashEdition } from "../hash-edition.ts";

/** Reads content/ into a flow. Prints what is wrong with the content and ends the process when it cannot be read. */
export async function loadFlow(): Promise<Flow> {
  const { edition, problems } = readContent(await loadContent());
  if (edition) return openFlow({ ...edition, hash: await hashEdition(edition) });
  for (const problem of problems) console.error(formatProblem(problem));
  process.exit(1);
}
