import { beforeAll, describe, expect, test } from "vitest";
import widget from "../../worker/generated/embed.json";
import { bundled, openFreshApp } from "./fresh-app.ts";

/*
 * How long an answer may be kept: RFC 9111 (max-age, must-revalidate) and RFC 8246 (immutable). Who may load it: Fetch
 * (Access-Control-Allow-Origin) and its Cross-Origin-Resource-Policy. What may frame it: RFC 7034 and CSP 3.
 */
const YEAR = 31_536_000;

const { ask } = openFreshApp();
const parcels = `/embed/editions/${bundled.number}-${bundled.hash}`;
const pinned = [
  ...Object.keys(widget.files).map((path) => `/embed/${path}`),
  `${parcels}/first.json`,
  `${parcels}/prose.json`,
];
const moving = ["/embed/leafturn.js", "/embed/live.json"];
const wrong = [
  "/embed/0000000000000000/leafturn.js",
  `/embed/${widget.first.replace("leafturn.js", "other.js")}`,
  `/embed/editions/${bundled.number}-0000000000000000/first.json`,
  "/embed/editions/999999-0000000000000000/prose.json",
  "/embed/editions/one-two/first.json",
  "/embed/nothing",
];

function directives(response: Response): Map<string, string> {
  const parts = (response.headers.get("cache-control") ?? "").split(/\s*,\s*/).map((part) => part.split("="));
  return new Map(parts.map(([name = "", value = ""]) => [name, value]));
}

beforeAll(async () => {
  // Keeps the list of files honest: an empty one would pass every test.
  expect(pinned.length).toBeGreaterThanOrEqual(5);
});

describe.each(pinned)("the versioned file %s", (path) => {
  test("may be kept for a year without asking again", async () => {
    const response = await ask(path);
    expect(response.status).toBe(200);
    const cache = directives(response);
    expect(cache.has("public") && cache.has("immutable")).toBe(true);
    expect(Number(cache.get("max-age"))).toBe(YEAR);
    expect((await response.text()).length).toBeGreaterThan(0);
  });
});

describe.each(moving)("the moving file %s", (path) => {
  test("is looked at again soon, and by its tag", async () => {
    const response = await ask(path);
    expect(response.status).toBe(200);
    const cache = directives(response);
    const everyTime = cache.has("no-cache");
    expect(everyTime || Number(cache.get("max-age")) <= 300).toBe(true);
    expect(everyTime || cache.has("must-revalidate")).toBe(true);
    expect(cache.has("immutable")).toBe(false);
    const tag = response.headers.get("etag") ?? "";
    expect(tag).toMatch(/^(W\/)?"[^"]+"$/);
    const again = await ask(path, { headers: { "if-none-match": tag } });
    expect(again.status).toBe(304);
    expect(await again.text()).toBe("");
    expect(again.headers.get("access-control-allow-origin")).toBe("*");
    expect((await ask(path, { headers: { "if-none-match": '"another"' } })).status).toBe(200);
  });
});

describe.each([...pinned, ...moving])("%s", (path) => {
  test("can be loaded from any page, script or data, and framing is none of its business", async () => {
    const { headers } = await ask(path, { headers: { origin: "https://another-shop.example" } });
    expect(headers.get("access-control-allow-origin")).toBe("*");
    expect(headers.get("cross-origin-resource-policy")).toBe("cross-origin");
    expect(headers.get("x-content-type-options")).toBe("nosniff");
    expect(headers.get("content-type")).toMatch(path.endsWith(".js") ? /^text\/javascript\b/ : /json\b/);
    expect(headers.get("x-frame-options")).toBeNull();
    expect(headers.get("content-security-policy") ?? "").not.toContain("frame-ancestors");
    expect(headers.get("set-cookie")).toBeNull();
  });

  test("answers HEAD as it answers GET, without the body", async () => {
    const [get, head] = [await ask(path), await ask(path, { method: "HEAD" })];
    expect(head.status).toBe(200);
    expect(await head.text()).toBe("");
    for (const name of ["cache-control", "content-type", "etag", "access-control-allow-origin"]) {
      expect(head.headers.get(name), name).toBe(get.headers.get(name));
    }
  });

  test("takes no other method", async () => {
    const response = await ask(path, { method: "POST", body: "x" });
    expect(response.status).toBe(405);
    expect(response.headers.get("allow")).toBe("GET, HEAD");
  });
});

describe.each(wrong)("the wrong address %s", (path) => {
  test("is 404 in words, is not kept, and can be read by the page that asked", async () => {
    const response = await ask(path);
    expect(response.status).toBe(404);
    expect(response.headers.get("content-type")).toMatch(/^text\/plain\b/);
    expect(await response.text()).toMatch(/^There is no such file here\. .*\/embed\/leafturn\.js/);
    expect(directives(response).has("no-store")).toBe(true);
    expect(response.headers.get("access-control-allow-origin")).toBe("*");
  });
});

test("the moving script is the newest versioned one, byte for byte", async () => {
  const [now, versioned] = await Promise.all(
    ["/embed/leafturn.js", `/embed/${widget.first}`].map(async (path) => (await ask(path)).text()),
  );
  expect(now).toBe(versioned);
});

test("each file's integrity is that of its bytes (W3C SRI, sha384)", async () => {
  for (const [path, { integrity }] of Object.entries(widget.files)) {
    const bytes = await (await ask(`/embed/${path}`)).arrayBuffer();
    const digest = new Uint8Array(await crypto.subtle.digest("SHA-384", bytes));
    expect(integrity, path).toBe(`sha384-${btoa(String.fromCharCode(...digest))}`);
  }
});
