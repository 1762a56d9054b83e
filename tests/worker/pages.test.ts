import { describe, expect, test } from "vitest";
import { openFreshApp } from "./fresh-app.ts";

const { ask } = openFreshApp();

async function read(path: string, status = 200): Promise<string> {
  const response = await ask(path);
  expect(response.status, path).toBe(status);
  return response.text();
}

async function goesTo(path: string): Promise<string> {
  const response = await ask(path);
  expect(response.status, path).toBe(303);
  return response.headers.get("location") ?? "";
}

describe("the conversation", () => {
  test("starts with the opening, and every question ends with not sure", async () => {
    const page = await read("/check");
    const values = [...page.matchAll(/type="radio"[^>]* value="([^"]*)"/g)].map(([, value]) => value);
    expect(values.length).toBeGreaterThan(10);
    expect(values.at(-1)).toBe("not-sure");
    expect(page).toContain("<details");
  });

  test("carries the earlier answers as hidden fields", async () => {
    const page = await read("/check?e=1&what-you-see=white&host=basil");
    expect(page).toContain('<input type="hidden" name="what-you-see" value="white"/>');
    expect(page).toContain('<input type="hidden" name="host" value="basil"/>');
  });

  test("reopens one answer in its place and shows no other question", async () => {
    const page = await read("/check?e=1&what-you-see=white&host=basil&change=what-you-see");
    expect(page.match(/<fieldset/g)).toHaveLength(1);
    expect(page).toContain('value="white" checked=""');
    expect(page).toContain("Keep my answer");
  });

  test("keeps later answers that still apply, and names those it sets aside", async () => {
    const before = "/check?e=1&what-you-see=white&host=basil&white-look=film";
    const kept = await goesTo(`${before}&change=host&to=pothos`);
    expect(kept).toBe("/check?e=1&what-you-see=white&host=pothos&white-look=film#lt-now");
    const dropped = await goesTo(`${before}&change=what-you-see&to=flies`);
    expect(dropped).toBe("/check?e=1&what-you-see=flies&host=basil&dropped=white-look#lt-now");
    expect(await read(dropped)).toContain("We set these answers aside, because they no longer fit");
  });

  test("asks again when a changed answer is none of the answers", async () => {
    expect(await read("/check?e=1&what-you-see=white&change=what-you-see&to=bogus")).toContain(
      "not one of the answers",
    );
    expect(await read("/check?e=1&what-you-see=white&host=basil&change=host&to=")).toContain(
      "Name of the plant",
    );
  });

  test("a finding told unasked can be changed and taken back", async () => {
    const told = "/check?e=1&fine-webbing=yes&host=basil";
    expect(await read(`${told}&change=fine-webbing`)).toContain("Have you seen this");
    expect(await goesTo(`${told}&change=fine-webbing&to=no`)).toContain("fine-webbing=no&host=basil");
    expect(await goesTo(`${told}&change=fine-webbing&to=not-sure`)).toBe("/check?e=1&host=basil#lt-now");
  });
});

describe("the plant's name", () => {
  const start = "/check?e=1&what-you-see=white";

  test("goes straight on when it is exact", async () => {
    expect(await goesTo(`${start}&plant=Basil`)).toBe("/check?e=1&what-you-see=white&host=basil#lt-now");
  });

  test("offers near names when it is misspelt", async () => {
    const page = await read(`${start}&plant=bazil`);
    expect(page).toContain("Which plant do you mean by “bazil”?");
    expect(page).toMatch(/type="radio" name="host" value="basil"/);
    expect(page).toContain("Go on without the name");
  });

  test("that is unknown is said, and the way on stays open", async () => {
    const page = await read(`${start}&plant=qqqqzzzz`);
    expect(page).toContain("We do not know a plant called “qqqqzzzz”");
    expect(page).toContain("Go on without the name");
  });

  test("written into a link by hand is looked for in the same way", async () => {
    expect(await read(`${start}&host=qqqqzzzz`)).toContain("We do not know a plant called “qqqqzzzz”");
    expect(await read(`${start}&host=`)).toContain("Name of the plant");
  });

  test("is shown as text, whatever it holds", async () => {
    const page = await read(`${start}&plant=${encodeURIComponent('"><script>alert(1)</script>')}`);
    expect(page).not.toContain("<script");
  });

  test("can be changed by typing", async () => {
    expect(await goesTo(`${start}&host=basil&change=host&plant=pothos`)).toContain("host=pothos");
    expect(await read(`${start}&host=basil&change=host&plant=qqqqzzzz`)).toContain("Keep my answer");
  });
});

describe("a link with faults", () => {
  test("names a finding that was denied though a sharper one was seen, with both sides", async () => {
    const page = await read("/check?e=1&what-you-see=marks&fine-webbing=yes&insects-or-webs=no");
    expect(page).toMatch(/You told us “[^”]*fine [^”]*” and also “[^”]*no [^”]*”\. Both cannot be\./);
    expect(page).not.toContain("Not all of this link could be read.");
    expect(page).toContain("insects-or-webs=no");
    expect(page).toContain("fine-webbing=yes");
  });

  test("keeps its valid part and names the rest", async () => {
    const page = await read(
      "/check?e=1&what-you-see=white&bogus=1&host=basil&white-look=zzz&what-you-see=flies",
    );
    expect(page).toContain("Not all of this link could be read.");
    for (const part of ["bogus", "white-look=zzz", "what-you-see=flies"]) expect(page).toContain(`“${part}”`);
    expect(page).toContain("Something white");
    expect(page).toContain("Basil");
  });

  test.each([
    "?e=abc",
    "?%E0%A4%A",
    "?=&&=",
    "?change=bogus",
    "?change=host&to=x",
    "?dropped=bogus",
    "?plant=",
    "?__proto__=1",
  ])("never fails: %s", async (query) => {
    await read(`/check${query}`);
  });

  test("is refused when it is far too long", async () => {
    expect(await read(`/check?what-you-see=${"x".repeat(4200)}`, 414)).toContain("This link is too long");
  });
});

describe("a case code", () => {
  test("leads to the case it was made from, however it is typed", async () => {
    const { code } = await (await ask("/api/case?e=1&what-you-see=white&host=basil")).json<{
      code: string;
    }>();
    const link = "/check?e=1&what-you-see=white&host=basil&look=code#lt-now";
    expect(await goesTo(`/c/${encodeURIComponent(code)}`)).toBe(link);
    expect(await goesTo(`/c?code=${encodeURIComponent(` ${code.toLowerCase()} `)}`)).toBe(link);
  });

  test("with a slip gets a page with a clear sentence", async () => {
    expect(await read("/c/AAAA1", 404)).toContain("We could not open this code");
    expect(await read(`/c/${"A".repeat(300)}`, 404)).toContain("We could not open this code");
    expect(await read("/c?code=")).toContain("Type the code");
    await read("/c/%E0%A4%A", 404);
  });
});

describe("every answer", () => {
  test.each(["/", "/check", "/c", "/nothing-here", "/check?e=1&what-you-see=not-sure&host=not-sure"])(
    "%s runs under a strict policy",
    async (path) => {
      const response = await ask(path);
      const page = await response.text();
      expect(response.headers.get("content-security-policy")).toContain("default-src 'none'");
      expect(response.headers.get("x-content-type-options")).toBe("nosniff");
      expect(response.headers.get("set-cookie")).toBeNull();
      expect(page).not.toMatch(/<script|<style|\sstyle=|\son[a-z]+=/);
      expect(page.startsWith("<!doctype html>")).toBe(true);
    },
  );

  test("HEAD gives the head alone, other methods are refused", async () => {
    const head = await ask("/check", { method: "HEAD" });
    expect([head.status, await head.text()]).toEqual([200, ""]);
    const posted = await ask("/check", { method: "POST", body: "x" });
    expect([posted.status, posted.headers.get("allow")]).toEqual([405, "GET, HEAD"]);
  });

  test("unknown addresses have a page of their own", async () => {
    expect(await read("/nothing-here", 404)).toContain("This page does not exist");
  });

  test("style sheets are revalidated by tag", async () => {
    const first = await ask("/assets/leafturn.css");
    expect(first.headers.get("content-type")).toContain("text/css");
    const again = await ask("/assets/leafturn.css", {
      headers: { "if-none-match": first.headers.get("etag") ?? "" },
    });
    expect(again.status).toBe(304);
  });

  test("the server says that it is well", async () => {
    expect(await read("/healthz")).toBe("ok");
  });
});
