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
}

/** Query names that are not part of a case. No question or finding may have one of these as its id. */
export const reservedNames = ["change", "to", "plant", "dropped"] as const;
const LONGEST_NAME = 80;

export function readCheckRequest(search: string): CheckRequest {
  const parameters = new URLSearchParams(search);
  const get = (name: (typeof reservedNames)[number]) => parameters.get(name) ?? undefined;
  const isReserved = (part: string) =>
    reservedNames.some((name) => part === name || part.startsWith(`${name}=`));
  const kept = search
    .replace(/^\?/, "")
    .split("&")
    // An empty host is the "none of these" of the list of plants: the question is simply open again.
    .filter((part) => part !== "" && part !== "host=" && !isReserved(part));
  return {
    query: kept.join("&"),
    change: get("change"),
    to: get("to"),
    plant: get("plant")?.trim().slice(0, LONGEST_NAME),
    dropped: parameters.getAll("dropped"),
  };
}
