import { formatProblem } from "../../flows/content/problems.ts";
import { readContent } from "../../flows/content/read-content.ts";
import { type Flow, openFlow } from "../../flows/flow.ts";
import { loadFiles, tinyContent } from "../flows/content/content-files.ts";

let opened: Flow | undefined;

/** Three conditions, three host plants, every feature of the content once. */
export function tinyFlow(): Flow {
  opened ??= openTiny();
  return opened;
}

function openTiny(): Flow {
  const { edition, problems } = readContent(loadFiles(tinyContent));
  if (!edition) throw new Error(`tiny-content does not read:\n${problems.map(formatProblem).join("\n")}`);
  return openFlow(edition);
}
