import type { Context } from "hono";
import { bodyLimit } from "hono/body-limit";
import { asksAlone, propose } from "../../flows/understand/propose.ts";
import type { Decision } from "../../widget/check/decide.ts";
import { hrefToCheck } from "../../widget/check/page-ways.ts";
import type { Setting } from "../setting.ts";
import { CheckPage } from "./check-page.tsx";
import { renderPage } from "./page.tsx";

/** Longest body that is read, in bytes: the field takes 1,000 characters. */
const LONGEST_BODY = 16 * 1024;

/** Whatever is too long, or no form, leads back to the page it was typed on: nothing of it is kept. */
export const limitTyped = limitTo(backToCheck);

export function limitTo(goBack: (c: Context) => Response) {
  return bodyLimit({ maxSize: LONGEST_BODY, onError: goBack });
}

/** To the check of the same case. */
export function backToCheck(c: Context): Response {
  return c.redirect(`/check${new URL(c.req.url).search}`, 303);
}

/**
 * Reads words typed where no script runs. They come in the body of a POST, are answered with what was understood, and
 * are neither kept nor logged; the case stands in the query, as ever.
 */
export async function readTyped(c: Context<Setting>, decision: Decision): Promise<Response> {
  const typed = await readSaid(c);
  if (typed.trim() === "") return backToCheck(c);
  if ("goTo" in decision) return c.redirect(decision.goTo, 303);
  const state = decision.show;
  const proposal = propose(state.flow, state.case, state.reopened ?? state.next, typed);
  if (state.reopened === null && state.next === null && asksAlone(proposal)) {
    const pairs = [...state.aside, ["asked", proposal.asks.join(".")] as const];
    return c.redirect(hrefToCheck(state.flow, state.case, pairs), 303);
  }
  c.header("Cache-Control", "no-store");
  const { origin } = new URL(c.req.url);
  return c.html(renderPage(<CheckPage {...{ state, origin, proposal }} />));
}

/** The field of the form; empty when the body is something else. */
export async function readSaid(c: Context): Promise<string> {
  if (!/^application\/x-www-form-urlencoded\b/i.test(c.req.header("content-type") ?? "")) return "";
  // As bytes: the runtime warns when a form is read as text.
  return new URLSearchParams(new TextDecoder().decode(await c.req.arrayBuffer())).get("said") ?? "";
}
