import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { developmentDays, MOST_ROUNDS, type Schedule, schedule } from "../../../flows/calendar/schedule.ts";
import { shippedFlow } from "../../support/shipped-flow.ts";

const flow = shippedFlow();
const cycles = flow.edition.pacing?.cycles ?? [];

function plan(condition: string, remedy: string, roomCelsius?: number, units?: "metric" | "us"): Schedule {
  const found = schedule(flow, condition, remedy, { roomCelsius, units });
  if (!found.ok) throw new Error(found.sentence);
  return found;
}

function cycleOf(condition: string) {
  const cycle = cycles.find((one) => one.condition === condition);
  if (!cycle) throw new Error(`no life cycle of ${condition}`);
  return cycle;
}

/** Days observed by other authors than those of the constants, and how far the model may be off: A3 of the fact papers. */
const observed: { condition: string; celsius: number; days: [number, number]; by: string; within: number }[] =
  [
    { condition: "spider-mites", celsius: 15.6, days: [30, 30], by: "n5", within: 0.15 },
    { condition: "spider-mites", celsius: 17.8, days: [21, 21], by: "n5", within: 0.15 },
    { condition: "spider-mites", celsius: 21.1, days: [14.5, 14.5], by: "n5", within: 0.15 },
    { condition: "spider-mites", celsius: 20, days: [17, 17], by: "n6", within: 0.15 },
    { condition: "spider-mites", celsius: 27, days: [5, 20], by: "n8", within: 0 },
    {
      condition: "spider-mites",
      celsius: 21,
      days: [14, 14],
      by: "n7, the point between those of the line",
      within: 0.15,
    },
    { condition: "whiteflies", celsius: 25, days: [21, 21], by: "n14, tomato", within: 0.17 },
    { condition: "whiteflies", celsius: 25, days: [27, 27], by: "n14, sweet pepper", within: 0.17 },
    { condition: "whiteflies", celsius: 15, days: [51, 51], by: "n14, tomato", within: 0.17 },
    { condition: "whiteflies", celsius: 21.1, days: [23, 34], by: "n16", within: 0 },
    { condition: "aphids", celsius: 20, days: [8, 8], by: "n29, to first young", within: 0.17 },
    { condition: "aphids", celsius: 25, days: [5, 5], by: "n29, to first young", within: 0.17 },
    { condition: "aphids", celsius: 30, days: [4.6, 4.6], by: "n28, to first young", within: 0.15 },
    {
      condition: "mealybugs",
      celsius: 21,
      days: [42, 84],
      by: "n26, longtailed, summer to winter",
      within: 0,
    },
    {
      condition: "thrips",
      celsius: 20,
      days: [7, 15],
      by: "p132: 7 to 15 days at 20 to 37 °C",
      within: 0.25,
    },
    { condition: "fungus-gnats", celsius: 22.2, days: [18, 21], by: "n39", within: 0.15 },
  ];

describe("development", () => {
  it.each(observed)(
    "$condition at $celsius °C, as $by saw it",
    ({ condition, celsius, days, by, within }) => {
      const model = developmentDays(cycleOf(condition), celsius);
      const [least, most] = days;
      const nearest = Math.min(most, Math.max(least, model));
      const misfit = (model - nearest) / nearest;
      const seen = least === most ? `${least}` : `${least}–${most}`;
      console.log(
        `${condition} ${celsius} °C: model ${model.toFixed(1)} d, observed ${seen} d (${by}), misfit ${Math.round(misfit * 100)} %`,
      );
      expect(Math.abs(misfit)).toBeLessThanOrEqual(within);
    },
  );

  // The rounded table of the fact papers, 16 to 28 °C in steps of two.
  it.each([
    ["spider-mites", [26.4, 18.9, 14.7, 12.1, 10.2, 8.9, 7.8]],
    ["whiteflies", [49.4, 39.2, 32.5, 27.8, 24.2, 21.5, 19.3]],
    ["mealybugs", [88.9, 70.2, 58.0, 49.4, 43.0, 38.1, 34.2]],
    ["aphids", [11.1, 9.2, 7.9, 6.9, 6.1, 5.5, 5.0]],
    ["thrips", [29.8, 22.8, 18.5, 15.5, 13.4, 11.8, 10.5]],
    ["fungus-gnats", [38.0, 31.6, 27.1, 23.6, 21.0, 18.9, 17.2]],
  ] as const)("%s agrees with the published table to a tenth of a day", (condition, table) => {
    table.forEach((days, i) => {
      expect(Math.abs(developmentDays(cycleOf(condition), 16 + 2 * i) - days)).toBeLessThanOrEqual(0.1);
    });
  });

  it("the nymphs of the citrus mealybug, by the constants of another paper", () => {
    const { open } = cycleOf("mealybugs");
    const table = [48.3, 38.9, 32.6, 28.0, 24.6, 21.9, 19.8];
    table.forEach((days, i) => {
      expect(
        Math.abs(developmentDays(open ?? { threshold: 0, degreeDays: 0 }, 16 + 2 * i) - days),
      ).toBeLessThan(0.11);
    });
  });

  it("is never negative, never at or below the threshold, and never slower in a warmer room", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...cycles),
        fc.double({ min: -20, max: 45, noNaN: true }),
        fc.double({ min: 0, max: 20, noNaN: true }),
        (cycle, celsius, warmer) => {
          const days = developmentDays(cycle, celsius);
          expect(days).toBeGreaterThan(0);
          if (celsius <= cycle.threshold) expect(days).toBe(Number.POSITIVE_INFINITY);
          expect(developmentDays(cycle, celsius + warmer)).toBeLessThanOrEqual(days);
        },
      ),
    );
  });
});

const pairs = (flow.edition.pacing?.paced ?? []).flatMap((remedy) =>
  flow.edition.conditions
    .filter(({ plan: steps }) => steps.includes(remedy))
    .map(({ id }) => [id, remedy] as const),
);

describe("the schedule", () => {
  it("has figures for mites, whiteflies, mealybugs, aphids, thrips and fungus gnats", () => {
    expect(cycles.map(({ condition }) => condition).sort()).toEqual(
      ["aphids", "fungus-gnats", "mealybugs", "spider-mites", "thrips", "whiteflies"].sort(),
    );
    for (const { sources, condition } of cycles) {
      for (const id of sources) expect(flow.source(id), `${condition}: ${id}`).toBeDefined();
    }
  });

  it("stays within the table, never repeats less often when it is warmer, and covers a generation", () => {
    const rooms = fc.double({ min: 5, max: 40, noNaN: true });
    fc.assert(
      fc.property(fc.constantFrom(...pairs), rooms, rooms, ([condition, remedy], a, b) => {
        const special = flow.edition.pacing?.intervals.find(
          (one) => one.condition === condition && one.remedies.includes(remedy),
        );
        const table = special ?? flow.remedy(remedy)?.repeat;
        const cool = plan(condition, remedy, Math.min(a, b));
        const warm = plan(condition, remedy, Math.max(a, b));
        expect(warm.everyDays).toBeLessThanOrEqual(cool.everyDays);
        for (const found of [cool, warm]) {
          expect(found.everyDays).toBeGreaterThanOrEqual(table?.everyDays[0] ?? 0);
          expect(found.everyDays).toBeLessThanOrEqual(table?.everyDays[1] ?? 0);
          expect(Number.isInteger(found.everyDays) && Number.isInteger(found.rounds)).toBe(true);
          expect(found.rounds).toBeGreaterThanOrEqual(1);
          expect(found.rounds).toBeLessThanOrEqual(MOST_ROUNDS);
          if (found.basis !== "life") continue;
          if (found.outlasts) {
            expect((found.rounds - 1) * found.everyDays).toBeGreaterThanOrEqual(found.generationDays ?? 0);
          }
          // Rounded down: never longer than what is safe, unless the table allows no shorter one.
          const safe = found.longestDays ?? 0;
          expect(found.everyDays <= safe || found.everyDays === table?.everyDays[0]).toBe(true);
        }
      }),
      { numRuns: 2000 },
    );
  });

  it("lands where published intervals land, from 18 to 26 °C", () => {
    for (let celsius = 18; celsius <= 26; celsius += 0.5) {
      for (const condition of ["spider-mites", "aphids"]) {
        const { everyDays } = plan(condition, "soap-spray", celsius);
        expect(everyDays).toBeGreaterThanOrEqual(3);
        expect(everyDays).toBeLessThanOrEqual(10);
      }
      for (const condition of ["mealybugs", "whiteflies", "soft-scale"]) {
        const { everyDays } = plan(condition, "soap-spray", celsius);
        expect(everyDays).toBeGreaterThanOrEqual(5);
        expect(everyDays).toBeLessThanOrEqual(14);
      }
    }
  });

  it("says why in plain words, with the working and the sources", () => {
    const found = plan("spider-mites", "soap-spray");
    expect(found.why).toBe(
      "Eggs survive each round. At 21 °C they are adults in about 13 days. So every 7 days, four times.",
    );
    expect(found.working).toContain("133.3 ÷ (21 − 10.96) = 13.3 days");
    expect(found.sources).toEqual(expect.arrayContaining(["n7", "n1", "n54"]));
  });

  it("a warm and a cool room differ", () => {
    expect(plan("spider-mites", "soap-spray", 18).everyDays).toBe(7);
    expect(plan("spider-mites", "soap-spray", 26).everyDays).toBe(5);
    expect(plan("whiteflies", "soap-spray", 18).rounds).toBeGreaterThan(
      plan("whiteflies", "soap-spray", 26).rounds,
    );
  });

  it("below the threshold nothing grows: says so and keeps to the table", () => {
    const found = plan("spider-mites", "soap-spray", 10);
    expect(found).toMatchObject({ basis: "standstill", everyDays: 7, generationDays: null });
    expect(found.why).toContain("At 10 °C they stand still.");
  });

  it("where no life is known the table's short interval and all its rounds hold", () => {
    const found = plan("armored-scale", "oil-spray", 21);
    expect(found).toMatchObject({ basis: "table", everyDays: 7, rounds: 6, working: "" });
  });

  it("names the room in the units of the reader", () => {
    expect(plan("aphids", "soap-spray", 21, "us").why).toContain("At 70 °F");
  });

  it.each([300, -40, Number.NaN, Number.POSITIVE_INFINITY])(
    "a room of %d degrees is answered with the range",
    (room) => {
      expect(schedule(flow, "aphids", "soap-spray", { roomCelsius: room })).toMatchObject({
        ok: false,
        sentence: expect.stringContaining("5 and 40 °C (41 and 104 °F)"),
      });
    },
  );

  it("a step that is done once has no schedule", () => {
    expect(schedule(flow, "aphids", "isolate")).toMatchObject({ ok: false, code: "NOTHING_TO_REPEAT" });
  });
});
