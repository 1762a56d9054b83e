import type { MiddlewareHandler } from "hono";

/** Longest query string that is read, in characters. */
export const LONGEST_QUERY = 4096;

/** `types`: the policies of trusted types that a page may make. */
const makePolicy = (types: string) =>
  [
    "default-src 'none'",
    "style-src 'self'",
    "script-src 'self'",
    "connect-src 'self'",
    "img-src 'self' data:",
    "form-action 'self'",
    "base-uri 'none'",
    "require-trusted-types-for 'script'",
    `trusted-types ${types}`,
    "frame-ancestors 'none'",
  ].join("; ");

const pagePolicy = makePolicy("'none'");
/** The editor's pages start one worker, and what its address may be is the policy's one rule. */
const editorPolicy = makePolicy("leafturn-checker");

/** Headers for every answer. Pages get the full policy; data and files get one that lets nothing run. */
export const secureAnswers: MiddlewareHandler = async (c, next) => {
  await next();
  // All answers are made here, so that their headers can be written; `c.header` makes a new answer for each.
  const { headers } = c.res;
  const isPage = headers.get("content-type")?.startsWith("text/html") === true;
  // The element's files are for every page; who frames them is none of their business.
  const isForAll = c.req.path.startsWith("/embed/");
  const isEditor = c.req.path === "/editor" || c.req.path.startsWith("/editor/");
  const filePolicy = isForAll ? "default-src 'none'" : "default-src 'none'; frame-ancestors 'none'";
  headers.set("Content-Security-Policy", isPage ? (isEditor ? editorPolicy : pagePolicy) : filePolicy);
  headers.set("X-Content-Type-Options", "nosniff");
  // Behind a sign-in it is "same-origin": under "no-referrer" an older browser hides the origin of our own forms.
  if (!headers.has("referrer-policy")) headers.set("Referrer-Policy", "no-referrer");
  if (!isPage) return;
  headers.set("X-Frame-Options", "DENY");
  headers.set("Cross-Origin-Opener-Policy", "same-origin");
  headers.set("Permissions-Policy", "camera=(), geolocation=(), microphone=()");
  if (!headers.has("cache-control")) headers.set("Cache-Control", "no-cache");
};
