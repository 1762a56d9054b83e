import { describe, expect, test } from "vitest";
import { wilsonInterval } from "../../flows/statistics/wilson.ts";

/**
 * Successes, failures, and the limits at z = 1.96 in double precision: the test cases of "Compute the Wilson score
 * interval", codegolf.stackexchange.com/questions/105389.
 */
const published = [
  [0, 1, 0, 0.7934567085261071],
  [1, 0, 0.20654329147389294, 1],
  [1, 1, 0.09452865480086611, 0.905471345199134],
  [1, 10, 0.016231752262825982, 0.3773646254862038],
  [10, 1, 0.6226353745137962, 0.9837682477371741],
  [10, 90, 0.05522854161313612, 0.1743673043676654],
  [90, 10, 0.8256326956323345, 0.9447714583868639],
  [25, 75, 0.17545094003724265, 0.3430464637007583],
  [75, 25, 0.6569535362992417, 0.8245490599627573],
  [50, 50, 0.40382982859014716, 0.5961701714098528],
  [0, 100, 0, 0.03699480747600191],
  [100, 0, 0.9630051925239981, 1],
] as const;

/**
 * Successes, trials, and the limits to four places: R. G. Newcombe, "Two-sided confidence intervals for the single
 * proportion: comparison of seven methods", Statistics in Medicine 17 (1998) 857–872, Table I, method 3. From memory.
 */
const newcombe = [
  [81, 263, 0.2553, 0.3662],
  [15, 148, 0.0624, 0.1605],
  [0, 20, 0, 0.1611],
  [1, 29, 0.0061, 0.1718],
] as const;

describe("Wilson's interval", () => {
  test.each(published)("of %d right and %d wrong is the published one", (successes, failures, low, high) => {
    const interval = wilsonInterval(successes, successes + failures, 1.96);
    expect(interval.low).toBeCloseTo(low, 14);
    expect(interval.high).toBeCloseTo(high, 14);
  });

  test.each(newcombe)("of %d among %d is Newcombe's", (successes, trials, low, high) => {
    const interval = wilsonInterval(successes, trials);
    expect(interval.low).toBeCloseTo(low, 4);
    expect(interval.high).toBeCloseTo(high, 4);
  });

  test("without a sample rules nothing out", () => {
    expect(wilsonInterval(0, 0)).toEqual({ low: 0, high: 1 });
  });
});
