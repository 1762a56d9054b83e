import { describe, expect, it } from "vitest";
import { readRoom, toCelsius, toFahrenheit } from "../../../flows/calendar/room.ts";

describe("room temperature", () => {
  it.each([
    ["21", "metric", 21],
    ["21,5 °C", "metric", 21.5],
    ["70 F", "metric", 21.11],
    ["70", "us", 21.11],
    ["70°f", "us", 21.11],
    ["20 C", "us", 20],
    ["", "us", 21],
    ["  ", "metric", 21],
  ] as const)("reads “%s” (%s)", (typed, units, celsius) => {
    const found = readRoom(typed, units);
    expect(found.ok && found.celsius).toBeCloseTo(celsius, 2);
  });

  it.each(["300", "-300 F", "warm", "21 K", "1e9", "2 1", "9".repeat(5000)])(
    "refuses “%s” with the range",
    (typed) => {
      const found = readRoom(typed);
      expect(found).toMatchObject({ ok: false, sentence: expect.stringContaining("5 and 40 °C") });
    },
  );

  it("converts exactly at the fixed points", () => {
    expect([0, 100, -40].map(toFahrenheit)).toEqual([32, 212, -40]);
    expect([32, 212, -40].map(toCelsius)).toEqual([0, 100, -40]);
  });
});
