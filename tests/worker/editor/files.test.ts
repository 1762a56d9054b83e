import { beforeAll, describe, expect, test } from "vitest";
import { judgeConditions } from "../../../worker/editor/conditional.ts";
import { LONGEST_TEXT } from "../../../worker/editor/drafts.ts";
import { beginDraft, enterRoom, fieldOf } from "./enter.ts";
import { bundled } from "./stage.ts";

type Room = Awaited<ReturnType<typeof enterRoom>>;
let room: Room;
let draft: string;
beforeAll(async () => {
  room = await enterRoom();
  draft = await beginDraft(room);
});

const shop = bundled.files["shop.yaml"] ?? "";
const put = (path: string, body: string, headers: Record<string, string>) =>
  room.send(`${draft}/files/${path}`, { method: "PUT", body, headers });

describe("If-Match and If-None-Match, by RFC 9110, sections 13.1 and 13.2", () => {
  test.each([
    ["the tag", '"save-1"', undefined, "go"],
    ["the tag among others", '"x", "save-1"', undefined, "go"],
    ["another tag", '"save-2"', undefined, 412],
    ["a weak tag, which never matches strongly", 'W/"save-1"', undefined, 412],
    ["any", "*", undefined, "go"],
    ["a tag without quotes, which is none", "save-1", undefined, 412],
    ["a comma inside a tag", '"save-1,x"', undefined, 412],
    ["nothing", undefined, undefined, 428],
    ["none of any, though there is one", undefined, "*", 412],
    ["none of the tag", undefined, '"save-1"', 412],
    ["none of the tag, compared weakly", undefined, 'W/"save-1"', 412],
    ["none of another", undefined, '"save-9"', "go"],
    ["both, the second false", '"save-1"', "*", 412],
  ] as const)("%s", (_, ifMatch, ifNoneMatch, expected) => {
    expect(judgeConditions('"save-1"', { ifMatch, ifNoneMatch })).toBe(expected);
  });

  test("without a representation, * of If-Match is false and * of If-None-Match is true", () => {
    expect(judgeConditions(null, { ifMatch: "*", ifNoneMatch: undefined })).toBe(412);
    expect(judgeConditions(null, { ifMatch: undefined, ifNoneMatch: "*" })).toBe("go");
  });
});

describe("a file as a resource", () => {
  test("is read with a strong tag, and not sent twice", async () => {
    const response = await room.get(`${draft}/files/shop.yaml`);
    expect(await response.text()).toBe(shop);
    const tag = response.headers.get("etag") ?? "";
    expect(tag).toMatch(/^"[^"]+"$/);
    const again = await room.get(`${draft}/files/shop.yaml`, { "if-none-match": `W/${tag}` });
    expect([again.status, await again.text()]).toEqual([304, ""]);
  });

  test("is saved by who saw it; who did not gets both versions to keep", async () => {
    const path = "weights.yaml";
    const seen = (await room.get(`${draft}/files/${path}`)).headers.get("etag") ?? "";
    const first = await put(path, "one\n", { "if-match": seen });
    expect(first.status).toBe(204);
    const second = await put(path, "two\n", { "if-match": seen });
    expect(second.status).toBe(412);
    const { current } = await second.json<{ current: { text: string; tag: string; savedBy: string } }>();
    expect(current).toMatchObject({ text: "one\n", savedBy: room.person.name });
    expect(current.tag).toBe(first.headers.get("etag"));
    expect((await put(path, "two\n", { "if-match": current.tag })).status).toBe(204);
    expect(await (await room.get(`${draft}/files/${path}`)).text()).toBe("two\n");
  });

  test("is not saved without a condition, nor beyond its limits, nor where no file can be", async () => {
    expect((await put("shop.yaml", "x", {})).status).toBe(428);
    expect((await put("shop.yaml", "x".repeat(LONGEST_TEXT + 1), { "if-match": "*" })).status).toBe(413);
    expect((await put("shop.yaml", "x".repeat(3_000_001), { "if-match": "*" })).status).toBe(413);
    for (const path of ["Shop.yaml", "shop.exe", "a/b/c/d.md", "..%2fshop.yaml", `${"x".repeat(130)}.md`]) {
      expect((await put(path, "x", { "if-none-match": "*" })).status, path).toBe(404);
    }
    expect((await room.get(`${draft}/files/shop.yaml`)).status).toBe(200);
    expect(await (await room.get(`${draft}/files/shop.yaml`)).text()).toBe(shop);
  });

  test("begins with If-None-Match: *, and is taken out and begun again", async () => {
    const path = "questions/leaf-smell.md";
    expect((await put(path, "a", { "if-match": "*" })).status).toBe(412);
    expect((await put(path, "a", { "if-none-match": "*" })).status).toBe(201);
    expect((await put(path, "b", { "if-none-match": "*" })).status).toBe(412);
    const out = await room.send(`${draft}/files/${path}`, { method: "DELETE", headers: { "if-match": "*" } });
    expect(out.status).toBe(204);
    expect((await room.get(`${draft}/files/${path}`)).status).toBe(404);
    expect((await put(path, "c", { "if-none-match": "*" })).status).toBe(201);
  });
});

describe("the file editor without a script", () => {
  const page = () => `${draft}/file?path=findings.yaml`;

  test("shows the text to the byte and saves it", async () => {
    const text = await room.read(page());
    const [, shown = ""] = /<textarea[^>]*>\n([\s\S]*?)<\/textarea>/.exec(text) ?? [];
    expect(readText(shown)).toBe(bundled.files["findings.yaml"]);
    const tag = fieldOf(text, "tag");
    const saved = await room.post(`${draft}/file`, { path: "findings.yaml", tag, text: "new: 1\r\n" });
    expect(saved.status).toBe(303);
    expect(await (await room.get(`${draft}/files/findings.yaml`)).text()).toBe("new: 1\n");
  });

  test("shows both texts when someone else saved meanwhile, and saves over it with open eyes", async () => {
    const tag = fieldOf(await room.read(page()), "tag");
    await room.post(`${draft}/file`, { path: "findings.yaml", tag, text: "theirs <b>" });
    const refused = await room.post(`${draft}/file`, {
      path: "findings.yaml",
      tag,
      text: "mine </textarea>",
    });
    expect(refused.status).toBe(412);
    const both = await refused.text();
    expect(both).toContain("mine &lt;/textarea&gt;");
    expect(both).toContain("theirs &lt;b&gt;");
    const over = { path: "findings.yaml", tag: fieldOf(both, "tag"), text: "mine" };
    expect((await room.post(`${draft}/file`, over)).status).toBe(303);
  });

  test("what is too long comes back and is not saved", async () => {
    const tag = fieldOf(await room.read(page()), "tag");
    const text = "y".repeat(LONGEST_TEXT + 1);
    const refused = await room.post(`${draft}/file`, { path: "findings.yaml", tag, text });
    expect(refused.status).toBe(413);
    expect(await refused.text()).toContain(text);
  });

  test("in a closed draft nothing is saved, and what was typed comes back", async () => {
    const closed = await beginDraft(room, "To close");
    const tag = fieldOf(await room.read(`${closed}/file?path=shop.yaml`), "tag");
    await room.post(`${closed}/close`, { why: "Enough." });
    const refused = await room.post(`${closed}/file`, { path: "shop.yaml", tag, text: "typed" });
    expect(refused.status).toBe(409);
    expect(await refused.text()).toContain("typed");
  });

  test.each(["/file?path=", "/file?path=../x.md", "/file", "/files/none.md"])("%s is a 404", async (part) => {
    expect((await room.get(draft + part)).status).toBe(404);
  });
});

function readText(text: string): string {
  return text
    .replaceAll("&lt;", "<")
    .replaceAll("&gt;", ">")
    .replaceAll("&quot;", '"')
    .replaceAll("&#39;", "'")
    .replaceAll("&amp;", "&");
}
