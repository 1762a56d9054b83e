/** What every page of the editor's room is made with. */
import type { Context } from "hono";
import type { Child } from "hono/jsx";
import type { ContentfulStatusCode } from "hono/utils/http-status";
import { renderPage } from "../pages/page.tsx";
import { mayAct, type Person } from "../people/person.ts";
import { PrivatePage } from "../people/private-page.tsx";
import { makeToken } from "../people/token.ts";
import type { PrivateSetting, Setting } from "../setting.ts";
import { editorWords } from "./editor-words.ts";
import type { ShownDrafts } from "./preview-routes.tsx";
import type { Bundled } from "./publish.ts";

export const ROOM = "/editor";
export const SIGN_IN = `${ROOM}/sign-in`;
export const SIGN_OUT = `${ROOM}/sign-out`;

const links = [
  [ROOM, editorWords.drafts],
  [`${ROOM}/tree`, editorWords.tree],
  [`${ROOM}/history`, editorWords.history],
] as const;

/** Behind the sign-in. */
export type RoomContext = Context<PrivateSetting>;
type AnyContext = Context<Setting> | RoomContext;

/** What the room's handlers are made with. */
export interface RoomParts {
  bundled: Bundled;
  shown: ShownDrafts;
}

/** The database; whoever is signed in has been found in it. */
export function databaseOf(c: AnyContext): D1Database {
  const { DB } = c.env;
  if (DB === undefined) throw new Error("Nobody can be signed in without a database.");
  return DB;
}

/** A short id, unlike any other. */
export function makeId(c: AnyContext): string {
  return makeToken(c.var.randomBytes).slice(0, 12);
}

export function mayPublish(c: RoomContext): boolean {
  return mayAct(c.var.person, "publisher");
}

interface Showing {
  title: string;
  children: Child;
  status?: ContentfulStatusCode;
  script?: string | undefined;
  here?: string;
  person?: Person | null;
}

/** A page of the room. */
export async function showRoom(
  c: AnyContext,
  { title, children, status = 200, script, here = c.req.path, person = null }: Showing,
): Promise<Response> {
  const { live } = await c.var.openEditions();
  return c.html(
    renderPage(
      <PrivatePage
        shop={live.edition.shop}
        room={editorWords.room}
        signOut={SIGN_OUT}
        sheet="/assets/editor.css"
        links={person ? links : [[SIGN_IN, editorWords.signIn]]}
        {...{ title, here, person, children }}
        {...(script === undefined ? {} : { script })}
      />,
    ),
    status,
  );
}

/** A page for someone who is signed in. */
export function showPage(c: RoomContext, showing: Omit<Showing, "person">): Promise<Response> {
  return showRoom(c, { ...showing, person: c.var.person });
}

/** One sentence and the way back. */
export function showSentence(
  c: RoomContext,
  status: ContentfulStatusCode,
  title: string,
  sentence: string,
  back: readonly [href: string, name: string] = [ROOM, editorWords.drafts],
): Promise<Response> {
  return showPage(c, {
    title,
    status,
    children: (
      <section>
        <p class="lt-problem" role="alert">
          {sentence}
        </p>
        <p class="lt-actions">
          <a class="lt-link" href={back[0]}>
            {back[1]}
          </a>
        </p>
      </section>
    ),
  });
}

/** A field of a form as text; empty when it is not there. Line ends become those of the files. */
export function textOf(form: Record<string, unknown>, name: string): string {
  const value = form[name];
  return typeof value === "string" ? value.replace(/\r\n?/g, "\n") : "";
}

export async function readForm(c: Context): Promise<Record<string, unknown>> {
  try {
    return await c.req.parseBody({ all: true });
  } catch {
    return {};
  }
}
