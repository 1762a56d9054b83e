import type { Host } from "../edition.ts";
import { type Help, listHelps } from "./air-helps.ts";
import { type Answer, type Refusal, refuseOutside } from "./answer.ts";
import { carryHumidity, dewPoint, magnusRange, magnusSource } from "./humid-air.ts";
import { formatNumber } from "./numbers.ts";
import { fromCelsius, type TemperatureUnit, toCelsius } from "./units.ts";

const roomRange = [5, 40] as const;
const humidityRange = [1, 100] as const;

/** Percent that suits a plant, by how it wants its air. Groups by n78 and d87, numbers by d86 and d88; see the notes on memory. */
export const humidityTargets: Readonly<
  Record<Host["humidity"], { percent: readonly [number, number]; sources: readonly string[] }>
> = {
  low: { percent: [25, 50], sources: ["n78", "d87", "from-memory"] },
  medium: { percent: [40, 60], sources: ["d86", "d88", "from-memory"] },
  high: { percent: [50, 60], sources: ["d87", "from-memory"] },
};

export interface AirReading {
  /** Whole percent, indoors. */
  humidity: number;
  /** Whole degrees, in the unit of the question. */
  dewPoint: number;
  target: readonly [number, number];
  standing: "below" | "within" | "above";
  /** Points of humidity to the nearest end of the target; 0 within it. */
  off: number;
  /** How far it is from what this plant wants. */
  sentence: string;
  /** What the dew point means at the window. */
  windowSentence: string;
  /** What would help, the strongest first; empty when the air is not too dry. */
  helps: Help[];
}

export interface AirRequest {
  outdoor: number;
  /** Percent, as a weather report gives it. */
  outdoorHumidity: number;
  room: number;
  unit: TemperatureUnit;
  want: Host["humidity"];
  locale: string;
}

/** Indoor humidity from the weather report: air that comes in and is heated keeps its water. */
export function readAir(request: AirRequest): Answer<AirReading> {
  const { outdoorHumidity, unit, want, locale } = request;
  const refusal = refuseAir(request);
  if (refusal) return refusal;
  const room = toCelsius(request.room, unit);
  const exact = carryHumidity(toCelsius(request.outdoor, unit), outdoorHumidity, room);
  const humidity = Math.round(exact);
  const dew = Math.round(fromCelsius(dewPoint(room, exact), unit));
  const { percent: target, sources } = humidityTargets[want];
  const standing = humidity < target[0] ? "below" : humidity > target[1] ? "above" : "within";
  const off = Math.max(target[0] - humidity, humidity - target[1], 0);
  const degrees = (value: number) => `${formatNumber(value, locale, 1)} °${unit}`;
  const from = `${degrees(request.outdoor)} and ${formatNumber(outdoorHumidity, locale, 0)} % outdoors`;
  return {
    ok: true,
    humidity,
    dewPoint: dew,
    target,
    standing,
    off,
    sentence: tellStanding(humidity, target, off, standing),
    windowSentence: `Glass colder than about ${degrees(dew)} will sweat. Keep leaves off it.`,
    helps: standing === "below" ? listHelps({ room, unit, humidity: exact, target, locale }) : [],
    working: `${from}, warmed to ${degrees(request.room)}: ${humidity} % (Magnus formula, −40 to 50 °C). Cooking, people and plants add to it, so it is the least to expect.`,
    sources: [magnusSource, ...sources],
  };
}

function refuseAir({ outdoor, outdoorHumidity, room, unit }: AirRequest): Refusal | undefined {
  const say = (what: string, [least, most]: readonly [number, number]) =>
    `Give ${what} between ${least} and ${most} °C (${fromCelsius(least, "F")} and ${fromCelsius(most, "F")} °F).`;
  return (
    refuseOutside(
      toCelsius(outdoor, unit),
      magnusRange,
      "TEMPERATURE_RANGE",
      say("an outdoor temperature", magnusRange),
    ) ??
    refuseOutside(
      toCelsius(room, unit),
      roomRange,
      "TEMPERATURE_RANGE",
      say("a room temperature", roomRange),
    ) ??
    refuseOutside(
      outdoorHumidity,
      humidityRange,
      "HUMIDITY_RANGE",
      "Give an outdoor humidity between 1 and 100 percent.",
    )
  );
}

function tellStanding(
  humidity: number,
  [least, most]: readonly [number, number],
  off: number,
  standing: AirReading["standing"],
): string {
  const wants = `This plant wants ${least} to ${most} percent`;
  if (standing === "within") return `${wants}. The room has about ${humidity}: that is fine.`;
  const points = off === 1 ? "1 point" : `${off} points`;
  return `${wants}. The room has about ${humidity}: ${points} too ${standing === "below" ? "dry" : "damp"}.`;
}
