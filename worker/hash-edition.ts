import type { Edition } from "../flows/edition.ts";

/** Names an edition by its content: the first 16 hexadecimal digits of its SHA-256. Number and hash do not count. */
export async function hashEdition(edition: Edition): Promise<string> {
  const text = JSON.stringify({ ...edition, number: 0, hash: "" });
  const digest = await crypto.subtle.digest("SHA-256", new TextEncoder().encode(text));
  return [...new Uint8Array(digest).subarray(0, 8)]
    .map((byte) => byte.toString(16).padStart(2, "0"))
    .join("");
}
