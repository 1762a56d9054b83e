/**
 * Moist air by the Magnus formula in the form of the World Meteorological Organization, over water, good to 0.4 % from
 * −40 to 50 °C (source n69). Over water below freezing as well, because that is what weather stations report against.
 */
const [a, b, e0] = [17.62, 243.12, 6.112];

export const magnusRange = [-40, 50] as const;
export const magnusSource = "n69";

/** Pressure of water vapour in saturated air, in hPa, at a temperature in °C. */
export function saturationPressure(celsius: number): number {
  return e0 * Math.exp((a * celsius) / (b + celsius));
}

/** Humidity in percent after air was warmed or cooled without adding or taking water; not above 100. */
export function carryHumidity(fromCelsius: number, humidity: number, toCelsius: number): number {
  const carried = (humidity * saturationPressure(fromCelsius)) / saturationPressure(toCelsius);
  return Math.min(100, carried);
}

/** The temperature in °C at which the air begins to leave water on things. */
export function dewPoint(celsius: number, humidity: number): number {
  const gamma = Math.log(humidity / 100) + (a * celsius) / (b + celsius);
  return (b * gamma) / (a - gamma);
}

/** Grams of water vapour in a cubic metre of air, by the law of ideal gases (461.5 J/(kg·K) for water vapour). */
export function vapourIn(celsius: number, humidity: number): number {
  return (humidity * saturationPressure(celsius) * 1000) / (461.5 * (celsius + 273.15));
}
