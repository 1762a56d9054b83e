import { defineConfig } from "vitest/config";

/** Tests that need neither a Worker nor a browser. */
export default defineConfig({
  root: import.meta.dirname,
  test: {
    // Left to itself, the runner leaves a core for its own use and so runs one file at a time on two.
    maxWorkers: "100%",
    // The sources hold no state between tests, so that files may share what was loaded: loading takes longer than most tests.
    isolate: false,
    include: ["{flows,outside,content,widget,docs}/**/*.test.ts"],
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
});
