import type { Files } from "../content/read-files.ts";

/** What a field of a content file can hold. */
export type FieldValue = string | number | boolean | null | readonly FieldValue[] | FieldMap;
export interface FieldMap {
  readonly [key: string]: FieldValue;
}

/** A key; the position of a list item; or the text that names a list item (its `id`, `other`, `condition`, or itself). */
export type Step = string | number;

/**
 * A field of a content file. `path` leads from the top of the file: keys and list items. Below the keys of a Markdown file,
 * `["body"]` is the text, and `["sections", key]` a section of a condition.
 */
export interface FieldAddress {
  file: string;
  path: readonly Step[];
}

export const editRefusals = [
  "FILE_MISSING",
  "FILE_EXISTS",
  "FILE_UNREADABLE",
  "FIELD_MISSING",
  "VALUE_UNWRITABLE",
  "TOO_TANGLED",
  "ID_BAD",
  "ID_TAKEN",
  "ID_RETIRED",
  "ENTRY_MISSING",
] as const;
export type EditRefusal = (typeof editRefusals)[number];

export interface Refused {
  ok: false;
  because: EditRefusal;
  sentence: string;
}

/** New files, or why nothing was changed. */
export type Edit = { ok: true; files: Files } | Refused;

const sentences: Record<EditRefusal, string> = {
  FILE_MISSING: "There is no such file.",
  FILE_EXISTS: "There is such a file already.",
  FILE_UNREADABLE: "The file cannot be read as it stands. Mend its text first.",
  FIELD_MISSING: "There is no such field in the file.",
  VALUE_UNWRITABLE: "This cannot be written here.",
  TOO_TANGLED: "This place is written in a way that only the whole text can be edited.",
  ID_BAD: "An id is small letters and digits, joined by single dashes.",
  ID_TAKEN: "This id is taken.",
  ID_RETIRED: "This id was retired. Old links are written with it, so it cannot come back.",
  ENTRY_MISSING: "There is no such entry.",
};

export function refuse(because: EditRefusal, sentence = sentences[because]): Refused {
  return { ok: false, because, sentence };
}
