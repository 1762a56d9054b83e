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
      { kind: "product", id: "bags" },
      { kind: "drawing", id: "stippling" },
      { kind: "shop", id: "shop" },
      { kind: "shop", id: "north-yard" },
      { kind: "wording", id: "conversation" },
      { kind: "wording", id: "hand-over" },
      { kind: "wording", id: "trade-words" },
      { kind: "lexicon", id: "findings.white-stuff-untested" },
      { kind: "lexicon", id: "words.leaf" },
      { kind: "lexicon", id: "hosts.0" },
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
    const changes = await room.read(draft);
    expect(changes).toContain("One change in one place");
    expect(changes).toMatch(/<del>Most plants live.*<ins>Yes, \*\*mostly\*\*/s);
    expect(changes).toContain(`href="${draft}/entry?kind=condition&amp;id=spider-mites"`);
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

describe("shop, drawings, wordings and how people say it", () => {
  const edit = async (which: Record<string, string>, changes: Record<string, string>, file: string) => {
    const room = await enterRoom();
    const draft = await beginDraft(room);
    const { send } = await openForm(room, draft, which);
    expect((await send(changes)).status).toBe(303);
    const now = (await textOf(room, draft, file)).split("\n");
    const before = (bundled.files[file as keyof typeof bundled.files] ?? "").split("\n");
    return {
      added: now.filter((line) => !before.includes(line)),
      lost: before.filter((line) => !now.includes(line)),
    };
  };

  test.each([
    [{ kind: "shop", id: "north-yard" }, { hours: "Tuesday to Friday 10 to 5" }, "shop.yaml", 1, 1],
    [{ kind: "shop", id: "shop" }, { time_zone: "America/Chicago" }, "shop.yaml", 1, 1],
    [{ kind: "shop", id: "shop" }, { "shelves.bags": "aisle 9" }, "shop.yaml", 1, 0],
    [{ kind: "drawing", id: "holes" }, { shows: "Holes in the blade." }, "drawings.yaml", 1, 1],
    [{ kind: "wording", id: "hand-over" }, { "hand_over.subject": "Your check" }, "shop.yaml", 1, 1],
    [{ kind: "wording", id: "trade-words" }, { words: "alcohol\nsystemic" }, "trade-words.yaml", 0, 60],
    [
      { kind: "lexicon", id: "words.root" },
      { words: "root\nrootball\nroot_ball\nrootlet" },
      "lexicon.yaml",
      1,
      1,
    ],
    [
      { kind: "lexicon", id: "findings.white-cottony-tufts" },
      { when_denied: "no tuft" },
      "lexicon.yaml",
      1,
      0,
    ],
  ])("%o: %o touches no other line", async (which, changes, file, most, lost) => {
    const { added, lost: gone } = await edit(which, changes, file);
    expect(added.length, added.join("\n")).toBe(most);
    expect(gone.length).toBeLessThanOrEqual(lost);
  });

  test("a branch is opened and taken out; the shop as a whole is not", async () => {
    const room = await enterRoom();
    const draft = await beginDraft(room);
    const add = (id: string) => room.post(`${draft}/entries`, { kind: "shop", "new-id": id });
    expect((await add("shop")).status).toBe(422);
    expect((await add("south-gate")).status).toBe(303);
    expect(await textOf(room, draft, "shop.yaml")).toContain("south-gate");
    expect((await room.post(`${draft}/retire`, { kind: "shop", id: "shop", why: "x" })).status).toBe(409);
    expect((await room.post(`${draft}/retire`, { kind: "shop", id: "south-gate", why: "x" })).status).toBe(
      303,
    );
    expect(await textOf(room, draft, "shop.yaml")).toBe(bundled.files["shop.yaml"]);
  });

  test("every kind is listed, and what is listed opens", async () => {
    const room = await enterRoom();
    const draft = await beginDraft(room);
    for (const kind of ["drawing", "lexicon", "wording", "shop", "product"]) {
      const list = await room.read(`${draft}/entries?kind=${kind}`);
      const hrefs = [...list.matchAll(/href="([^"]*entry\?kind=[^"]*)"/g)].map(([, href = ""]) => href);
      expect(hrefs.length, kind).toBeGreaterThan(1);
      for (const href of [hrefs[0], hrefs.at(-1)])
        expect((await room.get((href ?? "").replaceAll("&amp;", "&"))).status, href).toBe(200);
    }
  });
});

describe("fields saved while they are typed", () => {
  const put = (room: Room, draft: string, body: unknown) =>
    room.send(`${draft}/entry`, {
      method: "PUT",
      headers: { "content-type": "application/json" },
      body: typeof body === "string" ? body : JSON.stringify(body),
    });

  test("are saved one by one, and the answer tells all as they stand", async () => {
    const [ada, ben] = [await enterRoom(), await enterRoom()];
    const draft = await beginDraft(ada);
    const was = { name: "Spider mites", how_common: "common" };
    expect((await put(ada, draft, { ...condition, was, now: { name: "Mites" } })).status).toBe(200);
    const answer = await put(ben, draft, { ...condition, was, now: { how_common: "rare" } });
    expect(answer.status).toBe(200);
    expect(await answer.json()).toMatchObject({ clashes: [], texts: { name: "Mites", how_common: "rare" } });
  });

  test("of a field that someone else changed come back with 412 and both versions; the others are saved", async () => {
    const [ada, ben] = [await enterRoom(), await enterRoom()];
    const draft = await beginDraft(ada);
    const was = { name: "Spider mites", spreads: "yes-fast", "evidence.fine-webbing": "hallmark" };
    await put(ada, draft, {
      ...condition,
      was,
      now: { name: "By Ada", "evidence.fine-webbing": "supports" },
    });
    const now = { name: "By Ben", spreads: "no", "evidence.fine-webbing": "against" };
    const answer = await put(ben, draft, { ...condition, was, now });
    expect(answer.status).toBe(412);
    const { clashes } = (await answer.json()) as { clashes: unknown[] };
    expect(clashes).toMatchObject([
      { name: "name", mine: "By Ben", theirs: "By Ada" },
      { name: "evidence.fine-webbing", mine: "against", theirs: "supports" },
    ]);
    const text = await textOf(ada, draft);
    expect(text).toContain("name: By Ada");
    expect(text).toContain("spreads: no");
  });

  test.each([
    ["{", 400],
    [{ ...condition, now: { name: "x" } }, 428],
    [{ kind: "nonsense", id: "x", was: {}, now: {} }, 400],
    [{ kind: "condition", id: "../shop", was: {}, now: {} }, 404],
    [{ kind: "lexicon", id: "__proto__", was: {}, now: { words: "x" } }, 404],
    [{ kind: "shop", id: "none", was: {}, now: {} }, 404],
  ])("%o gives %i", async (body, status) => {
    const room = await enterRoom();
    const draft = await beginDraft(room);
    const answer = await put(room, draft, body);
    expect(answer.status).toBe(status);
    expect(((await answer.json()) as { sentence: string }).sentence).not.toBe("");
  });

  test("of a closed draft are refused", async () => {
    const room = await enterRoom();
    const draft = await beginDraft(room);
    await room.post(`${draft}/close`, { why: "" });
    const was = { name: "Spider mites" };
    expect((await put(room, draft, { ...condition, was, now: { name: "x" } })).status).toBe(409);
  });
});

test("what is typed is shown as it reads, and nothing is saved", async () => {
  const room = await enterRoom();
  const draft = await beginDraft(room);
  const { send } = await openForm(room, draft, { kind: "question", id: "mark-look" });
  const shown = await send({ show: "yes", prompt: "Which mark is it?", body: "1. Hold it **up**." });
  expect(shown.status).toBe(200);
  const page = await shown.text();
  expect(page).toContain("It is not saved yet.");
  expect(page).toContain("<strong>up</strong>");
  expect(page).toContain('<span class="lt-prompt">Which mark is it?</span>');
  expect(page).toContain('name="prompt" value="Which mark is it?"');
  expect(await textOf(room, draft, "questions/mark-look.md")).toBe(bundled.files["questions/mark-look.md"]);
});
