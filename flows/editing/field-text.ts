/** Fields as a form writes them: as text, there and back. */
import type { Files } from "../content/read-files.ts";
import type { Edit, FieldAddress } from "./edit.ts";
import { removeField, setField } from "./field.ts";

/** `lines`: a list, one item on each line. `yes`: yes or no. `number`: a whole number. */
export type FieldShape = "line" | "prose" | "choice" | "yes" | "lines" | "number";

export interface FieldAs {
  as: FieldShape;
  /** May be left out of the file. */
  optional?: boolean | undefined;
}

/** A value as a form writes it; what is not there is empty. */
export function toText(value: unknown): string {
  if (value === undefined || value === null) return "";
  if (Array.isArray(value)) return value.map(String).join("\n");
  if (typeof value === "boolean") return value ? "yes" : "no";
  return String(value);
}

/** A value as a file holds it; undefined where the form says nothing that fits. */
export function toValue(text: string, shape: FieldShape): string | number | boolean | string[] | undefined {
  const trimmed = text.trim();
  if (shape === "lines")
    return trimmed === ""
      ? []
      : trimmed
          .split("\n")
          .map((one) => one.trim())
          .filter(Boolean);
  if (shape === "yes") return trimmed === "" ? undefined : trimmed === "yes";
  if (shape === "number") return /^-?\d{1,9}$/.test(trimmed) ? Number(trimmed) : undefined;
  return shape === "prose" ? text : trimmed.replace(/\s+/g, " ");
}

/** Writes what a form says into a field; an optional one that is empty goes away. */
export function writeText(files: Files, address: FieldAddress, text: string, field: FieldAs): Edit {
  const value = toValue(text, field.as);
  const isEmpty = value === undefined || value === "" || (Array.isArray(value) && value.length === 0);
  return isEmpty && field.optional ? removeField(files, address) : setField(files, address, value ?? "");
}
