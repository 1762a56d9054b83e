import { makeApp } from "./app.tsx";
import { keepEditions } from "./editions.ts";
import bundled from "./generated/edition.json";

const app = makeApp({ shelf: keepEditions(bundled), now: Date.now });

export default { fetch: app.fetch } satisfies ExportedHandler<Env>;
