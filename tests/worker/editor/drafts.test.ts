import { env } from "cloudflare:test";
import { describe, expect, test } from "vitest";
import {
  closeDraft,
  LONGEST_TEXT,
  listDraftPaths,
  makeDraft,
  readDraftFile,
  readTitle,
  readWholeDraft,
  saveDraftFile,
} from "../../../worker/editor/drafts.ts";
import { listHistory } from "../../../worker/editor/history.ts";
import { findSplice, undoSplice } from "../../../worker/editor/splice.ts";
import { ada, ben, bundled, makeId, openDraft, seeFile, write } from "./stage.ts";

const path = "findings.yaml";
const shipped = bundled.files[path] ?? "";

describe("a draft", () => {
  test("begins as its base, to the byte", async () => {
    const whole = await readWholeDraft(env.DB, await openDraft());
    expect(whole?.files).toEqual(bundled.files);
    expect(whole?.base).toEqual(bundled.files);
  });

  test("holds what was saved, and the base goes on as it was", async () => {
    const draft = await openDraft();
    const file = await write(draft, path, `${shipped}# more\n`);
    expect(file).toMatchObject({ version: 1, savedBy: ada.name });
    const whole = await readWholeDraft(env.DB, draft);
    expect(whole?.files).toEqual({ ...bundled.files, [path]: `${shipped}# more\n` });
    expect(whole?.base).toEqual(bundled.files);
    expect(whole?.draft.revision).toBe(1);
    expect(await seeFile(draft, path)).toMatchObject({ version: 1, baseText: shipped });
  });

  test("takes new files, and files out", async () => {
    const draft = await openDraft();
    await write(draft, "questions/new.md", "---\n");
    await write(draft, path, null);
    const whole = await readWholeDraft(env.DB, draft);
    expect(whole?.files["questions/new.md"]).toBe("---\n");
    expect(Object.hasOwn(whole?.files ?? {}, path)).toBe(false);
    const changed = (await listDraftPaths(env.DB, draft)).filter(({ isChanged }) => isChanged);
    expect(changed).toEqual([
      { path, isChanged: true, isOut: true },
      { path: "questions/new.md", isChanged: true, isOut: false },
    ]);
  });

  test("may begin with changes, as an import does", async () => {
    await openDraft();
    const id = makeId();
    const changes = { [path]: "x", "shop.yaml": null };
    await makeDraft(env.DB, {
      ...{ id, title: "In", base: 1, changes, who: ada, now: 5, why: "from a zip" },
    });
    const whole = await readWholeDraft(env.DB, id);
    expect(whole?.files[path]).toBe("x");
    expect(whole?.files["shop.yaml"]).toBeUndefined();
  });

  test("titles are one line with something in it", () => {
    expect(readTitle("  Spring \n pests ")).toBe("Spring pests");
    expect(readTitle(" ")).toBeNull();
    expect(readTitle("a\u0000")).toBeNull();
    expect(readTitle("x".repeat(121))).toBeNull();
  });
});

describe("a save", () => {
  test("that did not see the latest one is refused, with the latest", async () => {
    const draft = await openDraft();
    const seen = await seeFile(draft, path);
    await write(draft, path, "first");
    const save = { draft, seen, text: "second", token: makeId(), who: ben, now: 9 };
    const refused = await saveDraftFile(env.DB, save);
    expect(refused).toMatchObject({ ok: false, because: "changed", current: { text: "first", version: 1 } });
    expect((await seeFile(draft, path)).text).toBe("first");
  });

  test("of another file is no conflict", async () => {
    const draft = await openDraft();
    const [a, b] = [await seeFile(draft, path), await seeFile(draft, "shop.yaml")];
    const one = { draft, token: makeId(), who: ada, now: 9 };
    expect((await saveDraftFile(env.DB, { ...one, seen: a, text: "a" })).ok).toBe(true);
    expect((await saveDraftFile(env.DB, { ...one, token: makeId(), seen: b, text: "b" })).ok).toBe(true);
  });

  test("into a closed draft, an unknown draft, or of a text beyond all measure is refused", async () => {
    const draft = await openDraft();
    const seen = await seeFile(draft, path);
    const save = { draft, seen, text: "x", token: makeId(), who: ada, now: 9 };
    const long = await saveDraftFile(env.DB, { ...save, text: "x".repeat(LONGEST_TEXT + 1) });
    expect(long).toEqual({ ok: false, because: "too-long" });
    expect(await saveDraftFile(env.DB, { ...save, draft: "none" })).toEqual({ ok: false, because: "gone" });
    const closing = { id: draft, isOpen: false, who: ada, now: 10, why: "done" };
    expect(await closeDraft(env.DB, closing)).toBe(true);
    expect(await closeDraft(env.DB, closing)).toBe(false);
    expect(await saveDraftFile(env.DB, save)).toEqual({ ok: false, because: "closed" });
    expect(await closeDraft(env.DB, { ...closing, isOpen: true })).toBe(true);
    expect((await saveDraftFile(env.DB, save)).ok).toBe(true);
    const deeds = (await listHistory(env.DB)).filter(({ subject }) => subject === draft);
    expect(deeds.map(({ what }) => what)).toEqual(["draft-opened", "draft-closed", "draft-made"]);
  });

  test("as long as a text may be fits into its rows, in any script", async () => {
    const draft = await openDraft();
    const text = "語".repeat(LONGEST_TEXT);
    await write(draft, path, text);
    await write(draft, path, "字".repeat(LONGEST_TEXT));
    expect((await seeFile(draft, path)).text?.length).toBe(LONGEST_TEXT);
  });

  test("can be undone from what was written down, back to the base", async () => {
    const draft = await openDraft();
    const texts = ["é😀b", "é😁b", "", shipped, null, "again"];
    for (const text of texts) await write(draft, path, text);
    const { results } = await env.DB.prepare(
      `SELECT start, removed, added, was FROM saves WHERE draft = ?1 ORDER BY version DESC`,
    )
      .bind(draft)
      .all<{ start: number; removed: string; added: string; was: number }>();
    let text = (await readDraftFile(env.DB, draft, path))?.text ?? "";
    const back = results.map((row) => {
      text = undoSplice(text, row);
      return row.was === 1 ? text : null;
    });
    expect(back).toEqual([null, shipped, "", "é😁b", "é😀b", shipped]);
  });

  test("is stored as Unicode: half a pair of surrogates becomes the replacement character", async () => {
    const draft = await openDraft();
    await write(draft, path, "a\ud83d");
    expect((await seeFile(draft, path)).text).toBe("a\ufffd");
  });
});

test("records cannot be changed or deleted", async () => {
  const draft = await openDraft();
  await write(draft, path, "x");
  for (const statement of [
    "UPDATE history SET why = 'other'",
    "DELETE FROM history",
    "UPDATE saves SET added = 'other'",
    "DELETE FROM saves",
    "UPDATE texts SET text = 'other'",
  ]) {
    await expect(env.DB.prepare(statement).run(), statement).rejects.toThrow(/never/);
  }
});

test("a splice is the smallest, and keeps surrogates whole", () => {
  expect(findSplice("abcdef", "abXef")).toEqual({ start: 2, removed: "cd", added: "X" });
  expect(findSplice("aaa", "aaaa")).toEqual({ start: 3, removed: "", added: "a" });
  expect(findSplice("😀", "😁")).toEqual({ start: 0, removed: "😀", added: "😁" });
  expect(findSplice("", "")).toEqual({ start: 0, removed: "", added: "" });
});
