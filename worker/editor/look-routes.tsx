/** The check as a draft makes it, for the editors themselves: where the conversations of a report open. */
import { Hono } from "hono";
import type { PrivateSetting } from "../setting.ts";
import { hrefTo } from "./draft-frame.tsx";
import { findDraft } from "./drafts.ts";
import { editorWords } from "./editor-words.ts";
import { NOT_HERE, type ShownDrafts, showDraftCheck, UNREADY } from "./preview-routes.tsx";
import { databaseOf, type RoomContext, showSentence } from "./room.tsx";

const TITLE = "A draft, not live";

export function makeLookRoutes(shown: ShownDrafts) {
  const routes = new Hono<PrivateSetting>();
  routes.get("/:id/look", (c) => c.redirect(hrefTo(c.req.param("id"), "look/check"), 303));
  routes.get("/:id/look/check", async (c: RoomContext) => {
    const id = c.req.param("id") ?? "";
    const draft = await findDraft(databaseOf(c), id);
    if (draft === null) return showSentence(c, 404, TITLE, editorWords.gone);
    const flow = await shown.open(databaseOf(c), id, draft.revision);
    if (flow === null) return showSentence(c, 409, TITLE, UNREADY, [hrefTo(id, "check"), "What is wrong"]);
    return showDraftCheck(c, flow, `“${draft.title}”: a draft, not live. For looking at only.`);
  });
  routes.get("/:id/look/*", (c) =>
    showSentence(c, 404, TITLE, NOT_HERE, [hrefTo(c.req.param("id"), "check"), "What it does"]),
  );
  return routes;
}
