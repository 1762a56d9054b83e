/** A case as the API takes it in: the query of a link, or a code. */
export type CaseInput = { query: string } | { code: string };

/** What a body may hold, in words, for the problem that says it does not. */
export const BODY_SHAPE =
  'Send one of {"link": "..."}, {"code": "..."} or {"answers": [{"to": "...", "is": "..."}]}; "edition" may stand beside "answers".';

/** Reads a parsed body; null when it has another shape. */
export function readBody(body: unknown): CaseInput | null {
  if (!isRecord(body)) return null;
  const { link, code, answers, edition, ...rest } = body;
  const given = [link, code, answers].filter((part) => part !== undefined);
  if (given.length !== 1 || Object.keys(rest).length > 0) return null;
  if (typeof link === "string") return { query: queryOf(link) };
  if (typeof code === "string") return { code };
  const parts = readAnswers(answers);
  if (parts === null || !(edition === undefined || Number.isSafeInteger(edition))) return null;
  return { query: [...(edition === undefined ? [] : [`e=${edition}`]), ...parts].join("&") };
}

function readAnswers(answers: unknown): string[] | null {
  if (!Array.isArray(answers)) return null;
  const parts: string[] = [];
  for (const answer of answers) {
    if (!isRecord(answer) || typeof answer.to !== "string" || typeof answer.is !== "string") return null;
    parts.push(`${encode(answer.to)}=${encode(answer.is)}`);
  }
  return parts;
}

/** A lone surrogate cannot be encoded; it becomes a replacement character and so an unknown id. */
function encode(text: string): string {
  return encodeURIComponent(text.toWellFormed());
}

/** A link may be a whole address or only its query. */
function queryOf(link: string): string {
  const [address = ""] = link.split("#");
  return address.slice(address.indexOf("?") + 1);
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
