import type { Context } from "hono";
import type { Case } from "../../flows/case.ts";
import { readCode } from "../../flows/case-code.ts";
import { editionsMeant } from "../../flows/desk/mishearing.ts";
import type { Flow } from "../../flows/flow.ts";
import { explainCode, type FailedTakeOver } from "../../widget/views/desk/desk-state.ts";
import type { Shelved } from "../editions.ts";
import type { Setting } from "../setting.ts";

export type TypedCode =
  | { ok: true; live: Flow; flow: Flow; case: Case }
  /** What is not right, and what may have been meant. */
  | { ok: false; live: Flow; failed: FailedTakeOver };

/** Reads a code as it was typed. One read of the database brings every edition that it may mean, also with a slip in it. */
export async function readTypedCode(c: Context<Setting>, code: string): Promise<TypedCode> {
  return readCodeUnder(await c.var.openAnyEditions(editionsMeant(code)), code);
}

export function readCodeUnder({ live, found }: Shelved, code: string): TypedCode {
  const flowOf = (number: number) => [live, ...found].find((flow) => flow.edition.number === number);
  const read = readCode(flowOf, code);
  if (!read.ok) return { ok: false, live, failed: explainCode(flowOf, code, read.sentence) };
  return { ok: true, live, flow: flowOf(read.case.edition) ?? live, case: read.case };
}
