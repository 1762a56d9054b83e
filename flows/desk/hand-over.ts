import type { Shop } from "../edition.ts";

/** Characters of one text message: 160 of the GSM alphabet (3GPP TS 23.038). */
export const SHORT_MESSAGE = 160;

/** For editions from before shops had words of their own. */
const usualWords: NonNullable<Shop["handOver"]> = {
  subject: "Your plant check, {shop}",
  message: "{shop}: go on with your plant check here: {link}",
};

export interface HandOver {
  /** Leads to the case by its code: short enough for a text message. */
  shortLink: string;
  message: string;
  /** By RFC 6068, to nobody yet: whoever sends it fills in the address. */
  mailto: string;
}

/** `base`: the address of the server, with its last slash. */
export function makeHandOver(shop: Shop, base: string, code: string): HandOver {
  const { subject, message } = shop.handOver ?? usualWords;
  const shortLink = `${base}c/${encodeStrictly(code)}`;
  const fill = (text: string) =>
    text.replaceAll("{shop}", shop.name).replaceAll("{link}", shortLink).replaceAll("{code}", code);
  const body = fill(message);
  return {
    shortLink,
    message: body,
    mailto: `mailto:?subject=${encodeStrictly(fill(subject))}&body=${encodeStrictly(body)}`,
  };
}

/**
 * A text message to a phone number, by RFC 5724; null when the number is none. A number without its country gets that of
 * the shop.
 */
export function writeSms(shop: Shop, number: string, message: string): string | null {
  const recipient = readNumber(shop, number);
  return recipient === null ? null : `sms:${recipient}?body=${encodeStrictly(message)}`;
}

/** The country of a shop's phones, as "+1"; empty when no phone says it. */
export function countryOf({ branches }: Shop): string {
  for (const { phone } of branches) {
    const [, country] = /^(\+\d{1,3})[\s-]/.exec(phone) ?? [];
    if (country) return country;
  }
  return "";
}

/** A global number by RFC 3966: a plus sign and 5 to 15 digits (ITU-T E.164 allows 15), without separators. */
function readNumber(shop: Shop, typed: string): string | null {
  const text = typed.trim();
  if (!/^\+?[\d\s().\-/]+$/.test(text)) return null;
  const digits = text.replace(/\D/g, "");
  // A leading zero is the way out of the area, and no part of the number from abroad.
  const whole = text.startsWith("+") ? `+${digits}` : countryOf(shop) + digits.replace(/^0/, "");
  return /^\+[1-9]\d{4,14}$/.test(whole) ? whole : null;
}

/** Percent-encodes all but letters, digits, "-", ".", "_": what RFC 3986 reserves, and what a phone cuts off a link. */
function encodeStrictly(text: string): string {
  return encodeURIComponent(text).replace(
    /[!'()*~]/g,
    (symbol) => `%${symbol.charCodeAt(0).toString(16).toUpperCase()}`,
  );
}
