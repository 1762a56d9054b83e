import { join } from "node:path";
import { cloudflareTest, readD1Migrations } from "@cloudflare/vitest-pool-workers";
import { defineConfig } from "vitest/config";

const worker = join(import.meta.dirname, "..", "..", "worker");

export default defineConfig({
  root: import.meta.dirname,
  plugins: [
    cloudflareTest(async () => ({
      wrangler: { configPath: join(worker, "wrangler.jsonc") },
      miniflare: {
        bindings: {
          MIGRATIONS: await readD1Migrations(join(worker, "migrations")),
          ROUNDS: Number(process.env.ROUNDS ?? 300),
        },
      },
    })),
  ],
  test: {
    include: ["**/*.test.ts"],
    globalSetup: ["./build-edition.ts"],
    setupFiles: ["./migrate.ts"],
    testTimeout: 60_000,
  },
});
