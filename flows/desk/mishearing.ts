import type { Case } from "../case.ts";
import { editionOfCode, LONGEST_CODE, readCode } from "../case-code.ts";
import { checkSymbols, cleanCode, digits, readBase32 } from "../crockford.ts";
import type { Flow } from "../flow.ts";

/**
 * Characters that are taken for each other, the likeliest first. By eye: the pairs that ISMP, "Misidentification of
 * Alphanumeric Symbols" (ismp.org), lists from misread orders, and common practice. By ear: letters whose names rhyme
 * or differ in one sound that a telephone cuts off (B, C, D, E, G, P, T, V and Z; M and N; F, S and X; A, J and K;
 * five and nine): common practice. I, L and O are no characters of a code; Crockford reads them as 1 and 0.
 */
const confusions = [
  ..."B8 S5 MN FS BD DT PB DP TP VB CZ Z2 G6 GC 59 8A AJ AK JK SX FX U0 0D 0Q 17 QU VU YV 4Y 49 38 53 58 27 3B".split(
    " ",
  ),
  ..."GJ CS BE DE PE TE VE CE GE ZE CT DG TG BG PG VG CG ZC ZG ZT ZD ZB ZP ZV VD VP VT VC CP CD CB".split(
    " ",
  ),
  ..."Z3 C3 E3 T3 D3 P3 G3 V3 EF PR KX HN MH 8H AH 6B 06 08 9G 9P 7T 1T 4A VW UW YU XY 1J WM QK RA".split(
    " ",
  ),
  ..."*X *8 *4 $S $5 $8 =E =F =3 ~N ~2 ~S ~= *$ 1Y 1H".split(" "),
] as const;

const alternatives = new Map<string, string[]>();
for (const pair of confusions) {
  for (const [symbol = "", other = ""] of [pair, [...pair].reverse()]) {
    const found = alternatives.get(symbol) ?? [];
    if (!found.includes(other)) alternatives.set(symbol, [...found, other]);
  }
}

/** For each character, what it may have been instead, likeliest first. */
export function alternativesTo(symbol: string): readonly string[] {
  return alternatives.get(symbol) ?? [];
}

/** A code that may have been meant. */
export interface CodeGuess {
  code: string;
  /** Place of the character in question, counted from 0. */
  at: number;
  /** `heard`: another character there; `swapped`: this one and the next changed places; `missing`: the last one is. */
  slip: "heard" | "swapped" | "missing";
  case: Case;
}

const MOST_GUESSES = 6;
/** Far above the codes that people read out; longer ones would only cost time. */
const LONGEST_GUESSED = 40;

/**
 * Codes one slip away from a broken one that lead to a case: characters that are often taken for each other first, then
 * neighbors that changed places, then a check symbol left out. Empty when the code is whole, or broken in other ways.
 */
export function guessCodes(flowOf: (edition: number) => Flow | undefined, text: string): CodeGuess[] {
  const guesses: CodeGuess[] = [];
  for (const variant of variantsOf(text)) {
    const read = readCode(flowOf, variant.code);
    if (read.ok && !guesses.some(({ code }) => code === variant.code))
      guesses.push({ ...variant, case: read.case });
    if (guesses.length === MOST_GUESSES) break;
  }
  return guesses;
}

/** The editions a code may mean, the likeliest first: its own when it is whole, else those of all that it may have been. */
export function editionsMeant(text: string): number[] {
  if (text.length > LONGEST_CODE) return [];
  const codes = readBase32(text).ok ? [text] : variantsOf(text).map(({ code }) => code);
  return [...new Set(codes.flatMap((code) => editionOfCode(code) ?? []))].filter((number) => number > 0);
}

/** Every code one likely slip away whose check symbol fits, whether it leads to a case or not. */
export function variantsOf(text: string): Omit<CodeGuess, "case">[] {
  const symbols = cleanCode(text);
  if (symbols.length > LONGEST_GUESSED) return [];
  const variants = [...substitutions(symbols), ...swaps(symbols), ...completions(symbols)];
  return variants.filter(({ code }) => readBase32(code).ok);
}

function substitutions(symbols: readonly string[]): Omit<CodeGuess, "case">[] {
  const last = symbols.length - 1;
  const isPossible = (symbol: string, at: number) => (at === last ? checkSymbols : digits).includes(symbol);
  const wrong = symbols.flatMap((symbol, at) => (isPossible(symbol, at) ? [] : [at]));
  const found = symbols.flatMap((symbol, at) => {
    if (wrong.length > 0 && !wrong.includes(at)) return [];
    const likely = alternativesTo(symbol);
    // A character that no code holds is certainly wrong there, whatever it was.
    const all = wrong.includes(at) ? [...likely, ...(at === last ? checkSymbols : digits)] : likely;
    return all
      .filter((other) => isPossible(other, at))
      .map((other, rank) => ({ code: replaceAt(symbols, at, [other]), at, slip: "heard" as const, rank }));
  });
  return found.sort((a, b) => a.rank - b.rank).map(({ code, at, slip }) => ({ code, at, slip }));
}

function swaps(symbols: readonly string[]): Omit<CodeGuess, "case">[] {
  return symbols.slice(0, -1).flatMap((symbol, at) => {
    const next = symbols[at + 1] ?? "";
    if (symbol === next) return [];
    const code = replaceAt(symbols, at, [next, symbol]);
    return [{ code, at, slip: "swapped" as const }];
  });
}

/** Signs that look like spacing are passed over when a code is read, so that the last one may be lost. */
function completions(symbols: readonly string[]): Omit<CodeGuess, "case">[] {
  if (symbols.length < 2) return [];
  return [...checkSymbols].map((symbol) => ({
    code: [...symbols, symbol].join(""),
    at: symbols.length,
    slip: "missing" as const,
  }));
}

function replaceAt(symbols: readonly string[], at: number, instead: readonly string[]): string {
  return [...symbols.slice(0, at), ...instead, ...symbols.slice(at + instead.length)].join("");
}
