import type { Case } from "../../../flows/case.ts";
import { editionOfCode, LONGEST_CODE, readCode } from "../../../flows/case-code.ts";
import { LONGEST_LINK, readLink, writeLink } from "../../../flows/case-link.ts";
import type { Flow } from "../../../flows/flow.ts";
import { editionNumbered } from "../../api/routes.ts";
import type { RoomContext } from "../room.tsx";

export interface CaseRead {
  case: Case;
  /** Sentences about what this flow does not know. */
  problems: string[];
}

/** A case from whatever was pasted: a link, its query, or a code. Null when it is neither. */
export async function readPasted(c: RoomContext, flow: Flow, text: string): Promise<CaseRead | null> {
  const pasted = text.trim();
  if (pasted === "" || pasted.length > LONGEST_LINK) return null;
  const query = pasted.includes("=")
    ? (pasted.split("#", 1)[0] ?? "").replace(/^[^?]*\?/, "")
    : await decode(c, pasted);
  if (query === null) return null;
  const { case: kase, problems } = readLink(flow, query);
  return kase.answers.length === 0
    ? null
    : { case: kase, problems: problems.map(({ sentence }) => sentence) };
}

/** A code, or an address that ends in one, as the query of a link. It is read with the edition that wrote it. */
async function decode(c: RoomContext, pasted: string): Promise<string | null> {
  const code = safeDecode(pasted.replace(/^.*\/c\//, ""));
  if (code.length > LONGEST_CODE) return null;
  const editions = await c.var.openEditions(editionOfCode(code));
  const read = readCode((number) => editionNumbered(editions, number), code);
  if (!read.ok) return null;
  return writeLink(editionNumbered(editions, read.case.edition) ?? editions.live, read.case);
}

function safeDecode(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}
