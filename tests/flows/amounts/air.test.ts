import fc from "fast-check";
import psychrolib from "psychrolib";
import { describe, expect, it } from "vitest";
import { type AirRequest, humidityTargets, readAir } from "../../../flows/amounts/air.ts";
import { humidifierLitres } from "../../../flows/amounts/air-helps.ts";
import { carryHumidity, dewPoint, saturationPressure, vapourIn } from "../../../flows/amounts/humid-air.ts";
import { toCelsius } from "../../../flows/amounts/units.ts";
import { shippedFlow } from "../../support/shipped-flow.ts";

psychrolib.SetUnitSystem(psychrolib.SI);
const atmosphere = 101_325;

/** Outdoor to indoor humidity in percent by psychrolib: the water in the air stays, saturation is over ice below 0 °C. */
function carryByPsychrolib(from: number, humidity: number, to: number): number {
  const pressure = psychrolib.GetVapPresFromRelHum(from, humidity / 100);
  return Math.min(100, psychrolib.GetRelHumFromVapPres(to, pressure) * 100);
}

describe("the Magnus formula against outside values", () => {
  // ASHRAE Fundamentals 2017, chapter 1, table 3, through the test file of psychrolib [n67]. The formula promises 0.4 %.
  it.each([
    [5, 872.6],
    [25, 3169.7],
    [50, 12_351.3],
  ])("saturation at %d °C is %d Pa, give or take 0.4 percent (ASHRAE 2017)", (celsius, pascal) => {
    const misfit = (saturationPressure(celsius) * 100) / pascal - 1;
    console.log(`air es(${celsius}) against ASHRAE: ${(misfit * 100).toFixed(3)} %`);
    expect(Math.abs(misfit)).toBeLessThan(0.004);
  });

  // FAO-56 by Tetens, as printed by the NCL functions [n68].
  it.each([
    [15, 1.705],
    [24.5, 3.075],
  ])("saturation at %d °C is %d kPa, give or take 0.4 percent (FAO-56)", (celsius, kilopascal) => {
    const misfit = saturationPressure(celsius) / 10 / kilopascal - 1;
    console.log(`air es(${celsius}) against FAO-56: ${(misfit * 100).toFixed(3)} %`);
    expect(Math.abs(misfit)).toBeLessThan(0.004);
  });

  // Published tables of outdoor air heated indoors, in their own degrees; whole percents, so a point is their own error.
  it.each([
    { source: "n71", from: 32, humidity: 90, to: 68, published: 23, tolerance: 1 },
    { source: "n71", from: 20, humidity: 20, to: 70, published: 3, tolerance: 1 },
    { source: "n71", from: 20, humidity: 40, to: 70, published: 6, tolerance: 1 },
    { source: "n71", from: 20, humidity: 60, to: 70, published: 8, tolerance: 1 },
    { source: "n71", from: 20, humidity: 80, to: 70, published: 11, tolerance: 1 },
    { source: "n72", from: 0, humidity: 50, to: 70, published: 3, tolerance: 1 },
    { source: "n72", from: 35, humidity: 50, to: 70, published: 14, tolerance: 1 },
    { source: "n74", from: 10, humidity: 70, to: 72, published: 6, tolerance: 1 },
    { source: "n73", from: -10, humidity: 80, to: 72, published: 2, tolerance: 1.2 },
    { source: "n73", from: 0, humidity: 60, to: 72, published: 2, tolerance: 1.5 },
    { source: "n73", from: 10, humidity: 60, to: 72, published: 5, tolerance: 1.2 },
    { source: "n73", from: 20, humidity: 80, to: 72, published: 11, tolerance: 1.2 },
    { source: "n73", from: 30, humidity: 40, to: 72, published: 8, tolerance: 1.2 },
    { source: "n73", from: 30, humidity: 80, to: 72, published: 17, tolerance: 1.2 },
  ])(
    "$source: $from °F at $humidity percent becomes $published at $to °F",
    ({ from, humidity, to, published, tolerance }) => {
      const computed = carryHumidity(toCelsius(from, "F"), humidity, toCelsius(to, "F"));
      console.log(
        `air ${from} °F ${humidity} % to ${to} °F: ${computed.toFixed(1)} %, published ${published} %`,
      );
      expect(Math.abs(computed - published)).toBeLessThanOrEqual(tolerance);
    },
  );
});

describe("the Magnus formula against psychrolib 1.1.1", () => {
  it("tells dew points within 0.05 °C for rooms", () => {
    const cases = [20, 21, 25, 30].flatMap((celsius) =>
      [20, 30, 40, 60, 80].map((humidity) => [celsius, humidity] as const),
    );
    const misfits = cases.map(
      ([celsius, humidity]) =>
        dewPoint(celsius, humidity) - psychrolib.GetTDewPointFromRelHum(celsius, humidity / 100),
    );
    // A dew point below freezing is a frost point there; ours stays over water, as weather reports do.
    const thawed = misfits.filter((_, at) => dewPoint(...(cases[at] ?? [20, 50])) > 0);
    console.log(
      `dew point against psychrolib above 0 °C: at most ${Math.max(...thawed.map(Math.abs)).toFixed(3)} °C off (${thawed.length} cases)`,
    );
    expect(Math.max(...thawed.map(Math.abs))).toBeLessThan(0.05);
    expect(thawed.length).toBeGreaterThan(14);
  });

  it("tells indoor humidity within 0.2 points above freezing, and says how far ice takes them apart below", () => {
    const grid = (from: readonly number[]) =>
      from.flatMap((outdoor) =>
        [20, 50, 80, 100].flatMap((humidity) =>
          [18, 21, 24].map((room) =>
            Math.abs(carryHumidity(outdoor, humidity, room) - carryByPsychrolib(outdoor, humidity, room)),
          ),
        ),
      );
    const above = Math.max(...grid([0.1, 5, 10, 15]));
    const below = [-5, -10, -20, -30].map((outdoor) => [outdoor, Math.max(...grid([outdoor]))] as const);
    console.log(`indoor humidity against psychrolib above 0 °C: at most ${above.toFixed(3)} points off`);
    for (const [outdoor, off] of below)
      console.log(`  outdoors ${outdoor} °C: at most ${off.toFixed(2)} points off (water against ice)`);
    expect(above).toBeLessThan(0.2);
    expect(Math.max(...below.map(([, off]) => off))).toBeLessThan(1.5);
  });

  it("weighs the water in the air within 0.5 %", () => {
    for (const celsius of [15, 21, 30]) {
      for (const humidity of [20, 50, 80]) {
        const ratio = psychrolib.GetHumRatioFromRelHum(celsius, humidity / 100, atmosphere);
        const grams = (ratio / psychrolib.GetMoistAirVolume(celsius, ratio, atmosphere)) * 1000;
        expect(Math.abs(vapourIn(celsius, humidity) / grams - 1)).toBeLessThan(0.005);
      }
    }
  });
});

describe("properties of humid air", () => {
  const celsius = fc.double({ min: -40, max: 50, noNaN: true });
  const percent = fc.double({ min: 1, max: 100, noNaN: true });

  it("the dew point is never above the air, meets it at 100 %, and gives the humidity back", () => {
    fc.assert(
      fc.property(celsius, percent, (t, humidity) => {
        const dew = dewPoint(t, humidity);
        expect(dew).toBeLessThanOrEqual(t + 1e-9);
        expect(dewPoint(t, 100)).toBeCloseTo(t, 9);
        expect((100 * saturationPressure(dew)) / saturationPressure(t)).toBeCloseTo(humidity, 6);
      }),
    );
  });

  it("warming dries and cooling undoes it; damper and warmer air outdoors is damper indoors", () => {
    fc.assert(
      fc.property(
        celsius,
        fc.double({ min: 1, max: 90, noNaN: true }),
        fc.double({ min: 0.1, max: 20, noNaN: true }),
        (t, humidity, warmer) => {
          const dried = carryHumidity(t, humidity, t + warmer);
          expect(dried).toBeLessThan(humidity);
          expect(carryHumidity(t + warmer, dried, t)).toBeCloseTo(humidity, 6);
          expect(carryHumidity(t, humidity + 5, t + warmer)).toBeGreaterThan(dried);
          expect(carryHumidity(t - 1, humidity, t + warmer)).toBeLessThan(dried);
        },
      ),
    );
  });
});

describe("readAir", () => {
  const winter: AirRequest = {
    outdoor: 0,
    outdoorHumidity: 90,
    room: 20,
    unit: "C",
    want: "high",
    locale: "en",
  };

  it("tells the humidity, how far off it is, the window and what helps", () => {
    const air = readAir(winter);
    expect(air).toMatchObject({
      ok: true,
      humidity: 24,
      dewPoint: -1,
      standing: "below",
      off: 26,
      sentence: "This plant wants 50 to 60 percent. The room has about 24: 26 points too dry.",
      windowSentence: "Glass colder than about -1 °C will sweat. Keep leaves off it.",
      working:
        "0 °C and 90 % outdoors, warmed to 20 °C: 24 % (Magnus formula, −40 to 50 °C). Cooking, people and plants add to it, so it is the least to expect.",
    });
    if (!air.ok) return;
    expect(air.helps.map(({ id, points }) => [id, points])).toEqual([
      ["humidifier", 26],
      ["cooler-room", 5],
      ["grouping", null],
      ["pebble-tray", null],
      ["misting", null],
    ]);
    expect(air.helps[0]?.sentence).toContain("1.6 L of water a day");
    const named = new Set(shippedFlow().edition.sources.map(({ id }) => id));
    for (const id of [...air.sources, ...air.helps.flatMap(({ sources }) => sources)])
      expect(named).toContain(id);
  });

  it("agrees with the sum of another hand: 30 to 50 % in 28 m³ at 74 °F takes some 1.4 L a day", () => {
    const litres = humidifierLitres({
      room: toCelsius(74, "F"),
      unit: "F",
      humidity: 30,
      target: [50, 60],
      locale: "en",
    });
    expect(litres * (28 / 30)).toBeCloseTo(1.4, 1);
  });

  it("speaks Fahrenheit and quarts where asked", () => {
    const air = readAir({ ...winter, outdoor: 20, outdoorHumidity: 60, room: 70, unit: "F" });
    expect(air).toMatchObject({ ok: true, humidity: 9 });
    if (!air.ok) return;
    expect(air.helps[0]?.sentence).toContain("quarts");
    expect(air.helps[1]?.sentence).toContain("5 °F");
  });

  it("offers nothing to a plant that is content or too damp, and one that bears dry air is content sooner", () => {
    expect(readAir({ ...winter, outdoor: 15, outdoorHumidity: 75 })).toMatchObject({
      standing: "within",
      off: 0,
      helps: [],
    });
    expect(readAir({ ...winter, outdoor: 25, outdoorHumidity: 90 })).toMatchObject({
      humidity: 100,
      standing: "above",
      helps: [],
    });
    const dryBy = (want: AirRequest["want"]) => readAir({ ...winter, want });
    expect([dryBy("low"), dryBy("medium"), dryBy("high")]).toMatchObject([
      { off: 1 },
      { off: 16 },
      { off: 26 },
    ]);
    expect(humidityTargets.low.percent[0]).toBeLessThan(humidityTargets.medium.percent[0]);
  });

  it.each([
    [{ room: 300 }, "TEMPERATURE_RANGE", "Give a room temperature between 5 and 40 °C (41 and 104 °F)."],
    [
      { outdoor: -41 },
      "TEMPERATURE_RANGE",
      "Give an outdoor temperature between -40 and 50 °C (-40 and 122 °F).",
    ],
    [{ outdoorHumidity: 0 }, "HUMIDITY_RANGE", "Give an outdoor humidity between 1 and 100 percent."],
    [{ outdoorHumidity: 101 }, "HUMIDITY_RANGE", "Give an outdoor humidity between 1 and 100 percent."],
    [
      { room: Number.NaN },
      "NOT_A_NUMBER",
      "That is not a number. Give a room temperature between 5 and 40 °C (41 and 104 °F).",
    ],
  ] as const)("answers %j with %s", (bad, code, sentence) => {
    expect(readAir({ ...winter, ...bad })).toEqual({ ok: false, code, sentence });
  });
});
