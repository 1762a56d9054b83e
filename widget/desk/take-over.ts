import type { Case } from "../../flows/case.ts";
import { editionOfCode, readCode } from "../../flows/case-code.ts";
import { writeLink } from "../../flows/case-link.ts";
import { variantsOf } from "../../flows/desk/mishearing.ts";
import type { Flow } from "../../flows/flow.ts";
import { replay } from "../check/replay.ts";
import { explainCode, type FailedTakeOver } from "../views/desk/desk-state.ts";
import { loadOldFlow } from "./load-flow.ts";

/** A case with what should be said about how it got here, or what may be wrong with its code. */
export type TakenOver = { case: Case; notices: string[] } | { failed: FailedTakeOver };

/** Older editions fetched for a code that does not fit. */
const MOST_EDITIONS = 3;

/** Opens a code. One of this edition needs no network; one of another needs that edition first. */
export async function takeOver(live: Flow, base: string, code: string): Promise<TakenOver> {
  const flows = new Map([[live.edition.number, live]]);
  const flowOf = (number: number) => flows.get(number);
  const load = async (codes: readonly string[]) => {
    const numbers = codes.map((one) => editionOfCode(one) ?? 0);
    const older = numbers.filter((number) => number > 0 && number < live.edition.number);
    for (const number of [...new Set(older)].slice(0, MOST_EDITIONS)) {
      const flow = flows.get(number) ?? (await loadOldFlow(base, number));
      if (flow) flows.set(number, flow);
    }
  };
  await load([code]);
  const read = readCode(flowOf, code);
  if (!read.ok) {
    await load(variantsOf(code).map((variant) => variant.code));
    return { failed: explainCode(flowOf, code, read.sentence) };
  }
  const asked = flowOf(read.case.edition) ?? live;
  const { edition, problems, ...replayed } = replay(
    { live, asked },
    writeLink(asked, read.case),
    read.case.edition,
  );
  const sentences = problems.map(({ sentence }) => sentence);
  return { case: replayed.case, notices: [...(edition?.sentence ? [edition.sentence] : []), ...sentences] };
}
