import type { Agreement } from "../../flows/statistics/agreement.ts";

/** A share of 1 in whole percent. */
export function sayShare(share: number): string {
  return `${Math.round(share * 100)} %`;
}

export function sayRange({ interval: { low, high } }: Agreement): string {
  return `${Math.round(low * 100)} to ${Math.round(high * 100)} %`;
}
