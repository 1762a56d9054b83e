import { describe, expect, it } from "vitest";
import { readContent } from "../../../flows/content/read-content.ts";
import { listChanges } from "../../../flows/editing/difference.ts";
import type { Edit } from "../../../flows/editing/edit.ts";
import {
  addEntry,
  listReferences,
  locateEntry,
  moveEvidence,
  retireEntry,
} from "../../../flows/editing/entries.ts";
import { moveItem, setField, setText } from "../../../flows/editing/field.ts";
import { loadFiles, shippedContent } from "../content/content-files.ts";

const shipped = loadFiles(shippedContent);

function done(edit: Edit): Record<string, string> {
  if (!edit.ok) throw new Error(`${edit.because}: ${edit.sentence}`);
  return edit.files;
}

const sentences = (after: Record<string, string>) =>
  listChanges(shipped, after).map(({ sentence }) => sentence);

describe("what differs is told in the trade's words", () => {
  it("nothing", () => {
    expect(listChanges(shipped, shipped)).toEqual([]);
    expect(listChanges(shipped, { ...shipped })).toEqual([]);
  });

  it("evidence that moves from one word to another", () => {
    const after = done(moveEvidence(shipped, "spider-mites", "pale-stippling", "hallmark"));
    expect(listChanges(shipped, after)).toMatchObject([
      {
        file: "conditions/spider-mites.md",
        kind: "moved",
        path: ["evidence", "hallmark", "pale-stippling"],
        before: "supports",
        after: "hallmark",
        entry: { kind: "condition", id: "spider-mites", name: "Spider mites" },
        sentence: expect.stringMatching(/^Spider mites: .+ moved from what supports it to the hallmarks\.$/),
      },
    ]);
    expect(
      done(moveEvidence(after, "spider-mites", "pale-stippling", null))["conditions/spider-mites.md"],
    ).not.toContain("pale-stippling");
  });

  it("a word, a text, a wording of an answer, an order, a number, a comment", () => {
    expect(
      sentences(done(setField(shipped, { file: "conditions/rust.md", path: ["how_common"] }, "common"))),
    ).toEqual(["Rust: how common it is changed from rare to common."]);
    expect(
      sentences(
        done(setField(shipped, { file: "conditions/rust.md", path: ["sections", "willItLive"] }, "Yes.")),
      ),
    ).toEqual(["Rust: the text “Will it live?” changed."]);
    const label = { file: "questions/mark-look.md", path: ["options", "rust", "label"] };
    expect(sentences(done(setField(shipped, label, "Rusty dust")))).toEqual([
      "“Which of these is closest to the marks?”: the answers, rust, the label changed from “Rusty powder that smudges a finger” to “Rusty dust”.",
    ]);
    expect(sentences(done(moveItem(shipped, { file: "conversation.yaml", path: ["order"] }, 3, 4)))).toEqual([
      "The conversation: the order of questions changed.",
    ]);
    expect(
      sentences(done(setField(shipped, { file: "weights.yaml", path: ["lead", "suspected"] }, 9))),
    ).toEqual(["The weights: the leads, suspected changed from 8 to 9."]);
    expect(sentences(setText(shipped, "shop.yaml", `# hello\n${shipped["shop.yaml"]}`))).toEqual([
      "The shop: only comments or layout changed.",
    ]);
    expect(
      sentences(done(setField(shipped, { file: "hosts.yaml", path: ["basil", "eaten"] }, "sometimes"))),
    ).toEqual(["Basil: what holds where the plant is eaten changed from always to sometimes."]);
  });

  it("entries that come and go", () => {
    const after = done(addEntry(shipped, "remedy", "new-step", { name: "A new step" }));
    expect(sentences(after)).toEqual(["A new step: new."]);
    const source = done(addEntry(shipped, "source", "z9", { tier: "A", publisher: "P", title: "T" }));
    expect(sentences(source)).toEqual(["Z9: new."]);
  });
});

describe("entries", () => {
  it("are added to list files without touching a byte before", () => {
    for (const [kind, id, file] of [
      ["finding", "new-finding", "findings.yaml"],
      ["host", "new-plant", "hosts.yaml"],
      ["source", "z99", "sources.yaml"],
      ["product", "new-product", "products.yaml"],
    ] as const) {
      const after = done(addEntry(shipped, kind, id, { name: "A: new one, here" }));
      expect(after[file]?.startsWith(shipped[file] ?? "?")).toBe(true);
      expect(locateEntry(after, kind, id)).toEqual({ file, path: [id] });
    }
  });

  it("that are new and whole read without a problem", () => {
    const withQuestion = done(
      addEntry(shipped, "question", "new-question", {
        prompt: "Is it new?",
        why: "It tells.",
        ask_when: { any: ["marks-on-leaves"] },
        options: [{ id: "yes", label: "Yes, it is", present: ["rusty-powder"] }],
      }),
    );
    expect(readContent(withQuestion).problems).toEqual([]);
    expect(withQuestion["conversation.yaml"]).toContain("  - others\n  - new-question\n# At most");
  });

  it("that are new and empty are told at their fields", () => {
    const codes = (files: Record<string, string>) => readContent(files).problems.map(({ code }) => code);
    expect(codes(done(addEntry(shipped, "condition", "new-trouble")))).toEqual(
      expect.arrayContaining(["VALUE_BAD", "TEXT_EMPTY"]),
    );
    expect(codes(done(addEntry(shipped, "remedy", "new-step")))).toEqual(
      expect.arrayContaining(["VALUE_BAD", "TEXT_EMPTY"]),
    );
  });

  it("need an id that is free and well made", () => {
    expect(addEntry(shipped, "question", "Bad Id")).toMatchObject({ because: "ID_BAD" });
    expect(addEntry(shipped, "question", "mark-look")).toMatchObject({ because: "ID_TAKEN" });
  });
});

describe("retiring", () => {
  it("takes the entry and every mention out, and keeps the id from being used again", () => {
    expect(listReferences(shipped, "remedy", "soap-spray").length).toBeGreaterThan(3);
    const after = done(retireEntry(shipped, "remedy", "soap-spray", "Oil does the same."));
    expect(after["remedies/soap-spray.md"]).toBeUndefined();
    expect(listReferences(after, "remedy", "soap-spray")).toEqual([]);
    expect(after["retired.yaml"]).toBe("- { id: soap-spray, kind: remedy, why: Oil does the same. }\n");
    expect(readContent(after).problems).toEqual([]);
    expect(addEntry(after, "remedy", "soap-spray")).toMatchObject({ because: "ID_RETIRED" });
    const back = { ...after, "remedies/soap-spray.md": shipped["remedies/soap-spray.md"] ?? "" };
    expect(readContent(back).problems.map(({ code }) => code)).toEqual(["ID_RETIRED"]);
    const twice = done(retireEntry(after, "remedy", "oil-spray", "Too: many, really"));
    expect(twice["retired.yaml"]?.split("\n")).toHaveLength(3);
  });

  it("works for a condition with look-alikes and a life cycle, a plant, a finding and a question", () => {
    const condition = done(retireEntry(shipped, "condition", "spider-mites", "Split in two."));
    expect(readContent(condition).problems).toEqual([]);
    expect(condition["life-cycles.yaml"]).not.toContain("spider-mites");
    const host = done(retireEntry(shipped, "host", "basil", "Not sold any more."));
    expect(readContent(host).problems).toEqual([]);
    expect(host["hosts.yaml"]).not.toMatch(/^- id: basil$/m);
    const question = done(retireEntry(shipped, "question", "others", "Nobody knew."));
    expect(question["conversation.yaml"]).not.toContain("- others");
    const finding = done(retireEntry(shipped, "finding", "fine-webbing", "Merged."));
    expect(listReferences(finding, "finding", "fine-webbing")).toEqual([]);
    expect(finding["findings.yaml"]).toContain(
      "# --- signs: the culprit or its traces ---\n- { id: white-cottony-tufts",
    );
  });

  it("is refused for what cannot go without something else", () => {
    expect(retireEntry(shipped, "question", "what-you-see", "No.")).toMatchObject({ ok: false });
    expect(retireEntry(shipped, "remedy", "no-such", "No.")).toMatchObject({ because: "ENTRY_MISSING" });
    expect(retireEntry(shipped, "remedy", "soap-spray", " ")).toMatchObject({ ok: false });
  });
});
