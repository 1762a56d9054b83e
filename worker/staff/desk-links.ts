import { counterWords } from "./counter-words.ts";

export const SIGN_IN = "/desk/sign-in";
export const SIGN_OUT = "/desk/sign-out";
export const COUNTER = "/desk/counter";

/** Pages of the desk, for the head of each of them. */
export const deskLinks = [[COUNTER, counterWords.title]] as const;
