import { defineConfig } from "vitest/config";

export default defineConfig({
  root: import.meta.dirname,
  test: {
    include: ["**/*.test.ts"],
    globalSetup: ["./serve.ts"],
    // The development server now and then leaves a connection unanswered on a busy machine. A second try is told in the report,
    // and a fault of our own fails twice.
    retry: 1,
    testTimeout: 120_000,
    hookTimeout: 60_000,
  },
});
