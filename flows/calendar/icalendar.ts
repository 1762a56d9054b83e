/**
 * The text form of RFC 5545: content lines, folding, escaping. Nothing here knows what a treatment is.
 */

/** A property: name with its parameters ("DTSTART;VALUE=DATE"), and a value that is ready to be written. */
export type Line = readonly [name: string, value: string];

const LONGEST_LINE = 75;

/** Lines to text: CRLF at each end, folded at 75 octets. */
export function writeLines(lines: readonly Line[]): string {
  return lines.map(([name, value]) => `${foldLine(`${name}:${value}`)}\r\n`).join("");
}

/**
 * A value of type TEXT. Backslash, semicolon, comma and line break are escaped; every other control character has no
 * place in a content line and becomes a space, and so does half a surrogate pair.
 */
export function escapeText(text: string): string {
  return cleanLine(
    text
      .replace(/\r\n?/g, "\n")
      .replace(/[\u2028\u2029]/g, "\n")
      .replace(/\\/g, "\\\\"),
  )
    .replace(/;/g, "\\;")
    .replace(/,/g, "\\,")
    .replace(/\n/g, "\\n");
}

/** Takes away what no content line may hold, line breaks excepted. */
function cleanLine(text: string): string {
  let clean = "";
  for (const character of text) {
    const code = character.codePointAt(0) ?? 0;
    const isControl = (code < 0x20 && character !== "\n") || (code >= 0x7f && code < 0xa0);
    const isHalf = code >= 0xd800 && code <= 0xdfff;
    clean += isControl || isHalf || code === 0xfeff ? " " : character;
  }
  return clean;
}

/**
 * Folds one line so that no part is longer than 75 octets in UTF-8, the leading space of the next included. A cut is only
 * ever made between characters, so that a part is whole UTF-8 by itself.
 */
export function foldLine(line: string): string {
  const parts: string[] = [];
  let part = "";
  let octets = 0;
  for (const character of line) {
    const size = octetsOf(character);
    if (octets + size > LONGEST_LINE) {
      parts.push(part);
      part = " ";
      octets = 1;
    }
    part += character;
    octets += size;
  }
  return [...parts, part].join("\r\n");
}

function octetsOf(character: string): number {
  const code = character.codePointAt(0) ?? 0;
  if (code < 0x80) return 1;
  if (code < 0x800) return 2;
  return code < 0x10000 ? 3 : 4;
}
