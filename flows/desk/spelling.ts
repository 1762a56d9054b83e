/**
 * Words to spell a code with over the phone. Letters: the radiotelephony spelling alphabet of the ICAO (Annex 10, volume
 * II, 5.2.1.3, figure 5-1), which is also that of the ITU Radio Regulations, appendix 14. Digits are said as everybody says
 * them. The check symbols of Crockford's Base32 have no words of their own anywhere: common practice, no source.
 */
const words: Readonly<Record<string, string>> = {
  A: "Alfa",
  B: "Bravo",
  C: "Charlie",
  D: "Delta",
  E: "Echo",
  F: "Foxtrot",
  G: "Golf",
  H: "Hotel",
  I: "India",
  J: "Juliett",
  K: "Kilo",
  L: "Lima",
  M: "Mike",
  N: "November",
  O: "Oscar",
  P: "Papa",
  Q: "Quebec",
  R: "Romeo",
  S: "Sierra",
  T: "Tango",
  U: "Uniform",
  V: "Victor",
  W: "Whiskey",
  X: "X-ray",
  Y: "Yankee",
  Z: "Zulu",
  "0": "zero",
  "1": "one",
  "2": "two",
  "3": "three",
  "4": "four",
  "5": "five",
  "6": "six",
  "7": "seven",
  "8": "eight",
  "9": "nine",
  "*": "star",
  "~": "tilde, the wavy line",
  $: "dollar sign",
  "=": "equals sign",
};

export interface Spelled {
  symbol: string;
  word: string;
}

/** A code, character by character, with the word to say for each. */
export function spellCode(code: string): Spelled[] {
  return [...code.toUpperCase()].map((symbol) => ({ symbol, word: words[symbol] ?? symbol }));
}

/** A code in groups of three or four, as it is read out; the groups differ by one at most. */
export function groupCode(code: string): string[] {
  const count = Math.ceil(code.length / 4);
  const groups: string[] = [];
  for (let i = 0, at = 0; i < count; i++) {
    const size = Math.ceil((code.length - at) / (count - i));
    groups.push(code.slice(at, at + size));
    at += size;
  }
  return groups;
}
