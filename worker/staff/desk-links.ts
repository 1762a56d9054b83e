import { counterWords } from "./counter-words.ts";
import { figuresWords } from "./figures-words.ts";
import { staffWords } from "./staff-words.ts";

const DESK = "/desk";
export const SIGN_IN = `${DESK}/sign-in`;
export const SIGN_OUT = `${DESK}/sign-out`;
export const COUNTER = `${DESK}/counter`;
export const FIGURES = `${DESK}/figures`;
export const FINDINGS_FILE = `${FIGURES}/bench-findings.csv`;
export const COUNTS_FILE = `${FIGURES}/counts.csv`;

/** Pages of the desk, for the head of each of them. */
export const deskLinks = [
  [DESK, staffWords.phoneDesk],
  [COUNTER, counterWords.title],
  [FIGURES, figuresWords.title],
] as const;

/** An address of the desk as the routes inside it know it. */
export function inDesk(address: string): string {
  return address.slice(DESK.length);
}
