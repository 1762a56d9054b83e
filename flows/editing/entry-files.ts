import type { EntryKind } from "../content/content.ts";
import { conditionSchema, questionSchema, remedySchema } from "../content/schemas.ts";
import { sectionHeadings, sectionKeys } from "../content/sections.ts";
import type { FieldMap, FieldValue } from "./edit.ts";
import { isList, isMapValue, writeBlockValue, writeFlow, writeKey } from "./write-value.ts";

type FileKind = Extract<EntryKind, "question" | "condition" | "remedy">;

const models: Record<FileKind, { keys: readonly string[]; values: FieldMap }> = {
  question: {
    keys: Object.keys(questionSchema.shape),
    values: { prompt: "", why: "", ask_when: { any: [] }, options: [] },
  },
  condition: {
    keys: Object.keys(conditionSchema.shape),
    values: {
      name: "",
      kind: "abiotic",
      how_common: "occasional",
      prone: [],
      immune: [],
      evidence: { hallmark: [], supports: [], against: [], excludes: [] },
      when_absent: { against: [], excludes: [] },
      looks_like: [],
      brought_on_by: [],
      brings: [],
      plan: [],
      spreads: "no",
      sources: [],
    },
  },
  remedy: {
    keys: Object.keys(remedySchema.shape),
    values: {
      name: "",
      method: "cultural",
      toxicity: 0,
      product: false,
      for_food_plants: true,
      phase: "next-days",
      needs: [],
      never_when: [],
      cautions: { always: [] },
      sources: [],
    },
  },
};

/** The text of a new file in house style: keys in their usual order, then an empty body. */
export function makeFile(kind: EntryKind, given: FieldMap): string {
  const { keys, values } = models[kind as FileKind];
  const all: FieldMap = { ...values, ...given };
  const lines = keys.flatMap((key) => {
    const value = all[key];
    return value === undefined ? [] : [`${writeKey(key)}:${writeLines(value)}`];
  });
  const body =
    kind === "condition" ? sectionKeys.map((key) => `\n## ${sectionHeadings[key]}\n`).join("") : "";
  return `---\n${lines.join("\n")}\n---\n${body}`;
}

function writeLines(value: FieldValue): string {
  if (isMapValue(value) && Object.keys(value).length > 0) {
    return Object.entries(value)
      .map(([key, inner]) => `\n  ${writeKey(key)}: ${writeBlockValue(inner)}`)
      .join("");
  }
  if (isList(value) && value.length > 0 && value.every(isMapValue)) {
    return value.map((item) => `\n  - ${writeFlow(item)}`).join("");
  }
  return ` ${writeBlockValue(value)}`;
}
