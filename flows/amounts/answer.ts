/** What cannot be worked out is a value with one sentence that names the range; nothing here throws. */
export const amountCodes = [
  "NOT_A_NUMBER",
  "BOTTLE_RANGE",
  "TOO_LITTLE",
  "TEMPERATURE_RANGE",
  "HUMIDITY_RANGE",
  "POT_RANGE",
  "POT_SIZES_MISSING",
  "ROOT_LOSS_RANGE",
  "RATE_UNKNOWN",
] as const;
export type AmountCode = (typeof amountCodes)[number];

export interface Refusal {
  ok: false;
  code: AmountCode;
  /** One sentence for the shopper; it names the range. */
  sentence: string;
}

/** What every result carries: how it came about, in one line, and the ids of the sources behind it. */
export interface Worked {
  working: string;
  sources: string[];
}

export type Answer<T> = ({ ok: true } & T & Worked) | Refusal;

export function refuse(code: AmountCode, sentence: string): Refusal {
  return { ok: false, code, sentence };
}

/** Undefined when the value lies in the range, ends included. `sentence` is said when it does not. */
export function refuseOutside(
  value: number,
  [least, most]: readonly [number, number],
  code: AmountCode,
  sentence: string,
): Refusal | undefined {
  if (Number.isNaN(value)) return refuse("NOT_A_NUMBER", `That is not a number. ${sentence}`);
  return value >= least && value <= most ? undefined : refuse(code, sentence);
}
