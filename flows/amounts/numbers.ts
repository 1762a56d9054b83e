/** A number for people. A locale that no one knows counts as English. */
export function formatNumber(value: number, locale: string, mostDigits = 2): string {
  return formatOf(locale, mostDigits).format(value);
}

// To make one takes some hundred times as long as to use it, and a plan shows dozens of numbers.
const formats = new Map<string, Intl.NumberFormat>();
/** Whoever sends more locales than this gets right numbers all the same, only slower. */
const MOST_FORMATS = 64;

function formatOf(locale: string, mostDigits: number): Intl.NumberFormat {
  const key = `${mostDigits} ${locale}`;
  const kept = formats.get(key);
  if (kept) return kept;
  const made = new Intl.NumberFormat(knownLocale(locale), { maximumFractionDigits: mostDigits });
  if (formats.size < MOST_FORMATS) formats.set(key, made);
  return made;
}

/** "3" or "3 to 4", when both ends look alike as one number. */
export function formatRange(least: number, most: number, locale: string, mostDigits = 2): string {
  const [low, high] = [formatNumber(least, locale, mostDigits), formatNumber(most, locale, mostDigits)];
  return low === high ? low : `${low} to ${high}`;
}

/**
 * Reads what a shopper types: `1.5`, `1,5`, `1 1/2`, `½`, and groups of three digits as the locale writes them.
 * NaN for anything else.
 */
export function parseNumber(text: string, locale: string): number {
  const plain = text
    .trim()
    .replace(/[\u2212\u2013]/g, "-")
    .replace(/[½¼¾⅛]/g, (glyph) => ` ${glyphs[glyph]}`)
    .trim();
  const fraction = /^(?:(\d{1,6})\s+)?(\d{1,6})\/(\d{1,6})$/.exec(plain);
  if (fraction) return Number(fraction[1] ?? 0) + Number(fraction[2]) / Number(fraction[3]);
  const group = groupMark(locale);
  const grouped = new RegExp(`^-?\\d{1,3}(?:[${group}]\\d{3})+(?:[.,]\\d{1,9})?$`);
  const digits = grouped.test(plain) ? plain.replace(new RegExp(`[${group}]`, "g"), "") : plain;
  return /^-?\d{1,9}(?:[.,]\d{1,9})?$/.test(digits) ? Number(digits.replace(",", ".")) : Number.NaN;
}

const glyphs: Record<string, string> = { "½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8" };

/** What stands between thousands, ready for the brackets of an expression; every kind of space counts as one. */
function groupMark(locale: string): string {
  const parts = formatOf(locale, 2).formatToParts(1_234_567);
  const mark = parts.find(({ type }) => type === "group")?.value ?? ",";
  return /\s/.test(mark) ? "\\s" : mark;
}

function knownLocale(locale: string): string {
  try {
    return Intl.NumberFormat.supportedLocalesOf(locale)[0] ?? "en";
  } catch {
    return "en";
  }
}
