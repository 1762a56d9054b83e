/** The check as a draft would make it, for whoever has the address. */
import { type Context, Hono } from "hono";
import { type Flow, openFlow } from "../../flows/flow.ts";
import { placeOf } from "../../flows/place.ts";
import { branchOf, decide } from "../../widget/check/decide.ts";
import { readCheckRequest } from "../../widget/check/read-request.ts";
import { replay } from "../../widget/check/replay.ts";
import { dayAt } from "../day-at.ts";
import { CheckPage } from "../pages/check-page.tsx";
import { MessagePage } from "../pages/message-page.tsx";
import { renderPage } from "../pages/page.tsx";
import type { PrivateSetting, Setting } from "../setting.ts";
import { compile } from "./compile.ts";
import { readWholeDraft } from "./drafts.ts";
import { findPreview } from "./previews.ts";

const TITLE = "A preview that is not live";
const OVER = "This preview is over, or its address is not whole. Ask for a new one.";
export const NOT_HERE =
  "This part is not shown in a preview. Slips and calendars come from the live check alone.";
export const UNREADY =
  "The draft cannot be shown just now, because something in it is still wrong. Please try again later.";

export function makePreviewRoutes(shown: ShownDrafts) {
  const routes = new Hono<Setting>();
  routes.use(async (c, next) => {
    await next();
    c.header("X-Robots-Tag", "noindex, nofollow");
    c.header("Cache-Control", "no-store");
  });
  routes.get("/:token{[0-9a-f]+}", (c) => c.redirect(`${c.req.path}/check`, 303));
  routes.get("/:token/check", async (c) => {
    const { DB } = c.env;
    const preview = DB && (await findPreview(DB, c.req.param("token"), c.var.now));
    if (!DB || !preview) return say(c, 404, OVER);
    const flow = await shown.open(DB, preview.draft, preview.revision);
    if (flow === null) return say(c, 409, UNREADY);
    const until = new Date(preview.expiresAt).toISOString().slice(0, 10);
    return showDraftCheck(c, flow, `A draft, not live. For looking at only, until ${until}.`);
  });
  routes.get("/:token/*", (c) => say(c, 404, NOT_HERE));
  return routes;
}

/** A page of the check under a draft, wherever it is mounted. */
export function showDraftCheck(
  c: Context<Setting> | Context<PrivateSetting>,
  flow: Flow,
  banner: string,
): Response | Promise<Response> {
  const { origin, search, pathname } = new URL(c.req.url);
  const request = readCheckRequest(search);
  const replayed = replay({ live: flow, asked: undefined }, request.query, undefined);
  const today = dayAt(placeOf(flow.edition.shop, branchOf(flow, request.branch)).timeZone, c.var.now);
  const decision = decide(flow, request, replayed, today);
  if ("goTo" in decision) return c.redirect(decision.goTo.replace(/^\/check/, pathname), 303);
  const folder = `${origin}${pathname.replace(/\/check$/, "")}`;
  return c.html(
    renderPage(<CheckPage state={decision.show} origin={folder} page={pathname} banner={banner} />),
  );
}

async function say(c: Context<Setting>, status: 404 | 409, sentence: string): Promise<Response> {
  const { live } = await c.var.openEditions();
  return c.html(
    renderPage(<MessagePage shop={live.edition.shop} title={TITLE} sentence={sentence} />),
    status,
  );
}

/** Drafts made ready to run. */
export interface ShownDrafts {
  /** Null while something is wrong in it. */
  open(database: D1Database, draft: string, revision: number): Promise<Flow | null>;
}

/** Compiling takes a good part of a second, so the last few drafts that were looked at stay ready. */
export function keepShown(most = 3): ShownDrafts {
  const ready = new Map<string, { revision: number; flow: Flow | null }>();
  return {
    async open(database: D1Database, draft: string, revision: number): Promise<Flow | null> {
      const found = ready.get(draft);
      if (found?.revision === revision) return found.flow;
      const whole = await readWholeDraft(database, draft);
      const compiled = whole && (await compile(whole.files));
      const edition = compiled?.edition;
      const flow = edition && whole ? openFlow({ ...edition, number: whole.draft.base }) : null;
      const [eldest] = ready.keys();
      ready.delete(draft);
      if (ready.size >= most && eldest !== undefined) ready.delete(eldest);
      ready.set(draft, { revision: whole?.draft.revision ?? revision, flow });
      return flow;
    },
  };
}
