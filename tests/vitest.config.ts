import { defineConfig } from "vitest/config";

/** Tests that need neither a Worker nor a browser. */
export default defineConfig({
  root: import.meta.dirname,
  test: {
    include: ["{flows,outside,content,widget,docs}/**/*.test.ts"],
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
});
