import { env } from "cloudflare:test";
import { describe, expect, test } from "vitest";
import { keepCase } from "../../../worker/editor/kept-cases.ts";
import { beginDraft, enterRoom } from "./enter.ts";
import { makeId } from "./stage.ts";

type Room = Awaited<ReturnType<typeof enterRoom>>;

const link = "what-you-see=marks&host=basil&mark-look=stipple&tap-test=dots";
const stepsIn = (page: string) => [...page.matchAll(/class="ed-badge-text"[^>]*>(\d+)</g)].length;
const cardsIn = (page: string) => [...page.matchAll(/<a href="[^"]*" class="ed-card/g)].length;

async function put(room: Room, draft: string, path: string, edit: (text: string) => string): Promise<void> {
  const before = await room.get(`${draft}/files/${path}`);
  const response = await room.send(`${draft}/files/${path}`, {
    method: "PUT",
    headers: { "if-match": before.headers.get("etag") ?? "" },
    body: edit(await before.text()),
  });
  if (!response.ok) throw new Error(await response.text());
}

describe("the tree in view", () => {
  test("of the live edition is drawn and told; its questions lead to the words below", async () => {
    const room = await enterRoom();
    await room.get("/editor");
    const page = await room.read("/editor/tree");
    expect(cardsIn(page)).toBe(42);
    expect(page).toContain('href="#q-mark-look"');
    expect(page).toContain("Every question can come up, and no answer is a dead end.");
    expect(page).not.toContain("style=");
  });

  test("of a draft opens the form of the question that is pressed", async () => {
    const room = await enterRoom();
    const draft = await beginDraft(room);
    const page = await room.read(`${draft}/tree`);
    expect(page).toContain(`href="${draft}/entry?kind=question&amp;id=mark-look"`);
    expect(cardsIn(await room.read(`${draft}/tree?from=flies`))).toBeLessThan(15);
    expect(await room.read(`${draft}/tree?zoom=100`)).toMatch(/<svg[^>]* width="\d+(?:\.\d+)?rem"/);
  });

  test("lights up the path of a link, a code and a kept case", async () => {
    const room = await enterRoom();
    const draft = await beginDraft(room);
    const show = (query: Record<string, string>) => room.read(`${draft}/tree?${new URLSearchParams(query)}`);
    expect(stepsIn(await show({ case: `https://shop.example/check?e=1&${link}` }))).toBe(5);
    const { code } = (await (await room.get(`/api/case?${link}`)).json()) as { code: string };
    expect(stepsIn(await show({ case: code }))).toBe(5);
    expect(stepsIn(await show({ case: `https://shop.example/c/${code}` }))).toBe(5);
    const id = makeId();
    const kept = { id, query: link, standing: "suspected", leader: "spider-mites", reason: "Mites" } as const;
    await keepCase(env.DB, kept, room.person, 0);
    const page = await show({ kept: id });
    expect(stepsIn(page)).toBe(5);
    expect(page).toContain("The path that is lit up");
  });

  test("says of what it cannot read that it cannot, and draws the rest", async () => {
    const room = await enterRoom();
    const draft = await beginDraft(room);
    for (const pasted of ["nonsense", "a=b", "%", "<script>"]) {
      const page = await room.read(`${draft}/tree?${new URLSearchParams({ case: pasted })}`);
      expect(page, pasted).toContain("This is no link or code of a case that we can read.");
      expect(cardsIn(page)).toBe(42);
    }
  });

  test("marks what is never asked in words and line, and is drawn of a draft with problems", async () => {
    const room = await enterRoom();
    const draft = await beginDraft(room);
    await put(room, draft, "conversation.yaml", (text) => text.replace("  - worms\n", ""));
    const page = await room.read(`${draft}/tree`);
    expect(page).toContain("✕ never asked");
    expect(page).toContain("it has no place in the order of questions");
    expect(page).toContain('class="ed-halo"');
    await put(room, draft, "questions/air.md", () => "---\nid: [\n---\n");
    expect(await room.read(`${draft}/tree`)).toContain("questions/air.md");
    const lit = await room.read(`${draft}/tree?${new URLSearchParams({ case: link })}`);
    expect(lit).toContain("no case can be played in it yet");
  });

  test("is for those who are signed in, and of drafts that exist", async () => {
    const room = await enterRoom();
    expect((await room.get("/editor/drafts/none/tree")).status).toBe(404);
    const stranger = await room.ask("/editor/tree", { redirect: "manual" });
    expect(stranger.status).not.toBe(200);
  });
});
