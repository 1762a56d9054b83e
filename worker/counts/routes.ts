import { type Context, Hono } from "hono";
import { bodyLimit } from "hono/body-limit";
import type { CheckState } from "../../widget/check/decide.ts";
import type { CheckRequest } from "../../widget/check/read-request.ts";
import { sendProblem } from "../api/problem.ts";
import type { Gate } from "../people/rate-limit.ts";
import type { Setting } from "../setting.ts";
import { countLater, isTooMuch, mayCount } from "./count.ts";
import { readPageVisit } from "./page-visit.ts";
import { readVisit, VISIT_SHAPE } from "./read-visit.ts";

const LONGEST_BODY = 2048;

/** Where the element tells what is counted. Any page may post here: nothing is read but the body. */
export function makeCounts(gate: Gate) {
  const counts = new Hono<Setting>();
  counts.post(
    "/",
    bodyLimit({
      maxSize: LONGEST_BODY,
      onError: (c) => sendProblem(c, "body-too-large", `A body may have ${LONGEST_BODY} bytes at most.`),
    }),
    async (c) => {
      const { live } = await c.var.openEditions();
      if (!mayCount(c, live.edition)) return c.body(null, 204);
      const wait = await isTooMuch(c, gate);
      if (wait !== null) {
        c.header("Retry-After", String(wait));
        return sendProblem(c, "too-many-requests", `Please wait ${wait} seconds.`);
      }
      const visit = readVisit(live, await c.req.text());
      if (visit === null) return sendProblem(c, "unexpected-body", VISIT_SHAPE);
      countLater(c, live.edition, "element", visit);
      return c.body(null, 204);
    },
  );
  counts.all("/", (c) => {
    c.header("Allow", "POST");
    return sendProblem(c, "method-not-allowed", "This address takes POST.");
  });
  return counts;
}

/** Counts the view of a page of the check, if a person asked for it. */
export async function countPage(
  c: Context<Setting>,
  gate: Gate,
  state: CheckState,
  request: CheckRequest,
): Promise<void> {
  const { edition } = state.flow;
  if (!mayCount(c, edition) || !isPersonal(c)) return;
  try {
    const fromOurPage = c.req.header("sec-fetch-site") === "same-origin";
    const visit = readPageVisit(state, request, { fromOurPage, branch: request.branch });
    if (visit === null || (await isTooMuch(c, gate)) !== null) return;
    countLater(c, edition, "page", visit);
  } catch (error) {
    console.error("A view could not be counted.", error);
  }
}

/** A page that a browser opens for someone to read; not a reload, not one fetched ahead, not a robot's. */
function isPersonal(c: Context<Setting>): boolean {
  const is = (name: string, value: string) => c.req.header(name) === value;
  const ahead = /prefetch/.test(`${c.req.header("sec-purpose")} ${c.req.header("purpose")}`);
  const reloaded = /no-cache|max-age=0/.test(c.req.header("cache-control") ?? "");
  return (
    c.req.method === "GET" &&
    is("sec-fetch-dest", "document") &&
    is("sec-fetch-mode", "navigate") &&
    !ahead &&
    !reloaded
  );
}
