import { editionOfCode, readCode } from "../../flows/case-code.ts";
import { editionOf, writeLink } from "../../flows/case-link.ts";
import type { Flow } from "../../flows/flow.ts";
import type { Settings } from "./settings.ts";

/** Where the conversation begins. */
export interface Beginning {
  query: string;
  /** Said when a code could not be read. */
  problem: string | undefined;
}

/** The number of the edition the case was made under; undefined when it does not tell. */
export function editionAsked(text: string): number | undefined {
  return editionOf(queryIn(text) ?? "") ?? (queryIn(text) === undefined ? editionOfCode(text) : undefined);
}

/** Turns the attributes into the query to begin with. `flowOf` gives the flow of an edition that is at hand. */
export function readBeginning(
  { case: given, host }: Pick<Settings, "case" | "host">,
  live: Flow,
  flowOf: (edition: number) => Flow | undefined,
): Beginning {
  const begun = given === undefined ? { query: "", problem: undefined } : readGiven(given, live, flowOf);
  if (host === undefined || /(?:^|&)host=/.test(begun.query)) return begun;
  const plant = `host=${encodeURIComponent(host)}`;
  return { ...begun, query: begun.query === "" ? plant : `${begun.query}&${plant}` };
}

function readGiven(text: string, live: Flow, flowOf: (edition: number) => Flow | undefined): Beginning {
  const query = queryIn(text) ?? (live.finding(text) ? text : undefined);
  if (query !== undefined) return { query, problem: undefined };
  const read = readCode(flowOf, text);
  if (!read.ok) return { query: "", problem: read.sentence };
  const link = writeLink(flowOf(read.case.edition) ?? live, read.case);
  return { query: `${link}&look=code`, problem: undefined };
}

/** The query of a link, of which only the query may be given; undefined when the text is no link. */
function queryIn(text: string): string | undefined {
  // A code may end in its check symbol "=".
  if (!/[?&]|=./.test(text)) return undefined;
  return text.replace(/#.*$/s, "").replace(/^[^?]*\?/, "");
}
