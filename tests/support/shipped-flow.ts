import { formatProblem } from "../../flows/content/problems.ts";
import { readContent } from "../../flows/content/read-content.ts";
import { type Flow, openFlow } from "../../flows/flow.ts";
import { loadFiles, shippedContent } from "../flows/content/content-files.ts";

let opened: Flow | undefined;

/** The content as shipped, ready to run. Throws the list of problems when it does not read. */
export function shippedFlow(): Flow {
  opened ??= openShipped();
  return opened;
}

function openShipped(): Flow {
  const { edition, problems } = readContent(loadFiles(shippedContent));
  if (!edition) throw new Error(`content/ does not read:\n${problems.map(formatProblem).join("\n")}`);
  return openFlow(edition);
}
