/** Goes through every conversation of a draft in the checker, part by part. */
import type { TestComparison } from "../../flows/compare/case-tests.ts";
import type { Cause } from "../../flows/compare/causes.ts";
import type { Comparison } from "../../flows/compare/report.ts";
import type { WalkReport } from "../../flows/walk/walk.ts";
import { type Checker, type Outcome, startChecker } from "./checker-client.ts";
import { type Contents, loadContents } from "./contents.ts";
import type { JobName, Jobs, Names } from "./protocol.ts";

/** What was found so far. */
export interface Findings {
  liveNumber: number;
  names: Names;
  tests: TestComparison[];
  comparison: Comparison | null;
  /** Of the first groups of the comparison, in their order. */
  causes: Cause[][];
  walk: WalkReport | null;
}

export interface StudyHooks {
  signal: AbortSignal;
  /** `share`: of the whole, from 0 to 1. */
  onProgress(label: string, share: number): void;
  /** Whenever a part is there. */
  onFound(found: Findings): void;
}

export type Ended = "done" | "stopped" | { refused: string };

/** Where the comparison ends and the walk begins, as a share of the whole: about as long as each of them takes. */
const COMPARED = 0.45;
/** Groups explained at once. */
export const EXPLAINED = 12;

const UNREACHED = "The draft could not be fetched. Please try again.";
const MOVED = "Someone changed the draft since this page was opened. Reload the page, then go on.";

interface Draft {
  address: string;
  /** As the page saw it; what it says about the draft holds for this one. */
  revision: number;
}

export async function runStudy(draft: Draft, hooks: StudyHooks): Promise<Ended> {
  hooks.onProgress("Reading the draft", 0);
  let contents: Contents;
  try {
    contents = await loadContents(draft.address);
  } catch {
    return { refused: UNREACHED };
  }
  if (contents.revision !== draft.revision) return { refused: MOVED };
  const checker = startChecker();
  try {
    await readAll(checker, contents, hooks);
    return "done";
  } catch (why) {
    if (why instanceof Halt) return why.ended;
    throw why;
  } finally {
    checker.close();
  }
}

/** Ends a study before it is done; never leaves this file. */
class Halt extends Error {
  readonly ended: Ended;
  constructor(ended: Ended) {
    super();
    this.ended = ended;
  }
}

async function readAll(checker: Checker, contents: Contents, hooks: StudyHooks): Promise<void> {
  const { live, draft, liveNumber, kept } = contents;
  const ask = async <N extends JobName>(name: N, asks: Jobs[N]["asks"], from = 0, to = 0, label = "") =>
    take<Jobs[N]["gives"]>(
      await checker.ask(name, asks, {
        signal: hooks.signal,
        onProgress: ({ share }) => hooks.onProgress(label, from + share * (to - from)),
      }),
    );
  await ask("open", { draft, live, liveNumber });
  const found: Findings = {
    ...{ liveNumber, names: await ask("names", {}), tests: await ask("tests", { tests: kept }) },
    ...{ comparison: null, causes: [], walk: null },
  };
  hooks.onFound({ ...found });
  found.comparison = await ask("compare", {}, 0.02, COMPARED, "Comparing with the live edition");
  hooks.onFound({ ...found });
  if (found.comparison.groups.length > 0) {
    hooks.onProgress("Looking for the causes", COMPARED);
    found.causes = await ask("explain", { from: 0, count: EXPLAINED });
    hooks.onFound({ ...found });
  }
  found.walk = await ask("walk", {}, COMPARED + 0.05, 1, "Checking every rule");
  hooks.onFound({ ...found });
}

function take<T>(outcome: Outcome<T>): T {
  if ("gives" in outcome) return outcome.gives;
  throw new Halt("stopped" in outcome ? "stopped" : outcome);
}
