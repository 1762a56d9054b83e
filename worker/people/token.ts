/** Bits of a key or token: more than the 128 that cannot be guessed. */
const BYTES = 20;

/** As many unpredictable bytes as asked for. */
export type RandomBytes = (count: number) => Uint8Array;

/** A new key or token: 40 hexadecimal digits, which survive every messenger and mail program. */
export function makeToken(randomBytes: RandomBytes): string {
  return toHex(randomBytes(BYTES));
}

export function isToken(text: string): boolean {
  return /^[0-9a-f]{40}$/.test(text);
}

/**
 * What is stored of a key or token. A plain hash is enough for what was drawn from 2^160 and never chosen by a person
 * (OWASP ASVS 5.0, 6.5.2).
 */
export async function hashToken(token: string): Promise<string> {
  const digest = await crypto.subtle.digest("SHA-256", new TextEncoder().encode(token));
  return toHex(new Uint8Array(digest));
}

function toHex(bytes: Uint8Array): string {
  return [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}
