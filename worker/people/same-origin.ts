import type { Context, MiddlewareHandler } from "hono";

const SAFE: readonly string[] = ["GET", "HEAD", "OPTIONS"];

/**
 * Whether a request comes from a page of ours. Browsers say so themselves (Fetch Metadata), and older ones name the
 * origin; what says neither is refused, because no browser of today would leave out both.
 */
export function isSameOrigin(c: Context): boolean {
  const site = c.req.header("sec-fetch-site");
  if (site !== undefined) return site === "same-origin";
  return c.req.header("origin") === new URL(c.req.url).origin;
}

/** Refuses everything that could change something and does not come from a page of ours, whatever its body. */
export function requireSameOrigin(refuse: (c: Context) => Promise<Response>): MiddlewareHandler {
  return async (c, next) => {
    if (SAFE.includes(c.req.method) || isSameOrigin(c)) return next();
    return refuse(c);
  };
}
