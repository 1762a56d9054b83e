/** What is said with dates and amounts. */
export const yourNumbers = "Your numbers";
export const numbersHint = "They set the days and the amounts. What we think it is stays the same.";
export const units = "Units";
export const systems = { metric: "Liters and °C", us: "Cups, quarts and °F" } as const;
export const room = "Warmth of the room";
export const without = (usual: string) => `Without it we take ${usual}.`;
export const start = "First day";
export const bottle = "Size of your spray bottle";
export const ownBottle = "Another bottle for this";
export const ownBottleSize = "Size of that bottle";
export const ownBottleUnit = "Unit of that bottle";
export const bottleUnit = "Its unit";
export const bottleUnits = {
  ml: "mL",
  litre: "liters",
  "fl-oz": "fl oz",
  cup: "cups",
  quart: "quarts",
  gallon: "gallons",
} as const;
export const work = "Work it out";
export const days = "Days to tick off";
export const daysHint =
  "Where two ways lead to the same end, only the first has its days here. The file puts all of it into your calendar.";
export const replaceDays = "Replace days I saved before";
export const dates = "Days";
export const why = "Why these days";
export const mix = (use: string | null, bottle: string) =>
  use === null ? `For a bottle of ${bottle}` : `For ${use}, a bottle of ${bottle}`;
export const air = "No humidity meter? Work it out from the weather";
export const airHint = "A weather report gives both numbers.";
export const outdoor = (unit: string) => `Warmth outdoors, in °${unit}`;
export const outdoorHumidity = "Humidity outdoors, in percent";
export const helps = "What helps";
export const pots = "How big a pot, how much mix and water";
export const potsHint = "One number is enough. With all three measures of the inside we are closer.";
export const potTop = (unit: string) => `Width across the top, in ${unit}`;
export const potBottom = (unit: string) => `Width at the bottom, in ${unit}`;
export const potHeight = (unit: string) => `Height of the soil, in ${unit}`;
export const roots = "Roots you cut away, in percent";
export const potHolds = (text: string) => `The pot holds about ${text}.`;
export const nextPot = (text: string) => `Move it to a pot of ${text}.`;
export const newStart = "Half the roots or more are gone: new cuttings may be the better way.";
export const mixToBuy = (text: string, bags: string | null) =>
  bags === null ? `You need ${text} of mix.` : `You need ${text} of mix: buy ${bags}.`;
export const leach = (text: string, rounds: string) => `Rinse with ${text} of water, in ${rounds} rounds.`;
export const shopping = "Shopping list";
export const toBuy = "To buy";
export const atHome = "Probably at home";
export const orElse = (names: string) => `or ${names}`;
export const stopWhen = (end: string) => `Stop when ${end}.`;
