import { carryHumidity, magnusSource, vapourIn } from "./humid-air.ts";
import { formatNumber } from "./numbers.ts";
import type { TemperatureUnit } from "./units.ts";

export const helpIds = ["humidifier", "cooler-room", "grouping", "pebble-tray", "misting"] as const;

export interface Help {
  id: (typeof helpIds)[number];
  /** Points of humidity gained; null where no readable measurement gives a figure. */
  points: number | null;
  /** What it does, and where the sources disagree. */
  sentence: string;
  sources: string[];
}

export interface HelpRequest {
  /** °C. */
  room: number;
  unit: TemperatureUnit;
  humidity: number;
  target: readonly [number, number];
  locale: string;
}

/** A small room of 30 m³ that swaps half its air each hour: an assumption, said aloud in the sentence. */
const roomCubicMetres = 30;
const airChangesAnHour = 0.5;

export function listHelps(request: HelpRequest): Help[] {
  return [runHumidifier(request), coolRoom(request), ...weakHelps];
}

/** Litres a day that make up for the dry air coming in. */
export function humidifierLitres({ room, humidity, target }: HelpRequest): number {
  const grams = vapourIn(room, target[0]) - vapourIn(room, humidity);
  return (Math.max(0, grams) * roomCubicMetres * airChangesAnHour * 24) / 1000;
}

function runHumidifier(request: HelpRequest): Help {
  const { humidity, target, locale, unit } = request;
  const litres = humidifierLitres(request);
  const amount =
    unit === "F"
      ? `${formatNumber(Math.max(0.5, Math.round((litres / 0.946352946) * 2) / 2), locale)} quarts`
      : `${formatNumber(Math.max(0.1, litres), locale, 1)} L`;
  const room = unit === "F" ? "1,000 cubic feet" : "30 cubic meters";
  return {
    id: "humidifier",
    points: Math.round(target[0] - humidity),
    sentence: `A room humidifier closes the gap. It takes about ${amount} of water a day in a room of ${room} that swaps half its air each hour.`,
    sources: ["d86", "d87", magnusSource, "from-memory"],
  };
}

function coolRoom({ room, humidity, unit, locale }: HelpRequest): Help {
  const [step, celsius] = unit === "F" ? [5, (5 * 5) / 9] : [3, 3];
  const points = Math.round(carryHumidity(room, humidity, room - celsius) - humidity);
  return {
    id: "cooler-room",
    points,
    sentence: `Turning the heat down by ${formatNumber(step, locale)} °${unit} adds about ${points === 1 ? "1 point" : `${points} points`} with the same water in the air.`,
    sources: [magnusSource],
  };
}

const weakHelps: readonly Help[] = [
  {
    id: "grouping",
    points: null,
    sentence:
      "Plants set close together dampen the air between them a little. One office study found a real gain, but it took many plants.",
    sources: ["d86", "d90"],
  },
  {
    id: "pebble-tray",
    points: null,
    sentence:
      "Sources disagree on a tray of wet pebbles. Some extension pages still advise it. A test printed by an orchid society found no gain worth having in open air. Count on little.",
    sources: ["d26", "d27", "d86", "d88", "d89"],
  },
  {
    id: "misting",
    points: null,
    sentence:
      "Sources disagree on misting. One extension page says it may help and one advises it for ferns. Another says it is not effective, as the leaves dry in no time. Wet leaves help leaf diseases. Skip it.",
    sources: ["d26", "d27", "d86", "d127"],
  },
];
