import { parseDocument } from "yaml";
import type { FieldMap, FieldValue } from "./edit.ts";

/** A value in one line, as YAML flow text: `[a, "b: c"]`, `{ id: x, label: "Yes, often" }`. */
export function writeFlow(value: FieldValue): string {
  if (isList(value)) return `[${value.map(writeFlow).join(", ")}]`;
  if (typeof value === "object" && value !== null) {
    const pairs = Object.entries(value).map(([key, inner]) => `${writeKey(key)}: ${writeFlow(inner)}`);
    return pairs.length === 0 ? "{}" : `{ ${pairs.join(", ")} }`;
  }
  return typeof value === "string" ? writePlain(value) : String(value);
}

/** A value after `key: `, where commas and brackets inside a text need no quotes. */
export function writeBlockValue(value: FieldValue): string {
  if (typeof value === "string" && isPlain(value, false)) return value;
  return writeFlow(value);
}

export function writeKey(key: string): string {
  return isPlain(key, true) ? key : quote(key);
}

function writePlain(text: string): string {
  return isPlain(text, true) ? text : quote(text);
}

/** Whether a text may stand without quotes and means the same. */
export function isPlain(text: string, inFlow: boolean): boolean {
  if (!/^[\p{L}\p{N}][^\n\r\t]*$/u.test(text) || text.endsWith(" ") || /: |:$| #/.test(text)) return false;
  if (inFlow && /[,[\]{}]/.test(text)) return false;
  return parseDocument(text, { version: "1.2" }).toJS() === text;
}

/** Double quotes with JSON's escapes, and escapes for what YAML counts as line ends or does not print. */
export function quote(text: string): string {
  return JSON.stringify(text).replace(
    /[\u007f-\u009f\u2028\u2029\ufeff\ufffe\uffff]/g,
    (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, "0")}`,
  );
}

export function isList(value: FieldValue): value is readonly FieldValue[] {
  return Array.isArray(value);
}

export function isMapValue(value: FieldValue): value is FieldMap {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** Whether two values of content are the same, whatever the order of keys. */
export function isSame(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return Object.is(a, b);
  if (Array.isArray(a) !== Array.isArray(b)) return false;
  const [keys, others] = [Object.keys(a), Object.keys(b)];
  const [left, right] = [a as Record<string, unknown>, b as Record<string, unknown>];
  return (
    keys.length === others.length &&
    keys.every((key) => Object.hasOwn(b, key) && isSame(left[key], right[key]))
  );
}
