/**
 * Base32 for people, with a check symbol: digits without I, L, O and U, read whatever the case and spacing.
 * Source of the alphabet and of the check (number modulo 37): Douglas Crockford, "Base 32", crockford.com/base32.html.
 */
export const digits = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
/** The last character of a code is one of these. */
export const checkSymbols = `${digits}*~$=U`;

/** A whole number, zero or more, as Base32 digits followed by its check symbol. */
export function writeBase32(value: bigint): string {
  let text = "";
  for (let rest = value; rest > 0n; rest /= 32n) text = digits.charAt(Number(rest % 32n)) + text;
  return (text || "0") + checkSymbols.charAt(Number(value % 37n));
}

/** The characters of a typed code, without spacing and with lookalikes read as what they stand for. */
export function cleanCode(text: string): string[] {
  return [...text.replace(/[\s\-–—_.]/g, "").toUpperCase()].map((symbol) =>
    symbol === "O" ? "0" : symbol === "I" || symbol === "L" ? "1" : symbol,
  );
}

export type Base32Reading =
  | { ok: true; value: bigint }
  | { ok: false; code: "CODE_EMPTY" | "CODE_BAD_SYMBOL" | "CODE_WRONG_CHECK"; symbol: string };

/** Reads digits and check symbol. Spaces and hyphens are passed over; I and L are 1, O is 0. */
export function readBase32(text: string): Base32Reading {
  const symbols = cleanCode(text);
  const check = symbols.pop();
  if (check === undefined || symbols.length === 0) return { ok: false, code: "CODE_EMPTY", symbol: "" };
  let value = 0n;
  for (const symbol of symbols) {
    const digit = digits.indexOf(symbol);
    if (digit < 0) return { ok: false, code: "CODE_BAD_SYMBOL", symbol };
    value = value * 32n + BigInt(digit);
  }
  const given = checkSymbols.indexOf(check);
  if (given < 0) return { ok: false, code: "CODE_BAD_SYMBOL", symbol: check };
  if (BigInt(given) !== value % 37n) return { ok: false, code: "CODE_WRONG_CHECK", symbol: check };
  return { ok: true, value };
}
