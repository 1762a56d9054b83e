import { describe, expect, test } from "vitest";
import { beginDraft, enterRoom, fieldOf } from "./enter.ts";
import { bundled } from "./stage.ts";

type Room = Awaited<ReturnType<typeof enterRoom>>;

async function save(room: Room, draft: string, path: string, text: string): Promise<void> {
  const page = await room.read(`${draft}/file?path=${path}`);
  await room.post(`${draft}/file`, { path, tag: fieldOf(page, "tag"), text });
}

async function openPreview(room: Room, draft: string): Promise<string> {
  const page = await (await room.post(`${draft}/previews`)).text();
  const [, path = ""] = /(\/preview\/[0-9a-f]{40}\/check)/.exec(page) ?? [];
  return path;
}

const named = (name: string) => (bundled.files["shop.yaml"] ?? "").replace(/^name: .*$/m, `name: ${name}`);

describe("a preview", () => {
  test("shows the real check of the draft to whoever has the address, and says that it is not live", async () => {
    const room = await enterRoom();
    const draft = await beginDraft(room);
    await save(room, draft, "shop.yaml", named("Preview House"));
    const path = await openPreview(room, draft);
    const response = await room.ask(path);
    const page = await response.text();
    expect(response.status).toBe(200);
    expect(response.headers.get("x-robots-tag")).toBe("noindex, nofollow");
    expect(response.headers.get("cache-control")).toBe("no-store");
    expect(response.headers.get("referrer-policy")).toBe("no-referrer");
    expect(page).toContain("Preview House");
    expect(page).toContain("A draft, not live.");
    expect(await (await room.ask("/check")).text()).not.toContain("Preview House");
    // Every link and form of it stays inside, to the verdict.
    const asked = await (await room.ask(`${path}?what-you-see=marks&host=basil`)).text();
    expect(asked).toContain(`action="${path}#lt-now"`);
    expect(asked).not.toMatch(/action="\/check/);
    const verdict = await (await room.ask(`${path}?what-you-see=not-sure&host=not-sure`)).text();
    expect(verdict).toContain("A draft, not live.");
    const changed = await room.ask(`${path}?what-you-see=marks&host=basil&change=what-you-see&to=white`, {
      redirect: "manual",
    });
    expect(changed.headers.get("location")).toMatch(new RegExp(`^${path}\\?`));
  });

  test("follows the draft, and says so when the draft cannot be shown", async () => {
    const room = await enterRoom();
    const draft = await beginDraft(room);
    const path = await openPreview(room, draft);
    expect((await room.ask(path)).status).toBe(200);
    await save(room, draft, "shop.yaml", named("Later House"));
    expect(await (await room.ask(path)).text()).toContain("Later House");
    await save(room, draft, "shop.yaml", "name: [");
    expect((await room.ask(path)).status).toBe(409);
  });

  test("ends after its days, or when it is ended", async () => {
    const room = await enterRoom();
    const draft = await beginDraft(room);
    const [one, other] = [await openPreview(room, draft), await openPreview(room, draft)];
    const [, id = ""] = /name="id" value="([0-9a-f]+)"/.exec(await room.read(`${draft}/check`)) ?? [];
    await room.post(`${draft}/previews/end`, { id });
    expect((await room.ask(one)).status).toBe(404);
    expect((await room.ask(other)).status).toBe(200);
    room.clock.now += 7 * 86_400_000;
    expect((await room.ask(other)).status).toBe(404);
  });

  test.each(["/preview/x/check", `/preview/${"0".repeat(40)}/check`, `/preview/${"0".repeat(40)}/slip`])(
    "%s is nothing",
    async (path) => {
      const { ask } = await enterRoom();
      expect((await ask(path)).status).toBe(404);
    },
  );
});

describe("kept cases", () => {
  const end = "what-you-see=marks&host=basil&mark-look=stipple&tap-test=dots";

  /** Says "not sure" to whatever is asked further. */
  async function finish(room: Room): Promise<string> {
    let query = end;
    for (let turn = 0; turn < 20; turn++) {
      const { next } = await (await room.ask(`/api/case?${query}`)).json<{ next: { id: string } | null }>();
      if (next === null) return query;
      query += `&${next.id}=not-sure`;
    }
    throw new Error("no end");
  }

  test("are told when they break, and publishing then needs a reason", async () => {
    const room = await enterRoom();
    const draft = await beginDraft(room);
    const link = `https://shop.example/check?${await finish(room)}`;
    const kept = await room.post(`${draft}/cases`, { link, reason: "Round dots crawl: <mites>." });
    expect(kept.status).toBe(303);
    const check = await room.read(`${draft}/check`);
    expect(check).toContain("Round dots crawl: &lt;mites&gt;.");
    expect(check).toContain("Should end suspected: spider-mites.");
    expect(check).not.toContain("breaks</span>");
    const weights = (bundled.files["weights.yaml"] ?? "").replace(/suspected: \d+/, "suspected: 900");
    await save(room, draft, "weights.yaml", weights);
    expect(await room.read(`${draft}/check`)).toContain("breaks</span>");
    const page = await room.read(`${draft}/publish`);
    const form = { token: fieldOf(page, "token"), note: "n", unwalked: "u" };
    expect((await room.post(`${draft}/publish`, form)).status).toBe(422);
    expect((await room.post(`${draft}/publish`, { ...form, unkept: "On purpose." })).status).toBe(303);
    expect(await room.read("/editor/history")).toContain("Why: On purpose.");
    const [, id = ""] = /id="why-([0-9a-f]+)"/.exec(await room.read(`${draft}/check`)) ?? [];
    expect((await room.post(`${draft}/cases/drop`, { id, why: "" })).status).toBe(422);
    expect((await room.post(`${draft}/cases/drop`, { id, why: "Not needed." })).status).toBe(303);
    expect(await room.read(`${draft}/check`)).not.toContain("Round dots crawl");
    expect(await room.read("/editor/history")).toContain("Not needed.");
  });

  test.each([
    ["no reason", { link: `?${end}`, reason: " " }],
    ["no end", { link: "?what-you-see=marks", reason: "Because." }],
    ["no link", { link: "", reason: "Because." }],
  ])("with %s are refused, and what was typed stays", async (_, fields) => {
    const room = await enterRoom();
    const draft = await beginDraft(room);
    expect((await room.post(`${draft}/cases`, fields)).status).toBe(422);
  });
});
