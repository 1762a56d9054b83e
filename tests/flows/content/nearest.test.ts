import { expect, it } from "vitest";
import { findNearest } from "../../../flows/content/nearest.ts";

const ids = ["soap-spray", "oil-spray", "isolate"];

it.each([
  ["soap-sprya", "soap-spray"],
  ["isolat", "isolate"],
  ["oilspray", "oil-spray"],
  ["prune-affected", null],
  ["x", null],
])("takes %s for %s", (typed, meant) => {
  expect(findNearest(typed, ids)).toBe(meant);
});
