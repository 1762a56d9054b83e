import type { Context } from "hono";
import type { Edition } from "../../flows/edition.ts";

/** An edition as it is sent. It never changes, and to write one out takes longer than all else in an answer. */
interface Written {
  plain: Uint8Array;
  gzip?: Uint8Array;
}

const written = new WeakMap<Edition, Written>();

/** Answers with an edition as JSON, or with 304 when the client has it. */
export async function sendEdition(c: Context, edition: Edition, caching: string): Promise<Response> {
  // Weak, for it stands for the same edition packed and unpacked (RFC 9110, 8.8.1).
  const tag = `"${edition.number}-${edition.hash}"`;
  const headers = { ETag: `W/${tag}`, "Cache-Control": caching, Vary: "Accept-Encoding" };
  const known = c.req
    .header("if-none-match")
    ?.split(",")
    .map((one) => one.trim().replace(/^W\//, ""));
  if (known?.some((one) => one === tag || one === "*")) return new Response(null, { status: 304, headers });
  const body = write(edition);
  const as = { ...headers, "Content-Type": "application/json" };
  if (!takesGzip(c.req.header("accept-encoding"))) return new Response(body.plain, { headers: as });
  body.gzip ??= await pack(body.plain);
  return new Response(body.gzip, { headers: { ...as, "Content-Encoding": "gzip" }, encodeBody: "manual" });
}

function write(edition: Edition): Written {
  const kept = written.get(edition) ?? { plain: new TextEncoder().encode(JSON.stringify(edition)) };
  written.set(edition, kept);
  return kept;
}

/** Whether "gzip" is named and not ruled out by a weight of nothing (RFC 9110, 12.5.3). */
function takesGzip(accepted = ""): boolean {
  const [, weight = "1"] = /(?:^|,)\s*gzip\s*(?:;\s*q=([\d.]{1,5})\s*)?(?:,|$)/i.exec(accepted) ?? ["", "0"];
  return Number(weight) > 0;
}

async function pack(bytes: Uint8Array): Promise<Uint8Array> {
  const packed = new Response(bytes).body?.pipeThrough(new CompressionStream("gzip"));
  return new Uint8Array(await new Response(packed).arrayBuffer());
}
