import type { D1Migration } from "cloudflare:test";

declare global {
  namespace Cloudflare {
    interface Env {
      DB: D1Database;
      MIGRATIONS: D1Migration[];
      /** How many ways of two editors getting into each other's way are played through. */
      ROUNDS: number;
    }
  }
}
