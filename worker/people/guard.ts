import type { Context, MiddlewareHandler } from "hono";
import type { PrivateSetting } from "../setting.ts";
import { mayAct, type Role } from "./person.ts";
import { readSessionCookie } from "./session-cookie.ts";
import { findSession } from "./sessions.ts";

/**
 * Why someone is not let in: not signed in; a session that is over, taken back or forged, which nobody can tell apart
 * from outside; signed in without this right; the records cannot be read.
 */
export type Refusal = "signed-out" | "over" | "not-yours" | "out-of-reach";

/** Lets only people with this role through, and names them in the context. */
export function requireRole(
  role: Role,
  refuse: (c: Context<PrivateSetting>, why: Refusal) => Response | Promise<Response>,
): MiddlewareHandler<PrivateSetting> {
  return async (c, next) => {
    keepPrivate(c);
    const token = readSessionCookie(c);
    if (token === undefined) return refuse(c, "signed-out");
    if (c.env.DB === undefined) return refuse(c, "out-of-reach");
    try {
      const person = await findSession(c.env.DB, token, c.var.now);
      if (person === null) return refuse(c, "over");
      if (!mayAct(person, role)) return refuse(c, "not-yours");
      c.set("person", person);
    } catch (error) {
      console.error("The sessions could not be read.", error);
      return refuse(c, "out-of-reach");
    }
    return next();
  };
}

/** No cache keeps the answer, and our own forms may name where they come from. */
export function keepPrivate(c: Context): void {
  c.header("Cache-Control", "no-store");
  c.header("Referrer-Policy", "same-origin");
}
