import { makeApp } from "./app.tsx";
import { keepEditions } from "./editions.ts";
import bundled from "./generated/edition.json";
import widget from "./generated/embed.json";

const app = makeApp({
  widget,
  shelf: keepEditions(bundled),
  now: Date.now,
  randomBytes: (count) => crypto.getRandomValues(new Uint8Array(count)),
});

export default { fetch: app.fetch } satisfies ExportedHandler<Env>;
