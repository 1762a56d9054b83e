/** What the checker in the browser reads: the files of an edition, and what a draft changes of them. */
import { Hono } from "hono";
import type { PrivateSetting } from "../setting.ts";
import { readWholeDraft } from "./drafts.ts";
import { editorWords } from "./editor-words.ts";
import { readFolder } from "./folders.ts";
import { listKeptCases } from "./kept-cases.ts";
import { databaseOf } from "./room.tsx";

export function makeContentsRoutes() {
  const routes = new Hono<PrivateSetting>();
  routes.get("/editions/:number{[0-9]{1,6}}/files.json", async (c) => {
    const files = await readFolder(databaseOf(c), Number(c.req.param("number")));
    if (files === null) return c.json({ sentence: "This edition was stored without its files." }, 404);
    // An edition never changes, and it is read on every page with a checker.
    c.header("Cache-Control", "private, max-age=604800, immutable");
    c.header("Vary", "Cookie");
    return c.json(files);
  });
  routes.get("/drafts/:id/changes.json", async (c) => {
    const database = databaseOf(c);
    const [whole, kept] = await Promise.all([
      readWholeDraft(database, c.req.param("id")),
      listKeptCases(database),
    ]);
    if (whole === null) return c.json({ sentence: editorWords.gone }, 404);
    const { draft, base, files } = whole;
    const paths = [...new Set([...Object.keys(base), ...Object.keys(files)])];
    const changes = Object.fromEntries(
      paths.filter((path) => base[path] !== files[path]).map((path) => [path, files[path] ?? null]),
    );
    return c.json({ base: draft.base, revision: draft.revision, changes, kept });
  });
  return routes;
}
