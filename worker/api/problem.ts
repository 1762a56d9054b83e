import type { Context } from "hono";
import type { ContentfulStatusCode } from "hono/utils/http-status";

/** A problem as RFC 9457 writes it. */
export interface Problem {
  type: string;
  title: string;
  status: ContentfulStatusCode;
  detail: string;
}

interface ProblemKind {
  status: ContentfulStatusCode;
  title: string;
}

/** Everything that can be wrong with a request to the API; the key is the last part of the problem's type. */
export const problemKinds = {
  "case-not-readable": { status: 422, title: "Part of the case could not be read" },
  "code-not-readable": { status: 422, title: "The code could not be read" },
  "malformed-json": { status: 400, title: "The body is not valid JSON" },
  "unexpected-body": { status: 422, title: "The body does not have the expected shape" },
  "not-json": { status: 415, title: "The body must be application/json" },
  "body-too-large": { status: 413, title: "The body is too large" },
  "too-many-requests": { status: 429, title: "Too many requests" },
  "query-too-long": { status: 414, title: "The query is too long" },
  "unknown-edition": { status: 404, title: "There is no such edition" },
  "not-found": { status: 404, title: "There is nothing at this address" },
  "method-not-allowed": { status: 405, title: "This address does not take that method" },
  "internal-error": { status: 500, title: "Something went wrong on our side" },
} as const satisfies Record<string, ProblemKind>;

export type ProblemName = keyof typeof problemKinds;

/** Answers with problem+json. `more` adds members of its own, such as the parts that could not be read. */
export function sendProblem(c: Context, name: ProblemName, detail: string, more: object = {}): Response {
  const { status, title } = problemKinds[name];
  const problem: Problem = { type: `urn:leafturn:problem:${name}`, title, status, detail };
  return c.body(JSON.stringify({ ...problem, ...more }), status, {
    "Content-Type": "application/problem+json",
    "Cache-Control": "no-store",
  });
}
