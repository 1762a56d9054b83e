import { beforeEach, describe, expect, it } from "vitest";
import { writeCode } from "../../flows/case-code.ts";
import { readBase32 } from "../../flows/crockford.ts";
import { alternativesTo } from "../../flows/desk/mishearing.ts";
import { openFlow } from "../../flows/flow.ts";
import { caseOf } from "../support/cases.ts";
import { bundled, openFreshApp, publish, renumber } from "./fresh-app.ts";

const flow = openFlow(bundled);
const told = ["what-you-see=marks", "host=basil", "mark-look=stipple"];
const query = `e=1&${told.join("&")}`;
const code = writeCode(flow, caseOf(flow, ...told));
/** One character misread, as the table of mistaken characters has it. */
const misread = [...code].flatMap((symbol, at) =>
  alternativesTo(symbol).map((other) => code.slice(0, at) + other + code.slice(at + 1)),
)[0];

let app = openFreshApp();
beforeEach(() => {
  app = openFreshApp();
});
const read = async (path: string) => {
  const response = await app.ask(path);
  return { response, text: await response.text() };
};

describe("the desk without a script", () => {
  it("is one form with every open question, the best one with its sentence and reason", async () => {
    const { response, text } = await read(`/desk?${query}`);
    expect(response.status).toBe(200);
    expect(text).toContain("“Tap a leaf over white paper. What falls and moves?”");
    expect(text).toMatch(/The best now: it can tell Spider mites from Thrips/);
    for (const field of ["tap-test", "traces", "air", "roots-look"]) {
      expect(text, field).toMatch(new RegExp(`<input type="radio" name="${field}" value="not-sure"`));
    }
    expect(text).toMatch(/<form class="desk-form" method="get" action="\/desk">/);
    for (const pair of told) {
      const [name, value] = pair.split("=");
      expect(text).toContain(`<input type="hidden" name="${name}" value="${value}"/>`);
    }
  });

  it("takes several answers at once, and its address is the case", async () => {
    const { text } = await read(`/desk?${query}&tap-test=dots&traces=webs&plant=&household=pets`);
    expect(text).toContain("most likely");
    expect(text).toContain(
      `href="/check?${`${query}&tap-test=dots&traces=webs&household=pets`.replaceAll("&", "&amp;")}"`,
    );
  });

  it("finds the plant by its name, and goes to the address of that case", async () => {
    const { response } = await read("/desk?e=1&what-you-see=marks&plant=Basil");
    expect(response.status).toBe(303);
    expect(response.headers.get("location")).toBe("/desk?e=1&what-you-see=marks&host=basil");
    const vague = await read("/desk?e=1&plant=zzzz");
    expect(vague.response.status).toBe(200);
    expect(vague.text).toContain("We do not know a plant called “zzzz”");
  });

  it("says the verdict when nothing is left to ask, with the plan and its cautions", async () => {
    const rest =
      "&tap-test=dots&traces=webs&air=dry&others=no&household=pets&eaten=yes&flowering-or-outdoors=no";
    const { text } = await read(`/desk?${query}${rest}`);
    expect(text).toContain("This is most likely: Spider mites");
    expect(text).toContain("What to do");
    expect(text).toContain("You have pets.");
  });

  it("holds what hands the case over: link, code, spelling, message and QR code", async () => {
    const { text } = await read(`/desk?${query}`);
    expect(text).toContain(`value="https://shop.example/check?${query.replaceAll("&", "&amp;")}"`);
    expect(text).toMatch(/<path class="slip-qr-ink"/);
    expect(text).toMatch(/<strong>G<\/strong> Golf/);
    expect(text).toContain('href="mailto:?subject=');
    expect(text).toContain("https%3A%2F%2Fshop.example%2Fc%2F");
  });

  it("has the strict policy of the pages, and one script, of its own and pinned", async () => {
    const { response, text } = await read("/desk");
    const policy = response.headers.get("content-security-policy") ?? "";
    expect(policy).toContain("script-src 'self'");
    expect(policy).toContain("frame-ancestors 'none'");
    expect(policy).not.toContain("unsafe");
    expect(response.headers.get("set-cookie")).toBeNull();
    const scripts = [...text.matchAll(/<script[^>]*src="([^"]+)"[^>]*integrity="([^"]+)"[^>]*>/g)];
    expect(scripts).toHaveLength(1);
    expect([...text.matchAll(/<script/g)]).toHaveLength(1);
    const [, src = "", integrity = ""] = scripts[0] ?? [];
    const file = await app.ask(src);
    expect(file.headers.get("cache-control")).toContain("immutable");
    const digest = await crypto.subtle.digest("SHA-384", await file.arrayBuffer());
    expect(integrity).toBe(`sha384-${btoa(String.fromCharCode(...new Uint8Array(digest)))}`);
    expect(text).not.toMatch(/ style=| on[a-z]+=/);
  });

  it.each(["POST", "PUT", "DELETE"])("refuses %s", async (method) => {
    const response = await app.ask("/desk", { method });
    expect(response.status).toBe(405);
  });
});

describe("the caller's own words without a script", () => {
  const headers = { "content-type": "application/x-www-form-urlencoded" };
  const words =
    "My basil has spider mites, white fuzzy stuff on the stems, no webs, the zebra is fine, and we have a cat. Will it live?";
  const say = async (search: string, body: string, more: object = { headers }) => {
    const response = await app.ask(`/desk/say${search}`, { method: "POST", body, ...more });
    return { response, text: await response.text() };
  };

  it("go in the body to a page with what was understood; nothing of it counts yet, and no address holds it", async () => {
    const { text: desk } = await read("/desk?e=1&what-you-see=white");
    expect(desk).toContain(
      '<form class="desk-words" method="post" action="/desk/say?e=1&amp;what-you-see=white">',
    );
    const { response, text } = await say(
      "?e=1&what-you-see=white",
      new URLSearchParams({ said: words }).toString(),
    );
    expect(response.status).toBe(200);
    expect(response.headers.get("cache-control")).toBe("no-store");
    for (const piece of [
      "host=basil",
      "white-cottony-tufts=yes",
      "fine-webbing=no",
      "thought=spider-mites",
    ]) {
      const [name, value] = piece.split("=");
      expect(text, piece).toMatch(
        new RegExp(`<input type="checkbox" name="${name}" value="${value}" checked`),
      );
    }
    expect(text).toContain('name="asked" value="will-it-live"');
    expect(text).toContain("Not understood: “the zebra is fine”");
    expect([...text.matchAll(/class="desk-line"/g)]).toHaveLength(1);
    expect(text).not.toMatch(/(?:href|action)="[^"]*(?:zebra|fuzzy)/);
    expect(text).not.toContain("<script");
  });

  it("once agreed to are the case, with ideas and questions beside it", async () => {
    const { text } = await read(
      "/desk?e=1&host=basil&white-cottony-tufts=yes&thought=spider-mites&asked=will-it-live",
    );
    expect(text).toContain("The caller’s own idea");
    expect(text).toContain("Will it live?");
    expect(text).toContain(
      "/check?e=1&amp;host=basil&amp;white-cottony-tufts=yes&amp;thought=spider-mites&amp;asked=will-it-live",
    );
    expect(text).toContain(
      'href="/desk?e=1&amp;host=basil&amp;white-cottony-tufts=yes&amp;asked=will-it-live" aria-label="Take back: The caller’s own idea"',
    );
  });

  it("are told to be contradicted where they are, and what was seen counts", async () => {
    const { text } = await read("/desk?e=1&what-you-see=marks&fine-webbing=no&traces=webs");
    expect(text).toContain("Both cannot be. We go by what was seen.");
  });

  it.each([
    ["nothing", "said="],
    ["no form", "{}", { headers: { "content-type": "application/json" } }],
    ["too much", `said=${"x".repeat(20_000)}`],
  ])("%s leads back to the desk, the case kept", async (_, body, more?: object) => {
    const { response } = await say("?e=1&what-you-see=white", body, more ?? { headers });
    expect(response.status).toBe(303);
    expect(response.headers.get("location")).toBe("/desk?e=1&what-you-see=white");
  });

  it("that say nothing we know get a sentence", async () => {
    const { response, text } = await say("?e=1", "said=zzzz+qqqq");
    expect(response.status).toBe(200);
    expect(text).toContain("Nothing of it was understood.");
    expect((await read("/desk/say?e=1")).response.headers.get("location")).toBe("/desk?e=1");
    expect((await app.ask("/desk/say", { method: "PUT" })).status).toBe(405);
  });
});

describe("a code read out", () => {
  it.each([code, code.toLowerCase(), code.split("").join(" "), code.replace(/^(..)/, "$1-")])(
    "%j opens its case",
    async (typed) => {
      const { response } = await read(`/desk?code=${encodeURIComponent(typed)}`);
      expect(response.status).toBe(303);
      expect(response.headers.get("location")).toBe(`/desk?${query}`);
    },
  );

  it("is pointed at where it is not right; the call in hand is kept", async () => {
    expect(readBase32(misread ?? "").ok).toBe(false);
    const { response, text } = await read(`/desk?e=1&what-you-see=droop&code=${misread}`);
    expect(response.status).toBe(200);
    expect(text).toContain("One character of the code is not right.");
    expect(text).toContain(`/desk?code=${encodeURIComponent(code)}`);
    expect(text).toContain("Basil; Spots, patches or marks on leaves");
    expect(text).toContain("It droops or hangs limp");
    expect(text).toContain(`value="${misread}"`);
  });

  it("half of it gets a sentence", async () => {
    const { response, text } = await read(`/desk?code=${code.slice(0, 3)}`);
    expect(response.status).toBe(200);
    expect(text).toContain("Is there more?");
  });

  it("of another edition is replayed, and one of an edition that is gone is told", async () => {
    await publish(bundled);
    await publish(renumber(2));
    app = openFreshApp();
    const { response } = await read(`/desk?code=${encodeURIComponent(code)}`);
    expect(response.headers.get("location")).toBe(`/desk?${query}`);
    const slip = await read(`/desk?code=${misread}`);
    expect(slip.text).toContain(`/desk?code=${encodeURIComponent(code)}`);
    const gone = writeCode(openFlow(renumber(9)), caseOf(openFlow(renumber(9)), ...told));
    const { response: other, text } = await read(`/desk?${query}&code=${encodeURIComponent(gone)}`);
    expect(other.status).toBe(200);
    expect(text).toContain("an edition we no longer have");
    expect(text).toContain("Fine pale dots");
  });

  it("helps shoppers as well", async () => {
    const { response, text } = await read(`/c/${misread}`);
    expect(response.status).toBe(404);
    expect(text).toContain("Did you mean one of these?");
    expect(text).toContain(`href="/c/${encodeURIComponent(code)}"`);
  });

  it.each(["%00", "💥", "x".repeat(150), "<script>alert(1)</script>", "====", "%E0%A4%A"])(
    "%s gets an answer without an error",
    async (typed) => {
      const { response, text } = await read(`/desk?code=${typed}`);
      expect(response.status).toBe(200);
      expect(text).not.toContain("<script>alert");
    },
  );
});

it("a link that cannot be read whole is named, and the rest kept", async () => {
  const { response, text } = await read(`/desk?${query}&bogus=1&tap-test=maybe`);
  expect(response.status).toBe(200);
  expect(text).toContain("We do not know “bogus”");
  expect(text).toContain("“tap-test=maybe” is not one of the answers");
  expect(text).toContain("Fine pale dots");
});
