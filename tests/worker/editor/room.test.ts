import { describe, expect, test } from "vitest";
import { openFreshApp } from "../fresh-app.ts";
import { beginDraft, enterRoom, fieldOf } from "./enter.ts";
import { bundled } from "./stage.ts";

/** Every address that changes something, with its method. */
const unsafe = [
  ["POST", "/editor/drafts"],
  ["POST", "/editor/import"],
  ["POST", "/editor/drafts/x/file"],
  ["PUT", "/editor/drafts/x/files/shop.yaml"],
  ["DELETE", "/editor/drafts/x/files/shop.yaml"],
  ["POST", "/editor/drafts/x/close"],
  ["POST", "/editor/drafts/x/open"],
  ["POST", "/editor/drafts/x/publish"],
  ["POST", "/editor/drafts/x/move"],
  ["POST", "/editor/drafts/x/entries"],
  ["POST", "/editor/drafts/x/entry"],
  ["POST", "/editor/drafts/x/retire"],
  ["POST", "/editor/drafts/x/previews"],
  ["POST", "/editor/drafts/x/previews/end"],
  ["POST", "/editor/drafts/x/cases"],
  ["POST", "/editor/drafts/x/cases/drop"],
  ["POST", "/editor/take-back"],
  ["POST", "/editor/sign-out"],
  ["POST", "/editor/passkeys/registration"],
  ["POST", "/editor/passkeys/registered"],
  ["POST", "/editor/passkeys/challenge"],
  ["POST", "/editor/passkeys/signed"],
] as const;

const pages = [
  "/editor",
  "/editor/history",
  "/editor/drafts/x",
  "/editor/drafts/x/files",
  "/editor/editions/1/folder.zip",
];

describe("the door", () => {
  test.each(unsafe)("%s %s is refused from another site, whatever the body", async (method, path) => {
    const { ask, cookie } = await enterRoom();
    for (const headers of [
      { "sec-fetch-site": "cross-site" },
      { "sec-fetch-site": "same-site" },
      { origin: "https://elsewhere.example" },
      { "content-type": "application/json", origin: "null" },
      {},
    ]) {
      const response = await ask(path, { method, headers: { cookie, ...headers }, body: "{}" });
      expect(response.status, JSON.stringify(headers)).toBe(403);
    }
  });

  test.each(unsafe.filter(([, path]) => !/passkeys|sign-out/.test(path)))(
    "%s %s is refused without a session",
    async (method, path) => {
      const { ask } = openFreshApp();
      const headers = { "sec-fetch-site": "same-origin" };
      expect((await ask(path, { method, headers, body: "x" })).status).toBe(403);
    },
  );

  test.each(pages)("%s shows the way in, keeps nothing in caches, and leads back", async (path) => {
    const { ask } = openFreshApp();
    const response = await ask(path);
    expect(response.status).toBe(403);
    expect(response.headers.get("cache-control")).toBe("no-store");
    expect(await response.text()).toContain(`data-next="${path}"`);
  });

  test("staff, and editors who only brought a key, stay outside", async () => {
    for (const room of [await enterRoom(["staff"]), await enterRoom(["editor"], "key")]) {
      expect((await room.get("/editor")).status).toBe(403);
    }
  });

  test("a session ends when idle, in the end, and by signing out", async () => {
    const idle = await enterRoom();
    idle.clock.now += 61 * 60_000;
    expect((await idle.get("/editor")).status).toBe(403);
    const busy = await enterRoom();
    for (let minutes = 0; minutes < 12 * 60; minutes += 30) {
      expect((await busy.get("/editor/history")).status).toBe(200);
      busy.clock.now += 30 * 60_000;
    }
    expect((await busy.get("/editor/history")).status).toBe(403);
    const gone = await enterRoom();
    await gone.post("/editor/sign-out");
    expect((await gone.get("/editor")).status).toBe(403);
  });
});

describe("drafts", () => {
  test("begin with a title, and are listed", async () => {
    const room = await enterRoom();
    const draft = await beginDraft(room, "Fungus <gnats>");
    const list = await room.read("/editor");
    expect(list).toContain("Fungus &lt;gnats&gt;");
    expect(list).toContain(`href="${draft}"`);
    const bad = await room.post("/editor/drafts", { title: " \u0000 " });
    expect(bad.status).toBe(422);
    expect(await room.read(`${draft}/files?q=weights`)).toContain("1 of ");
  });

  test("tell what differs, field by field", async () => {
    const room = await enterRoom();
    const draft = await beginDraft(room);
    await saveShop(room, draft, "The Fern House");
    expect(await room.read(draft)).toContain("The Fern House");
    expect((await room.get("/editor/drafts/unknown")).status).toBe(404);
  });
});

type Room = Awaited<ReturnType<typeof enterRoom>>;

async function saveShop(room: Room, draft: string, name: string): Promise<void> {
  const page = await room.read(`${draft}/file?path=shop.yaml`);
  const text = (bundled.files["shop.yaml"] ?? "").replace(/^name: .*$/m, `name: ${name}`);
  const saved = await room.post(`${draft}/file`, { path: "shop.yaml", tag: fieldOf(page, "tag"), text });
  expect(saved.status).toBe(303);
}

async function readyToPublish(
  room: Room,
  name: string,
): Promise<{ draft: string; form: Record<string, string> }> {
  const draft = await beginDraft(room, name);
  await saveShop(room, draft, name);
  const page = await room.read(`${draft}/publish`);
  const form = { token: fieldOf(page, "token"), note: `Now ${name}.`, unwalked: "Only a name.", walk: "" };
  return { draft, form };
}

/** A change that conversations depend on. */
async function makeRustCommon(room: Room, draft: string): Promise<void> {
  const path = "conditions/rust.md";
  const page = await room.read(`${draft}/file?path=${path}`);
  const text = (bundled.files[path] ?? "").replace("how_common: rare", "how_common: common");
  const saved = await room.post(`${draft}/file`, { path, tag: fieldOf(page, "tag"), text });
  expect(saved.status).toBe(303);
}

describe("publishing from the page", () => {
  test("shows the change, publishes once, and can be taken back", async () => {
    const room = await enterRoom();
    const { draft, form } = await readyToPublish(room, "Fern & Moss");
    const before = await (await room.ask("/api/edition")).text();
    expect((await room.post(`${draft}/publish`, form)).status).toBe(303);
    const after = await (await room.ask("/api/edition")).json<{ number: number; shop: { name: string } }>();
    expect(after.shop.name).toBe("Fern & Moss");
    // A second press does nothing more.
    expect((await room.post(`${draft}/publish`, form)).status).toBe(303);
    expect(await (await room.ask("/api/edition")).json()).toEqual(after);
    const history = await room.read("/editor/history");
    expect(history).toContain("Now Fern &amp; Moss.");
    const { number } = JSON.parse(before) as { number: number };
    const back = { to: String(number), seen: String(after.number), why: "A slip." };
    expect((await room.post("/editor/take-back", { ...back, why: "" })).status).toBe(422);
    expect((await room.post("/editor/take-back", { ...back, seen: "99" })).status).toBe(409);
    expect((await room.post("/editor/take-back", back)).status).toBe(303);
    expect(await (await room.ask("/api/edition")).text()).toBe(before);
  });

  test("an editor who is no publisher cannot", async () => {
    const room = await enterRoom(["editor"]);
    const { draft, form } = await readyToPublish(room, "Not mine");
    expect((await room.post(`${draft}/publish`, form)).status).toBe(403);
    expect((await room.post("/editor/take-back", { to: "1", seen: "2", why: "x" })).status).toBe(403);
  });

  test("where no conversation changes, neither walk nor reason is asked for, and the history says so", async () => {
    const room = await enterRoom();
    const { draft, form } = await readyToPublish(room, "Only a name");
    expect(await room.read(`${draft}/check`)).toContain("No conversation changes");
    const page = await room.read(`${draft}/publish`);
    expect(page).toContain("No conversation changes");
    expect(page).not.toContain('id="unwalked"');
    expect((await room.post(`${draft}/publish`, { ...form, unwalked: "" })).status).toBe(303);
    expect(await room.read("/editor/history")).toContain("No conversation changed.");
  });

  test.each([
    ["without a note", { note: " " }, 422],
    ["without a walk or a reason", { unwalked: "" }, 422],
    [
      "with a walk of other contents",
      { unwalked: "", walk: JSON.stringify({ hash: "x", conversations: 1, longest: 1, violations: 0 }) },
      422,
    ],
    ["with a walk that is none", { unwalked: "", walk: '{"hash":[]}' }, 422],
  ])("%s it is refused, and what was typed stays", async (_, change, status) => {
    const room = await enterRoom();
    const { draft, form } = await readyToPublish(room, "Refused");
    await makeRustCommon(room, draft);
    const response = await room.post(`${draft}/publish`, { ...form, ...change });
    expect(response.status).toBe(status);
    if (!("note" in change)) expect(await response.text()).toContain("Now Refused.");
  });

  test("with a walk of these very contents it needs no reason; with violations it is refused", async () => {
    const room = await enterRoom();
    const { draft, form } = await readyToPublish(room, "Walked");
    await makeRustCommon(room, draft);
    const [, hash = ""] = /data-hash="([0-9a-f]+)"/.exec(await room.read(`${draft}/publish`)) ?? [];
    const counts = { verdict: 7, plan: 0, questions: 2, longer: 1, shorter: 0 };
    const groups = ["7 conversations: <b>a → b"];
    const change = { ...counts, pairs: 50_000_000, longestBefore: 11, groups };
    const walk = (violations: number) =>
      JSON.stringify({ hash, conversations: 49_000_000, longest: 11, violations, change });
    const bad = await room.post(`${draft}/publish`, { ...form, unwalked: "", walk: walk(2) });
    expect(bad.status).toBe(422);
    const good = await room.post(`${draft}/publish`, { ...form, unwalked: "", walk: walk(0) });
    expect(good.status).toBe(303);
    const history = await room.read("/editor/history");
    expect(history).toContain("49,000,000 conversations");
    expect(history).toContain(
      "Of 50,000,000 conversations, 7 end in another verdict and 2 ask other questions",
    );
    expect(history).toContain("&lt;b&gt;a → b");
  });

  test("content with a problem is refused, and the problem is shown with its place", async () => {
    const room = await enterRoom();
    const { draft, form } = await readyToPublish(room, "Broken");
    const page = await room.read(`${draft}/file?path=shop.yaml`);
    await room.post(`${draft}/file`, { path: "shop.yaml", tag: fieldOf(page, "tag"), text: "name: [\n" });
    const response = await room.post(`${draft}/publish`, form);
    expect(response.status).toBe(422);
    expect(await response.text()).toContain("YAML_SYNTAX");
  });

  test("a draft of an older edition is refused with the way on", async () => {
    const room = await enterRoom();
    const [one, other] = [await readyToPublish(room, "One"), await readyToPublish(room, "Other")];
    await room.post(`${one.draft}/publish`, one.form);
    const response = await room.post(`${other.draft}/publish`, other.form);
    expect(response.status).toBe(409);
    expect(await response.text()).toContain(`href="${other.draft}/move"`);
    // Both changed the shop: both texts are shown, and the one that is chosen goes on.
    const page = await room.read(`${other.draft}/move`);
    expect(page).toContain("name: One");
    expect(page).toContain("name: Other");
    expect((await room.post(`${other.draft}/move`, { "choice shop.yaml": "mine" })).status).toBe(303);
    expect(await room.read(other.draft)).toContain("from One to Other");
    const ready = { ...other.form, token: fieldOf(await room.read(`${other.draft}/publish`), "token") };
    expect((await room.post(`${other.draft}/publish`, ready)).status).toBe(303);
  });

  test("a draft that takes the live edition's text changes nothing there any more", async () => {
    const room = await enterRoom();
    const [one, other] = [await readyToPublish(room, "First"), await readyToPublish(room, "Second")];
    await room.post(`${one.draft}/publish`, one.form);
    expect((await room.post(`${other.draft}/move`, { "choice shop.yaml": "theirs" })).status).toBe(303);
    expect(await room.read(other.draft)).toContain("Nothing yet.");
    expect((await room.get("/editor/drafts/unknown/move")).status).toBe(404);
  });
});

describe("folders in and out", () => {
  test("what goes out comes in again without a change", async () => {
    const room = await enterRoom();
    await beginDraft(room);
    const live = await (await room.ask("/api/edition")).json<{ number: number }>();
    const zip = await room.get(`/editor/editions/${live.number}/folder.zip`);
    expect(zip.headers.get("content-type")).toBe("application/zip");
    const body = new FormData();
    body.set("title", "From outside");
    body.set("zip", new File([await zip.arrayBuffer()], "content.zip"));
    const taken = await room.send("/editor/import", { method: "POST", body });
    expect(taken.status).toBe(303);
    expect(await room.read(taken.headers.get("location") ?? "")).toContain("Nothing yet.");
  });

  test("what is no zip is refused with a sentence", async () => {
    const room = await enterRoom();
    const body = new FormData();
    body.set("title", "Junk");
    body.set("zip", new File(["no zip"], "x.zip"));
    expect((await room.send("/editor/import", { method: "POST", body })).status).toBe(422);
    body.delete("zip");
    expect((await room.send("/editor/import", { method: "POST", body })).status).toBe(422);
  });
});

describe("what the checker reads", () => {
  test("is the base's files and what the draft changes; together they are the draft", async () => {
    const room = await enterRoom();
    const draft = await beginDraft(room);
    await saveShop(room, draft, "The Checked Fern");
    const { base, changes } = await (await room.get(`${draft}/changes.json`)).json<{
      base: number;
      changes: Record<string, string | null>;
    }>();
    expect(Object.keys(changes)).toEqual(["shop.yaml"]);
    const files = await room.get(`/editor/editions/${base}/files.json`);
    expect(files.headers.get("cache-control")).toMatch(/^private/);
    expect(await files.json()).toMatchObject({ "weights.yaml": bundled.files["weights.yaml"] });
    expect((await room.ask(`/editor/editions/${base}/files.json`)).status).toBe(403);
    expect((await room.get("/editor/drafts/unknown/changes.json")).status).toBe(404);
  });

  test("and its conversations open as the draft makes them, behind the sign-in", async () => {
    const room = await enterRoom();
    const draft = await beginDraft(room, "Rust first");
    await makeRustCommon(room, draft);
    const link = `${draft}/look/check?e=1&what-you-see=marks&host=not-sure`;
    const page = await room.read(link);
    expect(page).toContain("a draft, not live");
    expect(page).toContain("Which of these is closest to the marks?");
    expect((await room.ask(link)).status).toBe(403);
    expect((await room.get(`${draft}/look/slip`)).status).toBe(404);
  });

  test("a problem leads to the very field of the form", async () => {
    const room = await enterRoom();
    const draft = await beginDraft(room);
    const path = "conditions/rust.md";
    const page = await room.read(`${draft}/file?path=${path}`);
    const text = (bundled.files[path] ?? "").replace("plan: [isolate,", "plan: [isolat,");
    await room.post(`${draft}/file`, { path, tag: fieldOf(page, "tag"), text });
    const check = await room.read(`${draft}/check`);
    expect(check).toContain("REMEDY_UNKNOWN");
    const [, href = ""] = /href="([^"]*entry\?kind=condition[^"]*#f-plan)"/.exec(check) ?? [];
    expect(await room.read(href.replaceAll("&amp;", "&").replace(/#.*/, ""))).toContain('id="f-plan"');
  });
});
