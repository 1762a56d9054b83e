import { type Context, Hono } from "hono";
import { bodyLimit } from "hono/body-limit";
import { renderPage } from "../pages/page.tsx";
import { keepPrivate, type Refusal } from "../people/guard.ts";
import { readKey, useKey } from "../people/keys.ts";
import { peopleWords } from "../people/people-words.ts";
import { mayAct, type SignedIn } from "../people/person.ts";
import type { Gate } from "../people/rate-limit.ts";
import { addressOf } from "../people/rate-limit.ts";
import {
  canHoldSession,
  clearSessionCookie,
  readSessionCookie,
  writeSessionCookie,
} from "../people/session-cookie.ts";
import { endSession, findSession, openSession } from "../people/sessions.ts";
import { readWayBack, writeWayBack } from "../people/way-back.ts";
import type { Setting } from "../setting.ts";
import { COUNTER, SIGN_IN } from "./desk-links.ts";
import { SignInPage } from "./sign-in-page.tsx";

/** Where the desk begins once someone is in. */
const HOME = COUNTER;
const LONGEST_BODY = 8 * 1024;

/** Signing in to the desk and out of it. */
export function makeSignIn(gate: Gate) {
  const signIn = new Hono<Setting>();
  const limit = bodyLimit({
    maxSize: LONGEST_BODY,
    onError: (c) => showSignIn(c, { status: 413, problem: peopleWords.wrongKey }),
  });
  signIn.get("/sign-in", async (c) => {
    const next = readNext(c.req.query("next"));
    return showSignIn(c, { next, person: await whoIs(c) });
  });
  signIn.post("/sign-in", limit, (c) => enter(c, gate));
  signIn.post("/sign-out", leave);
  return signIn;
}

/** Instead of the page that was asked for: the way in, which leads back to it with all that was typed. */
export async function askToSignIn(c: Context, why: Refusal): Promise<Response> {
  const next = readNext(await writeWayBack(c));
  const status = why === "out-of-reach" ? 503 : 403;
  return showSignIn(c, { next, status, problem: peopleWords.refusals[why] });
}

function readNext(given: string | undefined): string {
  return readWayBack(given, "/desk", HOME);
}

interface Showing {
  next?: string;
  person?: SignedIn | null;
  status?: 200 | 403 | 413 | 429 | 503;
  problem?: string;
}

async function showSignIn(
  c: Context<Setting>,
  { next = HOME, person = null, status = 200, problem = "" }: Showing,
): Promise<Response> {
  keepPrivate(c);
  const { live } = await c.var.openEditions();
  const { shop } = live.edition;
  const isOnTheWay = next !== HOME;
  return c.html(renderPage(<SignInPage {...{ shop, person, next, problem, isOnTheWay }} />), status);
}

/** Who is signed in to the desk, for pages that are open to all. Without the records: nobody. */
async function whoIs(c: Context<Setting>): Promise<SignedIn | null> {
  if (c.env.DB === undefined) return null;
  try {
    const person = await findSession(c.env.DB, readSessionCookie(c), c.var.now);
    return person && mayAct(person, "staff") ? person : null;
  } catch (error) {
    console.error("The sessions could not be read.", error);
    return null;
  }
}

async function enter(c: Context<Setting>, gate: Gate): Promise<Response> {
  const form = await c.req.parseBody().catch(() => ({}) as Record<string, unknown>);
  const key = typeof form.key === "string" ? readKey(form.key) : "";
  const next = readNext(typeof form.next === "string" ? form.next : undefined);
  const { DB } = c.env;
  if (!canHoldSession(c)) return showSignIn(c, { next, status: 403, problem: peopleWords.needsHttps });
  if (DB === undefined) return outOfReach(c, next);
  if (key === "") return showSignIn(c, { next, status: 403, problem: peopleWords.noKey });
  const { now, randomBytes } = c.var;
  const wait = await gate.enter(addressOf({ header: (name) => c.req.header(name) }), now);
  if (wait !== null) {
    c.header("Retry-After", String(wait));
    return showSignIn(c, { next, status: 429, problem: peopleWords.tooMany(wait) });
  }
  try {
    const person = await useKey(DB, key, "desk", now);
    if (person === null) return showSignIn(c, { next, status: 403, problem: peopleWords.wrongKey });
    await endSession(DB, readSessionCookie(c));
    writeSessionCookie(c, await openSession(DB, { person, proof: "key", now, randomBytes }));
  } catch (error) {
    console.error("Signing in failed.", error);
    return outOfReach(c, next);
  }
  keepPrivate(c);
  return c.redirect(next, 303);
}

function outOfReach(c: Context<Setting>, next: string): Promise<Response> {
  return showSignIn(c, { next, status: 503, problem: peopleWords.refusals["out-of-reach"] });
}

async function leave(c: Context<Setting>): Promise<Response> {
  try {
    if (c.env.DB !== undefined) await endSession(c.env.DB, readSessionCookie(c));
  } catch (error) {
    console.error("A session could not be ended.", error);
    return outOfReach(c, HOME);
  }
  clearSessionCookie(c);
  return c.redirect(SIGN_IN, 303);
}
