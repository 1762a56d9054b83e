import { describe, expect, test } from "vitest";
import { beginDraft, enterRoom, fieldOf } from "./enter.ts";
import { bundled } from "./stage.ts";

type Room = Awaited<ReturnType<typeof enterRoom>>;
const path = "conditions/spider-mites.md";
const condition = { kind: "condition", id: "spider-mites" };

/** The form as the page shows it: what it was, and a way to send some fields changed. */
async function openForm(room: Room, draft: string, which: Record<string, string> = condition) {
  const page = await room.read(`${draft}/entry?${new URLSearchParams(which)}`);
  const was = fieldOf(page, "was");
  const texts = JSON.parse(was) as Record<string, string>;
  const send = (changes: Record<string, string>) =>
    room.post(`${draft}/entry`, { ...texts, ...changes, ...hidden(which), was });
  return { page, texts, send };
}

const hidden = ({ kind = "", id = "" }) => ({ "entry-kind": kind, "entry-id": id });

const textOf = async (room: Room, draft: string, file = path) =>
  (await room.get(`${draft}/files/${file}`)).text();

describe("a form", () => {
  test("that changes nothing saves nothing", async () => {
    const room = await enterRoom();
    const draft = await beginDraft(room);
    for (const which of [
      condition,
      { kind: "question", id: "mark-look" },
      { kind: "finding", id: "fine-webbing" },
      { kind: "remedy", id: "isolate" },
      { kind: "host", id: "basil" },
    ]) {
      expect((await (await openForm(room, draft, which)).send({})).status, which.id).toBe(303);
    }
    expect(await room.read(draft)).toContain("Nothing yet.");
  });

  test("moves a finding from one word to another, and touches nothing else", async () => {
    const room = await enterRoom();
    const draft = await beginDraft(room);
    const form = await openForm(room, draft);
    const [name = ""] = Object.entries(form.texts).find(([, word]) => word === "supports") ?? [];
    const finding = name.slice("evidence.".length);
    expect(form.page).toContain(`name="${name}" value="supports" checked`);
    expect((await form.send({ [name]: "against" })).status).toBe(303);
    const text = await textOf(room, draft);
    const lines = (all: string) => all.split("\n");
    const before = lines(bundled.files[path] ?? "");
    const changed = lines(text).filter((line) => !before.includes(line));
    expect(changed.length).toBeLessThanOrEqual(2);
    expect(changed.join()).toContain(finding);
    expect(await room.read(draft)).toContain("moved from");
  });

  test("of two editors who change different fields loses neither change", async () => {
    const [ada, ben] = [await enterRoom(), await enterRoom()];
    const draft = await beginDraft(ada);
    const [one, other] = [await openForm(ada, draft), await openForm(ben, draft)];
    expect((await one.send({ name: "spider mites of every kind" })).status).toBe(303);
    expect((await other.send({ how_common: "rare" })).status).toBe(303);
    const text = await textOf(ada, draft);
    expect(text).toContain("name: spider mites of every kind");
    expect(text).toContain("how_common: rare");
  });

  test("of two editors who change the same field shows both, and saves over it with open eyes", async () => {
    const [ada, ben] = [await enterRoom(), await enterRoom()];
    const draft = await beginDraft(ada);
    const [one, other] = [await openForm(ada, draft), await openForm(ben, draft)];
    await one.send({ name: "mites by Ada" });
    const clash = await other.send({ name: "mites by Ben", spreads: "no" });
    expect(clash.status).toBe(409);
    const page = await clash.text();
    expect(page).toContain("mites by Ada");
    expect(page).toContain("mites by Ben");
    expect(await textOf(ada, draft)).toContain("spreads: no");
    const texts = JSON.parse(fieldOf(page, "was")) as Record<string, string>;
    const again = { ...texts, ...hidden(condition), was: JSON.stringify(texts), name: "mites by Ben" };
    expect((await ben.post(`${draft}/entry`, again)).status).toBe(303);
    expect(await textOf(ada, draft)).toContain("name: mites by Ben");
  });

  test("edits prose in its section, shows it as a shopper reads it, and the sources beside", async () => {
    const room = await enterRoom();
    const draft = await beginDraft(room);
    const form = await openForm(room, draft);
    expect(form.page).toContain("Sources</h2>");
    await form.send({ "sections.willItLive": "Yes, **mostly** <b>.\n" });
    const page = await room.read(`${draft}/entry?kind=condition&id=spider-mites`);
    expect(page).toContain("<strong>mostly</strong>");
    expect(page).not.toContain("<b>");
    expect(page).toContain("ed-problem");
  });

  test("edits an answer of a question", async () => {
    const room = await enterRoom();
    const draft = await beginDraft(room);
    const form = await openForm(room, draft, { kind: "question", id: "mark-look" });
    expect((await form.send({ "options.stipple.label": "Fine dots, as if pricked" })).status).toBe(303);
    expect(await textOf(room, draft, "questions/mark-look.md")).toContain("Fine dots, as if pricked");
  });

  test.each([
    ["/entry?kind=condition&id=none", 404],
    ["/entry?kind=condition", 404],
    ["/entries?kind=nonsense", 200],
    ["/entries?kind=host&q=basil", 200],
  ])("%s gives %i", async (part, status) => {
    const room = await enterRoom();
    expect((await room.get((await beginDraft(room)) + part)).status).toBe(status);
  });

  test("without what it was is refused", async () => {
    const room = await enterRoom();
    const draft = await beginDraft(room);
    expect((await room.post(`${draft}/entry`, { ...hidden(condition), was: "[", name: "x" })).status).toBe(
      422,
    );
    expect(await textOf(room, draft)).toBe(bundled.files[path]);
  });
});

describe("entries", () => {
  test("are added with an id that fits, and only once", async () => {
    const room = await enterRoom();
    const draft = await beginDraft(room);
    const add = (id: string) => room.post(`${draft}/entries`, { kind: "finding", "new-id": id });
    expect((await add("leaf-smells")).status).toBe(303);
    expect((await add("leaf-smells")).status).toBe(422);
    expect((await add("Leaf Smells")).status).toBe(422);
  });

  test("are retired with everything that names them, and the id is not used again", async () => {
    const room = await enterRoom();
    const draft = await beginDraft(room);
    const finding = { kind: "finding", id: "dark-patches-after-cold" };
    expect((await room.post(`${draft}/retire`, { ...finding, why: "" })).status).toBe(409);
    expect((await room.post(`${draft}/retire`, { ...finding, why: "Told by another." })).status).toBe(303);
    expect(await textOf(room, draft)).not.toMatch(/\bdark-patches-after-cold\b/);
    const again = await room.post(`${draft}/entries`, {
      kind: "finding",
      "new-id": "dark-patches-after-cold",
    });
    expect(again.status).toBe(422);
  });
});
