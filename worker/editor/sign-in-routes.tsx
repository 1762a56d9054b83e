import type { AuthenticationResponseJSON, RegistrationResponseJSON } from "@simplewebauthn/server";
import { type Context, Hono } from "hono";
import { bodyLimit } from "hono/body-limit";
import { keepPrivate, type Refusal } from "../people/guard.ts";
import { readKey } from "../people/keys.ts";
import { peopleWords } from "../people/people-words.ts";
import { mayAct, type Person, type SignedIn } from "../people/person.ts";
import { addressOf, type Gate } from "../people/rate-limit.ts";
import {
  canHoldSession,
  clearSessionCookie,
  readSessionCookie,
  writeSessionCookie,
} from "../people/session-cookie.ts";
import { endSession, findSession, openSession } from "../people/sessions.ts";
import { readWayBack } from "../people/way-back.ts";
import type { Setting } from "../setting.ts";
import { editorWords } from "./editor-words.ts";
import { noteHistory } from "./history.ts";
import { beginRegistration, beginSignIn, finishRegistration, finishSignIn, placeOf } from "./passkeys.ts";
import { ROOM, SIGN_IN, showRoom } from "./room.tsx";

const LONGEST_BODY = 32 * 1024;

/** Registering a device after an invitation, signing in with it, and out. */
export function makeEditorSignIn(gate: Gate) {
  const routes = new Hono<Setting>();
  const limit = bodyLimit({ maxSize: LONGEST_BODY, onError: (c) => refuse(c, 413, editorWords.refused) });
  routes.get("/sign-in", async (c) =>
    showSignIn(c, { person: await whoIs(c), next: nextOf(c.req.query("next")) }),
  );
  routes.get("/invitation", showInvitation);
  routes.use("/passkeys/*", limit, async (c, next) => {
    keepPrivate(c);
    if (!canHoldSession(c)) return refuse(c, 403, peopleWords.needsHttps);
    if (c.env.DB === undefined) return refuse(c, 503, peopleWords.refusals["out-of-reach"]);
    const wait = await gate.enter(addressOf({ header: (name) => c.req.header(name) }), c.var.now);
    if (wait === null) return next();
    c.header("Retry-After", String(wait));
    return refuse(c, 429, peopleWords.tooMany(wait));
  });
  routes.post("/passkeys/registration", (c) => answer(c, editorWords.invitationBad, askToRegister));
  routes.post("/passkeys/registered", (c) => answer(c, editorWords.invitationBad, register));
  routes.post("/passkeys/challenge", (c) => answer(c, editorWords.refused, askToSignIn));
  routes.post("/passkeys/signed", (c) => answer(c, editorWords.refused, enter));
  routes.post("/sign-out", leave);
  return routes;
}

type Ask = (
  c: Context<Setting>,
  database: D1Database,
  body: Record<string, unknown>,
) => Promise<object | null>;

/** Reads JSON, and answers with JSON or with one sentence. What a device sent wrong is a refusal, not a fault of ours. */
async function answer(c: Context<Setting>, sentence: string, ask: Ask): Promise<Response> {
  const { DB } = c.env;
  if (DB === undefined) return refuse(c, 503, peopleWords.refusals["out-of-reach"]);
  let body: unknown;
  try {
    body = await c.req.json();
  } catch {
    return refuse(c, 400, sentence);
  }
  if (typeof body !== "object" || body === null) return refuse(c, 400, sentence);
  const given = await ask(c, DB, body as Record<string, unknown>);
  return given === null ? refuse(c, 403, sentence) : c.json(given);
}

function refuse(c: Context, status: 400 | 403 | 413 | 429 | 503, sentence: string): Response {
  return c.json({ sentence }, status);
}

function keyOf(body: Record<string, unknown>): string {
  return typeof body.key === "string" ? readKey(body.key) : "";
}

function here(c: Context<Setting>) {
  return placeOf(c.req.url, c.var.now, c.var.randomBytes);
}

function askToRegister(c: Context<Setting>, database: D1Database, body: Record<string, unknown>) {
  return beginRegistration(database, keyOf(body), here(c));
}

function askToSignIn(c: Context<Setting>, database: D1Database) {
  return beginSignIn(database, here(c));
}

async function register(c: Context<Setting>, database: D1Database, body: Record<string, unknown>) {
  if (!isCredential(body.response)) return null;
  const response = body.response as unknown as RegistrationResponseJSON;
  const person = await orNull(() => finishRegistration(database, keyOf(body), response, here(c)));
  return person && letIn(c, database, person, ROOM);
}

async function enter(c: Context<Setting>, database: D1Database, body: Record<string, unknown>) {
  if (!isCredential(body.response)) return null;
  const response = body.response as unknown as AuthenticationResponseJSON;
  const person = await orNull(() => finishSignIn(database, response, here(c)));
  return person && letIn(c, database, person, nextOf(typeof body.next === "string" ? body.next : undefined));
}

function isCredential(value: unknown): value is { id: string } {
  return typeof value === "object" && value !== null && "id" in value && typeof value.id === "string";
}

/** The library throws at whatever is not as it must be: a wrong challenge, origin, signature or shape. */
async function orNull(verify: () => Promise<Person | null>): Promise<Person | null> {
  try {
    return await verify();
  } catch (error) {
    console.warn("A passkey was refused.", error instanceof Error ? error.message : "");
    return null;
  }
}

async function letIn(c: Context<Setting>, database: D1Database, person: Person, next: string) {
  const { now, randomBytes } = c.var;
  await endSession(database, readSessionCookie(c));
  writeSessionCookie(c, await openSession(database, { person, proof: "passkey", now, randomBytes }));
  await noteHistory(database, { at: now, who: person, what: "signed-in", subject: "", why: "" }).run();
  return { next };
}

function nextOf(given: string | undefined): string {
  return readWayBack(given, ROOM, ROOM);
}

/** Instead of the page that was asked for: the way in, which leads back to it. */
export async function askEditorToSignIn(c: Context, why: Refusal): Promise<Response> {
  const { pathname, search } = new URL(c.req.url);
  const sentence = peopleWords.refusals[why];
  const status = why === "out-of-reach" ? 503 : 403;
  if (c.req.header("accept")?.includes("application/json"))
    return c.json({ sentence: sentence || editorWords.signIn }, status);
  const isPage = c.req.method === "GET" || c.req.method === "HEAD";
  return showSignIn(c, { next: nextOf(isPage ? `${pathname}${search}` : ROOM), status, problem: sentence });
}

interface Showing {
  next: string;
  person?: SignedIn | null;
  status?: 200 | 403 | 503;
  problem?: string;
}

function showSignIn(c: Context<Setting>, { next, person = null, status = 200, problem = "" }: Showing) {
  keepPrivate(c);
  return showRoom(c, {
    ...{ title: person ? "You are signed in" : editorWords.signIn, status, person, here: SIGN_IN },
    script: "/assets/editor/sign-in.js",
    children: (
      <section class="lt-card" id="sign-in" data-next={next}>
        <p class="lt-problem" id="problem" role="alert" hidden={problem === ""}>
          {problem}
        </p>
        <p class="lt-lead">{editorWords.signInLead}</p>
        <noscript>
          <p class="lt-problem">{editorWords.needsScript}</p>
        </noscript>
        <p class="lt-actions">
          <button class="lt-button" type="button" id="enter">
            {editorWords.signInButton}
          </button>
          {person && (
            <a class="lt-link" href={next}>
              {peopleWords.goOn}
            </a>
          )}
        </p>
        <p class="lt-hint">{editorWords.lostDevice}</p>
      </section>
    ),
  });
}

function showInvitation(c: Context<Setting>) {
  keepPrivate(c);
  return showRoom(c, {
    title: editorWords.invitation,
    here: SIGN_IN,
    script: "/assets/editor/sign-in.js",
    children: (
      <section class="lt-card" id="invitation">
        <p class="lt-problem" id="problem" role="alert" hidden />
        <p class="lt-lead">{editorWords.invitationLead}</p>
        <noscript>
          <p class="lt-problem">{editorWords.needsScript}</p>
        </noscript>
        <p class="lt-actions">
          <button class="lt-button" type="button" id="register">
            {editorWords.register}
          </button>
        </p>
      </section>
    ),
  });
}

/** Who is signed in to the room, for pages that are open to all. */
async function whoIs(c: Context<Setting>): Promise<SignedIn | null> {
  if (c.env.DB === undefined) return null;
  try {
    const person = await findSession(c.env.DB, readSessionCookie(c), c.var.now);
    return person && mayAct(person, "editor") ? person : null;
  } catch (error) {
    console.error("The sessions could not be read.", error);
    return null;
  }
}

async function leave(c: Context<Setting>): Promise<Response> {
  if (c.env.DB !== undefined) await endSession(c.env.DB, readSessionCookie(c));
  clearSessionCookie(c);
  return c.redirect(SIGN_IN, 303);
}
