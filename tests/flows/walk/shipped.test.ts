import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { LONGEST_ALLOWED, walk } from "../../../flows/walk/walk.ts";
import { shippedFlow } from "../../support/shipped-flow.ts";

/** The counts that the README states. */
const figures: unknown = JSON.parse(
  readFileSync(new URL("../../docs/walk-figures.json", import.meta.url), "utf8"),
);

it("no conversation of the shipped content breaks an invariant of the design", { timeout: 600_000 }, () => {
  const { violations, longest, conversations } = walk(shippedFlow());
  expect(violations).toEqual([]);
  expect(longest).toBeLessThanOrEqual(LONGEST_ALLOWED);
  expect(conversations).toBeGreaterThan(1_000_000n);
  expect({ conversations: Number(conversations), longest }).toEqual(figures);
});
