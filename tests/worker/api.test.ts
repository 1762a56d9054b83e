import { describe, expect, test } from "vitest";
import { bundled, openFreshApp, post } from "./fresh-app.ts";

const { ask } = openFreshApp();

interface CaseAnswer {
  case: { answers: { to: string; is: string }[] };
  link: string;
  code: string;
  next: { id: string; options: { id: string }[] } | null;
  verdict: { standing: string } | null;
  plan: { steps: object[] } | null;
}

async function askCase(path: string, init?: RequestInit): Promise<CaseAnswer> {
  const response = await ask(path, init);
  expect(response.status).toBe(200);
  return response.json<CaseAnswer>();
}

describe("a case", () => {
  test("starts with the opening question", async () => {
    const answer = await askCase("/api/case");
    expect(answer).toMatchObject({ next: { id: bundled.conversation.opening }, verdict: null, plan: null });
  });

  test("walks to a verdict and a plan, and comes back from its link and from its code", async () => {
    let answer = await askCase("/api/case");
    for (let i = 0; answer.next !== null && i < 20; i++) {
      const is = answer.next.options.at(0)?.id ?? "not-sure";
      answer = await askCase(
        "/api/case",
        post({ answers: [...answer.case.answers, { to: answer.next.id, is }] }),
      );
    }
    expect(answer.verdict).not.toBeNull();
    expect(answer.plan?.steps.length).toBeGreaterThan(0);
    expect(await askCase("/api/case", post({ link: `https://shop.example${answer.link}` }))).toEqual(answer);
    expect(await askCase("/api/case", post({ code: ` ${answer.code.toLowerCase()} ` }))).toEqual(answer);
    expect(await askCase(answer.link.replace("/check", "/api/case"))).toEqual(answer);
  });

  test("under an edition that is gone is read under the live one, saying so", async () => {
    expect(await askCase("/api/case?e=55&host=basil")).toMatchObject({
      askedEdition: { asked: 55, code: "UNKNOWN_EDITION" },
    });
  });
});

describe("the edition", () => {
  test("carries its hash as a tag and is not sent twice", async () => {
    const first = await ask("/api/edition");
    const tag = first.headers.get("etag") ?? "";
    expect(tag).toContain(bundled.hash);
    expect(first.headers.get("cache-control")).toBe("no-cache");
    for (const known of [tag, tag.replace("W/", ""), `"other", ${tag}`, "*"]) {
      const again = await ask("/api/edition", { headers: { "if-none-match": known } });
      expect([again.status, await again.text()], known).toEqual([304, ""]);
    }
  });

  test.each(["gzip", "br, gzip;q=0.5", "deflate, GZIP , br"])(
    "is packed for who takes %s",
    async (accepted) => {
      const packed = await ask("/api/edition", { headers: { "accept-encoding": accepted } });
      expect(packed.headers.get("content-encoding")).toBe("gzip");
      expect(packed.headers.get("vary")).toBe("Accept-Encoding");
      const unpacked = packed.body?.pipeThrough(new DecompressionStream("gzip")) ?? null;
      expect(await new Response(unpacked).json()).toEqual(bundled);
    },
  );

  test.each(["", "br", "gzip;q=0", "xgzip, gzipx"])(
    "is sent as it is to who takes “%s”",
    async (accepted) => {
      const plain = await ask("/api/edition", { headers: { "accept-encoding": accepted } });
      expect(plain.headers.get("content-encoding")).toBeNull();
      expect(await plain.json()).toEqual(bundled);
    },
  );
});

describe("a problem", () => {
  const json = { "content-type": "application/json" };
  const oversized = JSON.stringify({ code: "A".repeat(20_000) });
  const cases: [name: string, path: string, init: RequestInit | undefined, status: number, type: string][] = [
    ["an unknown question", "/api/case?bogus=1", undefined, 422, "case-not-readable"],
    ["an unknown answer", "/api/case?what-you-see=bogus", undefined, 422, "case-not-readable"],
    ["an unknown plant", "/api/case?host=qqqqzzzz", undefined, 422, "case-not-readable"],
    [
      "a contradiction",
      "/api/case?what-you-see=white&what-you-see=flies",
      undefined,
      422,
      "case-not-readable",
    ],
    [
      "a finding denied though a sharper one was seen",
      "/api/case?fine-webbing=yes&insects-or-webs=no",
      undefined,
      422,
      "case-not-readable",
    ],
    ["a prototype's name", "/api/case?__proto__=x&constructor=y", undefined, 422, "case-not-readable"],
    ["a broken escape", "/api/case?%E0%A4%A=%ZZ", undefined, 422, "case-not-readable"],
    ["a long query", `/api/case?what-you-see=${"x".repeat(4100)}`, undefined, 414, "query-too-long"],
    ["a long link in the body", "/api/case", post({ link: "x".repeat(5000) }), 414, "query-too-long"],
    ["malformed JSON", "/api/case", { method: "POST", headers: json, body: "{" }, 400, "malformed-json"],
    ["an empty body", "/api/case", { method: "POST", headers: json, body: "" }, 400, "malformed-json"],
    [
      "bytes that are no text",
      "/api/case",
      { method: "POST", headers: json, body: new Uint8Array([0xff, 0xfe, 0]) },
      400,
      "malformed-json",
    ],
    ["another type of body", "/api/case", { method: "POST", body: "{}" }, 415, "not-json"],
    ["a body that is no object", "/api/case", post([1]), 422, "unexpected-body"],
    ["two ways at once", "/api/case", post({ code: "1", link: "2" }), 422, "unexpected-body"],
    [
      "answers of another shape",
      "/api/case",
      post({ answers: [{ to: 1, is: null }] }),
      422,
      "unexpected-body",
    ],
    [
      "half a character",
      "/api/case",
      post({ answers: [{ to: "\ud800", is: "yes" }] }),
      422,
      "case-not-readable",
    ],
    [
      "an oversized body",
      "/api/case",
      { method: "POST", headers: json, body: oversized },
      413,
      "body-too-large",
    ],
    ["a code with a slip", "/api/case", post({ code: "AAAA1" }), 422, "code-not-readable"],
    ["a code that is none", "/api/case", post({ code: "!!" }), 422, "code-not-readable"],
    ["an edition that is gone", "/api/editions/999999", undefined, 404, "unknown-edition"],
    ["an absurd edition", `/api/editions/${"9".repeat(40)}`, undefined, 404, "unknown-edition"],
    ["an edition without a number", "/api/editions/x", undefined, 404, "unknown-edition"],
    ["an unknown address", "/api/nothing", undefined, 404, "not-found"],
    ["another method", "/api/case", { method: "DELETE" }, 405, "method-not-allowed"],
    ["writing to the edition", "/api/edition", { method: "PUT" }, 405, "method-not-allowed"],
  ];

  test.each(cases)("is told for %s", async (_name, path, init, status, type) => {
    const response = await ask(path, init);
    expect(response.status).toBe(status);
    expect(response.headers.get("content-type")).toBe("application/problem+json");
    const problem = await response.json<{ title: string; detail: string }>();
    expect(problem).toMatchObject({ type: `urn:leafturn:problem:${type}`, status });
    expect(problem.title.length * problem.detail.length).toBeGreaterThan(0);
  });

  test("names the parts that could not be read", async () => {
    const response = await ask("/api/case?host=basil&bogus=1&what-you-see=zzz");
    const { problems } = await response.json<{ problems: { code: string; part: string }[] }>();
    expect(problems.map(({ code }) => code)).toEqual(["UNKNOWN_QUESTION", "UNKNOWN_ANSWER"]);
  });

  test("a body whose length is not announced is cut off too", async () => {
    const chunk = new TextEncoder().encode(" ".repeat(8 * 1024));
    const body = new ReadableStream({
      start(controller) {
        for (let i = 0; i < 4; i++) controller.enqueue(chunk);
        controller.close();
      },
    });
    expect((await ask("/api/case", { method: "POST", headers: json, body })).status).toBe(413);
  });
});
