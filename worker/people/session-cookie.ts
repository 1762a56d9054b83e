import type { Context } from "hono";
import { deleteCookie, getCookie, setCookie } from "hono/cookie";

const NAME = "leafturn";
const LOOPBACK = /^(localhost|127\.0\.0\.1|\[::1\])$/;

/**
 * Over https the cookie has the `__Host-` prefix, which ties it to this very host. Plain http is for trying things out
 * on one's own machine only, and has a name of its own, so that such a cookie never counts over https.
 */
function isSecure(c: Context): boolean {
  return new URL(c.req.url).protocol === "https:";
}

/** Whether a session may be held here: over https, or on one's own machine. */
export function canHoldSession(c: Context): boolean {
  return isSecure(c) || LOOPBACK.test(new URL(c.req.url).hostname);
}

export function readSessionCookie(c: Context): string | undefined {
  if (!canHoldSession(c)) return undefined;
  return isSecure(c) ? getCookie(c, NAME, "host") : getCookie(c, NAME);
}

/** The cookie ends with the browser; how long the session lives is for the server to say. */
export function writeSessionCookie(c: Context, token: string): void {
  const always = { httpOnly: true, sameSite: "Lax", path: "/" } as const;
  if (isSecure(c)) setCookie(c, NAME, token, { ...always, secure: true, prefix: "host" });
  else setCookie(c, NAME, token, always);
}

export function clearSessionCookie(c: Context): void {
  if (isSecure(c)) deleteCookie(c, NAME, { path: "/", secure: true, prefix: "host" });
  else deleteCookie(c, NAME, { path: "/" });
}
