import { makeApp } from "./app.tsx";
import { keepEditions } from "./editions.ts";
import files from "./generated/content.json";
import edition from "./generated/edition.json";
import editorScripts from "./generated/editor.json";
import widget from "./generated/embed.json";

const app = makeApp({
  widget,
  bundled: { edition, files },
  editorScripts,
  shelf: keepEditions(edition),
  now: Date.now,
  randomBytes: (count) => crypto.getRandomValues(new Uint8Array(count)),
});

export default { fetch: app.fetch } satisfies ExportedHandler<Env>;
