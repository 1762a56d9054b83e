import { type CivilDate, isCaseDay } from "../../flows/calendar/civil-date.ts";
import {
  asideNames,
  isOwnBottleName,
  type NumberName,
  numberNames,
  type RemarkName,
  remarkNames,
} from "../../flows/case-link.ts";
import type { Remarks } from "../../flows/desk/pieces.ts";

/** What was told beside the case: numbers as they were typed, thoughts and questions as ids. */
export type Typed = Readonly<Partial<Record<NumberName | RemarkName, string>>>;

/** What a page request asks for, apart from the case itself. */
export interface CheckRequest {
  /** The case's part of the query, as it was sent. */
  query: string;
  /** A question to reopen. */
  change: string | undefined;
  /** The new answer to it; empty when none was chosen. */
  to: string | undefined;
  /** A plant's name as typed. */
  plant: string | undefined;
  /** Ids of questions whose answers were set aside by the last change. */
  dropped: string[];
  /** "ask": look at the plant again; "code": the case was opened by its code, which does not say since when. */
  look: string | undefined;
  /** The day the link was handed out; undefined when it says none that could be. */
  made: CivilDate | undefined;
  /** The calendar file shall take back what an earlier one held. */
  replace: boolean;
  /** Id of the branch the shopper is with. */
  branch: string | undefined;
  typed: Typed;
}

const LONGEST_NAME = 80;
const LONGEST_NUMBER = 40;
/** Far more names than a plan has sprays. */
const MOST_OWN_BOTTLES = 24;
const LONGEST_REMARK = 200;

export function readCheckRequest(search: string): CheckRequest {
  const parameters = new URLSearchParams(search);
  const get = (name: (typeof asideNames)[number]) => parameters.get(name) ?? undefined;
  const isReserved = (part: string) => {
    const name = part.replace(/=.*$/s, "");
    return (asideNames as readonly string[]).includes(name) || isOwnBottleName(name);
  };
  const ownBottles = [...new Set(parameters.keys())].filter(isOwnBottleName).slice(0, MOST_OWN_BOTTLES);
  const kept = search
    .replace(/^\?/, "")
    .split("&")
    // An empty answer is a "none of these", or an "ask me later": the question is simply open.
    .filter((part) => !/^([a-z-]+=)?$/.test(part) && !isReserved(part));
  return {
    query: kept.join("&"),
    change: get("change"),
    to: get("to"),
    plant: get("plant")?.trim().slice(0, LONGEST_NAME),
    dropped: parameters.getAll("dropped"),
    look: get("look"),
    made: parameters.getAll("made").find(isCaseDay),
    replace: get("replace") === "yes",
    branch: get("branch"),
    typed: Object.fromEntries([
      ...[...numberNames, ...ownBottles].flatMap((name) => {
        const text = parameters.get(name)?.trim().slice(0, LONGEST_NUMBER);
        return text ? [[name, text]] : [];
      }),
      ...remarkNames.flatMap((name) => {
        const text = joinIds(parameters.getAll(name));
        return text ? [[name, text]] : [];
      }),
    ]),
  };
}

/** What was told beside the case, without the numbers. */
export function readRemarks({ thought, asked }: Typed): Remarks {
  return { ...(thought !== undefined && { thought }), ...(asked !== undefined && { asked }) };
}

/** Each id once, joined by dots; what is no id is left out. */
function joinIds(texts: readonly string[]): string {
  const ids = texts.flatMap((text) => text.split(".")).filter((id) => /^[a-z0-9-]+$/.test(id));
  return [...new Set(ids)].join(".").slice(0, LONGEST_REMARK);
}
