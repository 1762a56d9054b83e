import { Hono } from "hono";
import { requireRole } from "../people/guard.ts";
import type { Gate } from "../people/rate-limit.ts";
import type { PrivateSetting, Setting } from "../setting.ts";
import { addCounter } from "./counter-routes.tsx";
import { COUNTER, FIGURES, inDesk } from "./desk-links.ts";
import { addFigures } from "./figures-routes.tsx";
import { askToSignIn, makeSignIn } from "./sign-in-routes.tsx";

/** The pages of the desk that know who is there. */
export function makeStaff(gate: Gate): Hono<Setting> {
  const closed = new Hono<PrivateSetting>();
  for (const address of [COUNTER, `${FIGURES}/*`]) {
    closed.use(inDesk(address), requireRole("staff", askToSignIn));
  }
  addCounter(closed);
  addFigures(closed);
  const desk = new Hono<Setting>();
  desk.route("/", makeSignIn(gate));
  desk.route("/", closed);
  return desk;
}
