import type { RandomBytes } from "./token.ts";

interface RateLimit {
  /** Tries within the window, which is in milliseconds and slides. */
  most: number;
  window: number;
}

export interface Gate {
  /** Counts a try. Gives the seconds to wait when there were too many; then it is not counted. */
  enter(address: string, now: number): Promise<number | null>;
}

/** Addresses remembered at once; beyond that the oldest is forgotten. */
const MOST_ADDRESSES = 5_000;
const DAY = 86_400_000;

/**
 * Limits what guesses. It lives in the memory of one server process only: an address is never written down, and what is
 * held of it is a hash with a salt that nobody knows and that changes every day.
 */
export function makeGate({ most, window }: RateLimit, randomBytes: RandomBytes): Gate {
  const tries = new Map<string, number[]>();
  let salt: Uint8Array | undefined;
  let saltedOn = 0;

  async function disguise(address: string, now: number): Promise<string> {
    const day = Math.floor(now / DAY);
    if (salt === undefined || saltedOn !== day) {
      salt = randomBytes(16);
      saltedOn = day;
      tries.clear();
    }
    const text = new TextEncoder().encode(`${[...salt].join()} ${address}`);
    return [...new Uint8Array(await crypto.subtle.digest("SHA-256", text))].join();
  }

  return {
    async enter(address, now) {
      const name = await disguise(address, now);
      const recent = (tries.get(name) ?? []).filter((at) => now - at < window);
      const [first] = recent;
      if (recent.length >= most && first !== undefined) return Math.ceil((first + window - now) / 1000);
      tries.delete(name);
      tries.set(name, [...recent, now]);
      const [eldest] = tries.keys();
      if (tries.size > MOST_ADDRESSES && eldest !== undefined) tries.delete(eldest);
      return null;
    },
  };
}

/** Where a request comes from, as far as the platform tells. On one's own machine there is only one such place. */
export function addressOf(request: { header(name: string): string | undefined }): string {
  return request.header("cf-connecting-ip") ?? "here";
}
