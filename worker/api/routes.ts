import { type Context, Hono } from "hono";
import { bodyLimit } from "hono/body-limit";
import { editionOfCode, readCode, writeCode } from "../../flows/case-code.ts";
import { editionOf, LONGEST_LINK, writeLink } from "../../flows/case-link.ts";
import { nextQuestion } from "../../flows/next-question.ts";
import { makePlan } from "../../flows/plan.ts";
import { judge } from "../../flows/verdict.ts";
import { type Editions, type Replay, replay } from "../../widget/check/replay.ts";
import type { Setting } from "../setting.ts";
import { sendEdition } from "./edition-answer.ts";
import { sendProblem } from "./problem.ts";
import { BODY_SHAPE, type CaseInput, readBody } from "./read-body.ts";

/** Longest body that is read, in bytes. */
const LONGEST_BODY = 16 * 1024;

/** The JSON side of the check: a case in; the next question, or the verdict and the plan, out. */
export function makeApi() {
  const api = new Hono<Setting>();
  api.get("/edition", async (c) => {
    const { live } = await c.var.openEditions();
    return sendEdition(c, live.edition, "no-cache");
  });
  api.get("/editions/:number{[0-9]+}", async (c) => {
    const number = Number(c.req.param("number"));
    const { asked } = await c.var.openEditions(Number.isSafeInteger(number) ? number : undefined);
    if (asked === undefined) return sendProblem(c, "unknown-edition", `There is no edition ${number}.`);
    return sendEdition(c, asked.edition, "public, max-age=86400");
  });
  api.get("/case", (c) => sendCase(c, { query: new URL(c.req.url).search.slice(1) }));
  api.post(
    "/case",
    bodyLimit({
      maxSize: LONGEST_BODY,
      onError: (c) => sendProblem(c, "body-too-large", `A body may have ${LONGEST_BODY} bytes at most.`),
    }),
    postCase,
  );
  for (const [path, allow] of [
    ["/edition", "GET, HEAD"],
    ["/editions/:number", "GET, HEAD"],
    ["/case", "GET, HEAD, POST"],
  ] as const) {
    api.all(path, (c) => {
      if (["GET", "HEAD"].includes(c.req.method))
        return sendProblem(c, "unknown-edition", "An edition is named by its number.");
      c.header("Allow", allow);
      return sendProblem(c, "method-not-allowed", `This address takes ${allow}.`);
    });
  }
  api.all("*", (c) => sendProblem(c, "not-found", "The API has no such address."));
  return api;
}

async function postCase(c: Context<Setting>): Promise<Response> {
  if (!/^application\/json\b/i.test(c.req.header("content-type") ?? "")) {
    return sendProblem(c, "not-json", "Set the header Content-Type: application/json.");
  }
  let body: unknown;
  try {
    body = JSON.parse(await c.req.text());
  } catch {
    return sendProblem(c, "malformed-json", "The body could not be parsed.");
  }
  const input = readBody(body);
  return input === null ? sendProblem(c, "unexpected-body", BODY_SHAPE) : sendCase(c, input);
}

async function sendCase(c: Context<Setting>, input: CaseInput): Promise<Response> {
  if ("code" in input) return sendCodedCase(c, input.code);
  if (input.query.length > LONGEST_LINK) {
    return sendProblem(c, "query-too-long", `A case's query may have ${LONGEST_LINK} characters at most.`);
  }
  const asked = editionOf(input.query);
  const editions = await c.var.openEditions(asked);
  const replayed = replay(editions, input.query, asked);
  const problems = [...replayed.problems, ...replayed.contradictions];
  if (problems.length > 0) {
    const sentences = problems.map(({ sentence }) => sentence).join(" ");
    return sendProblem(c, "case-not-readable", sentences, { problems });
  }
  return c.json(describeCase(editions, replayed));
}

async function sendCodedCase(c: Context<Setting>, code: string): Promise<Response> {
  const asked = editionOfCode(code);
  const editions = await c.var.openEditions(asked);
  const read = readCode((number) => editionNumbered(editions, number), code);
  if (!read.ok) return sendProblem(c, "code-not-readable", read.sentence, { code: read.code });
  const flow = editionNumbered(editions, read.case.edition) ?? editions.live;
  return c.json(describeCase(editions, replay(editions, writeLink(flow, read.case), read.case.edition)));
}

/** The flow at hand with that edition number. */
export function editionNumbered({ live, asked }: Editions, number: number) {
  return [live, asked].find((flow) => flow?.edition.number === number);
}

function describeCase({ live: flow }: Editions, { case: kase, edition }: Replay) {
  const next = nextQuestion(flow, kase);
  const verdict = next === null ? judge(flow, kase) : null;
  return {
    edition: { number: flow.edition.number, hash: flow.edition.hash },
    askedEdition: edition,
    case: kase,
    link: `/check?${writeLink(flow, kase)}`,
    code: writeCode(flow, kase),
    next,
    verdict,
    plan: verdict && makePlan(flow, kase, verdict),
  };
}
