import type { Context } from "hono";

/** Longest address that is carried through a sign-in. */
const LONGEST = 3000;

/**
 * The address that a request was meant for, with what its form held as a query: after the sign-in the page shows the same
 * form, filled in as before.
 */
export async function writeWayBack(c: Context): Promise<string> {
  const { pathname, search } = new URL(c.req.url);
  if (c.req.method === "GET" || c.req.method === "HEAD") return `${pathname}${search}`;
  try {
    const fields = Object.entries(await c.req.parseBody()).filter(
      (pair): pair is [string, string] => typeof pair[1] === "string",
    );
    return `${pathname}?${new URLSearchParams(fields)}`;
  } catch {
    return pathname;
  }
}

/** An address inside one folder of this server; anything else, such as another server's, becomes the fallback. */
export function readWayBack(given: string | undefined, folder: string, fallback: string): string {
  if (given === undefined || given.length > LONGEST) return fallback;
  const base = "https://here.invalid";
  const address = parse(given, base);
  if (address === null) return fallback;
  const { origin, pathname, search } = address;
  const inside = pathname === folder || pathname.startsWith(`${folder}/`);
  return origin === base && inside && !pathname.includes("//") ? `${pathname}${search}` : fallback;
}

function parse(address: string, base: string): URL | null {
  try {
    return new URL(address, base);
  } catch {
    return null;
  }
}
