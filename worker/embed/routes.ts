import { type Context, Hono } from "hono";
import { etag } from "hono/etag";
import type { Flow } from "../../flows/flow.ts";
import { packFirst, packProse } from "../../flows/parcel/pack.ts";
import { packDrawings } from "../../flows/parcel/pack-drawings.ts";
import type { Setting } from "../setting.ts";
import type { WidgetFiles } from "./widget-files.ts";

const FOREVER = "public, max-age=31536000, immutable";
/** What moves is looked at again after a minute, and by its tag. */
const MOVING = "public, max-age=60, must-revalidate";
const SCRIPT = "text/javascript; charset=utf-8";

/** Said in plain text: whoever reads it looks at a network log. */
const MISSING =
  "There is no such file here. Take the address that the build prints, or /embed/leafturn.js, which always leads to the newest.";

/** By the name of the file. */
type Parcels = Readonly<Record<string, string>>;

/** The element and its data. Any page may load them: they hold nothing but what is public. */
export function makeEmbed({ first, files }: WidgetFiles) {
  const embed = new Hono<Setting>();
  embed.use(async (c, next) => {
    await next();
    c.header("Access-Control-Allow-Origin", "*");
    c.header("Cross-Origin-Resource-Policy", "cross-origin");
  });
  embed.use("/leafturn.js", etag());
  embed.use("/live.json", etag());
  embed.get("/leafturn.js", (c) =>
    c.body(files[first]?.body ?? "", 200, { "Content-Type": SCRIPT, "Cache-Control": MOVING }),
  );
  embed.get("/live.json", async (c) => {
    const wanted = /^\d{1,6}$/.test(c.req.query("e") ?? "") ? Number(c.req.query("e")) : undefined;
    const { live, asked } = await c.var.openEditions(wanted);
    const { number, hash } = (asked ?? live).edition;
    // Asked again each time, so that a new edition is begun with at once; by its tag that costs next to nothing.
    return c.json({ number, hash }, 200, { "Cache-Control": "no-cache" });
  });
  embed.get("/editions/:name/:part{(?:first|prose|lexicon|drawings|drawings-[0-9]+)\\.json}", async (c) => {
    const [number, hash] = c.req.param("name").split("-");
    const { asked } = await c.var.openEditions(/^\d{1,6}$/.test(number ?? "") ? Number(number) : undefined);
    if (asked === undefined || asked.edition.hash !== hash) return refuse(c);
    const parcel = parcelsOf(asked)[c.req.param("part")];
    if (parcel === undefined) return refuse(c);
    return c.body(parcel, 200, { "Content-Type": "application/json", "Cache-Control": FOREVER });
  });
  embed.get("/:hash/:file", (c) => {
    const file = files[`${c.req.param("hash")}/${c.req.param("file")}`];
    if (file === undefined) return refuse(c);
    return c.body(file.body, 200, { "Content-Type": SCRIPT, "Cache-Control": FOREVER });
  });
  embed.get("/*", refuse);
  return embed;
}

function refuse(c: Context): Response {
  return c.text(MISSING, 404, { "Cache-Control": "no-store" });
}

const packed = new WeakMap<Flow, Parcels>();

/** Packing is done once for each edition at hand. */
function parcelsOf(flow: Flow): Parcels {
  const found = packed.get(flow) ?? packAll(flow);
  packed.set(flow, found);
  return found;
}

function packAll({ edition }: Flow): Parcels {
  const { index, groups } = packDrawings(edition);
  const files = {
    first: packFirst(edition),
    prose: packProse(edition),
    // How people say it: fetched when somebody first types.
    lexicon: edition.lexicon ?? null,
    drawings: index,
    ...Object.fromEntries(groups.map((group, at) => [`drawings-${at}`, group])),
  };
  return Object.fromEntries(
    Object.entries(files).map(([name, parcel]) => [`${name}.json`, JSON.stringify(parcel)]),
  );
}
