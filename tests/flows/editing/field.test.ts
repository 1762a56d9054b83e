import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parseDocument } from "yaml";
import type { Edit, FieldValue, Step } from "../../../flows/editing/edit.ts";
import { addItem, moveItem, readField, removeField, setField } from "../../../flows/editing/field.ts";
import { splitMarkdown } from "../../../flows/editing/source-file.ts";
import { loadFiles, shippedContent } from "../content/content-files.ts";

const shipped = loadFiles(shippedContent);
const names = Object.keys(shipped)
  .filter((name) => /\.(md|yaml)$/.test(name))
  .sort();

interface Leaf {
  file: string;
  path: Step[];
  value: FieldValue;
}

/** Every field of a file that holds no further fields, and every list, found by the yaml library on the whole text. */
function listFields(file: string): { leaves: Leaf[]; lists: Leaf[] } {
  const text = shipped[file] ?? "";
  const keys = file.endsWith(".md") ? splitMarkdown(text)?.keys : { from: 0, to: text.length };
  const leaves: Leaf[] = [];
  const lists: Leaf[] = [];
  const follow = (value: unknown, path: Step[]): void => {
    if (Array.isArray(value)) {
      lists.push({ file, path, value });
      for (const [i, item] of value.entries()) follow(item, [...path, i]);
    } else if (typeof value === "object" && value !== null) {
      for (const [key, inner] of Object.entries(value)) follow(inner, [...path, key]);
    } else leaves.push({ file, path, value: value as FieldValue });
  };
  follow(parseDocument(text.slice(keys?.from, keys?.to), { version: "1.2" }).toJS(), []);
  return { leaves, lists };
}

const fields = names.map(listFields);
const leaves = fields.flatMap((field) => field.leaves);
const lists = fields.flatMap((field) => field.lists);

function done(edit: Edit): Record<string, string> {
  if (!edit.ok) throw new Error(`${edit.because}: ${edit.sentence}`);
  return edit.files;
}

/** First and last line (from 0) in which two texts differ, in the first and in the second. */
function changedLines(before: string, after: string): { before: string[]; after: string[] } {
  const [a, b] = [before.split("\n"), after.split("\n")];
  let head = 0;
  while (head < Math.min(a.length, b.length) && a[head] === b[head]) head++;
  let tail = 0;
  while (tail < Math.min(a.length, b.length) - head && a.at(-1 - tail) === b.at(-1 - tail)) tail++;
  return { before: a.slice(head, a.length - tail), after: b.slice(head, b.length - tail) };
}

describe("a field is edited in place", () => {
  it("reads every field of the shipped content as the yaml library does", () => {
    expect(leaves.length).toBeGreaterThan(5000);
    for (const { file, path, value } of leaves.filter((_, i) => i % 97 === 0)) {
      expect(readField(shipped, { file, path }), `${file} ${path.join(".")}`).toEqual(value);
    }
  });

  it("changes no byte where the same value is written", () => {
    for (const { file, path, value } of [...leaves, ...lists].filter((_, i) => i % 101 === 0)) {
      expect(done(setField(shipped, { file, path }, value))[file], `${file} ${path.join(".")}`).toBe(
        shipped[file],
      );
    }
  });

  it("touches only the lines of the value, whatever is written", { timeout: 600_000 }, () => {
    const text = fc.oneof(
      fc.string({ unit: "grapheme", maxLength: 40 }),
      fc.constantFrom(
        "true",
        "12",
        "a: b",
        "a #b",
        "- x",
        "[x]",
        "{",
        "null",
        "~",
        "'",
        '"',
        "\n",
        "a\nb",
        " a",
        "a ",
        "",
        "yes, no",
        "&a",
        "*a",
        "!t",
        "|",
        "@",
        "%",
        "`",
        "---",
      ),
    );
    fc.assert(
      fc.property(fc.constantFrom(...leaves), text, ({ file, path, value }, put) => {
        const after = done(setField(shipped, { file, path }, put));
        expect(readField(after, { file, path })).toBe(put);
        const lines = changedLines(shipped[file] ?? "", after[file] ?? "");
        // A text of several lines stood on several lines before.
        const most = typeof value === "string" && value.includes("\n") ? value.split("\n").length : 1;
        expect(lines.before.length).toBeLessThanOrEqual(most);
        // Back again is the file as it was, but for the way the value itself is quoted.
        const back = done(setField(after, { file, path }, value));
        expect(readField(back, { file, path })).toEqual(value);
        expect(changedLines(shipped[file] ?? "", back[file] ?? "").before.length).toBeLessThanOrEqual(most);
      }),
      { numRuns: 100 },
    );
  });

  it("adds to, takes from and reorders every kind of list, and comes back to the same bytes", {
    timeout: 600_000,
  }, () => {
    for (const { file, path, value } of lists.filter((list, i) => list.path.length > 0 && i % 61 === 0)) {
      const items = value as FieldValue[];
      const address = { file, path };
      const item: FieldValue = typeof items[0] === "object" ? { ...items[0], id: "new-item" } : "new-item";
      const added = done(addItem(shipped, address, item));
      expect(readField(added, address)).toEqual([...items, item]);
      expect(changedLines(shipped[file] ?? "", added[file] ?? "").before.length).toBeLessThanOrEqual(1);
      const removed = done(removeField(added, { file, path: [...path, items.length] }));
      expect(removed[file]).toBe(shipped[file]);
      if (items.length < 2) continue;
      const moved = done(moveItem(shipped, address, 0, 1));
      expect(readField(moved, address)).toEqual([items[1], items[0], ...items.slice(2)]);
      expect(done(moveItem(moved, address, 0, 1))[file]).toBe(shipped[file]);
    }
  });

  it("finds list items by their names", () => {
    expect(
      readField(shipped, { file: "questions/mark-look.md", path: ["options", "stipple", "present", 0] }),
    ).toBe("pale-stippling");
    expect(readField(shipped, { file: "findings.yaml", path: ["fine-webbing", "kind"] })).toBe("sign");
    expect(readField(shipped, { file: "hosts.yaml", path: ["no-such-plant", "name"] })).toBeUndefined();
    expect(setField(shipped, { file: "hosts.yaml", path: ["no-such-plant", "name"] }, "x")).toMatchObject({
      ok: false,
      because: "FIELD_MISSING",
    });
  });

  it("adds a key that is missing in its usual place, with what is above it", () => {
    const file = "questions/mark-look.md";
    const after = done(setField(shipped, { file, path: ["ask_when", "none"] }, ["fine-webbing"]));
    expect(after[file]).toContain("ask_when:\n  any: [marks-on-leaves]\n  none: [fine-webbing]\noptions:");
    const opening = "questions/what-you-see.md";
    const gate = done(setField(shipped, { file: opening, path: ["ask_when", "any"] }, ["fine-webbing"]));
    expect(gate[opening]).toMatch(/\nwhy: .*\nask_when: \{ any: \[fine-webbing\] \}\noptions:/);
    const eppo = done(setField(shipped, { file: "conditions/dry-air.md", path: ["eppo"] }, "ABCDE"));
    expect(eppo["conditions/dry-air.md"]).toMatch(/\nkind: abiotic\neppo: ABCDE\n/);
    const none = done(removeField(eppo, { file: "conditions/dry-air.md", path: ["eppo"] }));
    expect(none["conditions/dry-air.md"]).toBe(shipped["conditions/dry-air.md"]);
  });
});

describe("the text below the keys", () => {
  it("is edited without touching the keys or the other sections", () => {
    const file = "conditions/spider-mites.md";
    const address = { file, path: ["sections", "whenToGiveUp"] };
    const was = readField(shipped, address);
    expect(was).toMatch(/^Let it go if/);
    const after = done(setField(shipped, address, "Bag it.\n\nThen bin it."));
    expect(readField(after, address)).toBe("Bag it.\n\nThen bin it.");
    expect(changedLines(shipped[file] ?? "", after[file] ?? "").before).toHaveLength(1);
    expect(done(setField(after, address, String(was)))[file]).toBe(shipped[file]);
    expect(setField(shipped, address, "x\n## Will it live?\ny")).toMatchObject({
      because: "VALUE_UNWRITABLE",
    });
  });

  it("comes back to the same bytes for every Markdown file", () => {
    for (const file of names.filter((name) => name.endsWith(".md"))) {
      const address = { file, path: ["body"] };
      const body = readField(shipped, address);
      expect(done(setField(shipped, address, String(body)))[file]).toBe(shipped[file]);
      const after = done(setField(shipped, address, "1. Something else."));
      expect(readField(after, address)).toBe("1. Something else.");
      if (body !== "") expect(done(setField(after, address, String(body)))[file]).toBe(shipped[file]);
    }
  });

  it("gets a section that is missing where it belongs", () => {
    const file = "conditions/dry-air.md";
    const text = (shipped[file] ?? "").replace(/## Will it live\?\n[^#]*/, "");
    const after = done(setField({ [file]: text }, { file, path: ["sections", "willItLive"] }, "It will."));
    expect(after[file]).toContain("## Will it live?\nIt will.\n\n## Does it spread?");
  });

  it("keeps the line ends of another system", () => {
    const file = "questions/mark-look.md";
    const windows = { [file]: (shipped[file] ?? "").replaceAll("\n", "\r\n") };
    const after = done(setField(windows, { file, path: ["body"] }, "a\nb"));
    const keyed = done(setField(after, { file, path: ["ask_when", "none"] }, ["x"]));
    expect(keyed[file]?.replaceAll("\r\n", "")).not.toContain("\n");
    expect(keyed[file]).toContain("a\r\nb");
  });
});
