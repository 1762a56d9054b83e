/** Rooms without a thermometer: what people heat to. */
export const DEFAULT_ROOM_CELSIUS = 21;
/** The coldest and the warmest room that a plan is made for, in °C. */
export const COLDEST_ROOM = 5;
export const WARMEST_ROOM = 40;

export const roomProblemCodes = ["ROOM_NOT_A_NUMBER", "ROOM_OUT_OF_RANGE"] as const;
export type RoomProblem = { ok: false; code: (typeof roomProblemCodes)[number]; sentence: string };
export type RoomReading = { ok: true; celsius: number } | RoomProblem;

const RANGE = `${COLDEST_ROOM} and ${WARMEST_ROOM} °C (${toFahrenheit(COLDEST_ROOM)} and ${toFahrenheit(WARMEST_ROOM)} °F)`;

/** Exact: 9/5 and 32. */
export function toFahrenheit(celsius: number): number {
  return (celsius * 9) / 5 + 32;
}

export function toCelsius(fahrenheit: number): number {
  return ((fahrenheit - 32) * 5) / 9;
}

/** Whether plans are made for a room of this temperature. */
export function checkRoom(celsius: number): RoomReading {
  if (!Number.isFinite(celsius)) {
    const sentence = `Give the room temperature as a number between ${RANGE}.`;
    return { ok: false, code: "ROOM_NOT_A_NUMBER", sentence };
  }
  if (celsius < COLDEST_ROOM || celsius > WARMEST_ROOM) {
    return { ok: false, code: "ROOM_OUT_OF_RANGE", sentence: `The room must be between ${RANGE}.` };
  }
  return { ok: true, celsius };
}

/**
 * Reads what a person types: "21", "21,5 °C", "70 F". Without a unit it is that of `units`; nothing typed is the
 * default room.
 */
export function readRoom(text: string, units: "metric" | "us" = "metric"): RoomReading {
  const typed = text.trim();
  if (typed === "") return { ok: true, celsius: DEFAULT_ROOM_CELSIUS };
  const parts = /^([+-]?\d{1,6}(?:[.,]\d{1,6})?) ?°? ?([cf]?)$/i.exec(typed);
  if (!parts) return checkRoom(Number.NaN);
  const value = Number((parts[1] ?? "").replace(",", "."));
  const unit = (parts[2] || (units === "us" ? "f" : "c")).toLowerCase();
  return checkRoom(unit === "f" ? toCelsius(value) : value);
}

/** "21 °C" or "70 °F", rounded. */
export function nameRoom(celsius: number, units: "metric" | "us"): string {
  return units === "us" ? `${Math.round(toFahrenheit(celsius))} °F` : `${Math.round(celsius * 10) / 10} °C`;
}
