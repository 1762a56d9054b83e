import { describe, expect, test, vi } from "vitest";
import { openFreshApp } from "./fresh-app.ts";

const { ask } = openFreshApp();

function say(said: string, query = ""): Promise<Response> {
  const body = new URLSearchParams({ said }).toString();
  const headers = { "content-type": "application/x-www-form-urlencoded" };
  return ask(`/say${query}`, { method: "POST", headers, body });
}

const sentence =
  "My ficus has a fungus, white fuzzy stuff in the joints, no webs, also zebras dance at midnight, and there's a cat";

describe("words typed without JavaScript", () => {
  test("every question has the field, and its address holds the case only", async () => {
    const page = await (await ask("/check?e=1&what-you-see=white&host=basil")).text();
    expect(page).toContain('method="post" action="/say?e=1&amp;what-you-see=white&amp;host=basil');
    expect(page).toContain('name="said"');
  });

  test("are answered with boxes to agree to", async () => {
    const response = await say(sentence);
    expect(response.status).toBe(200);
    const page = await response.text();
    expect(page).toContain("Is that right?");
    expect(page).toMatch(/type="checkbox" name="white-cottony-tufts" value="yes" checked/);
    expect(page).toMatch(/type="checkbox" name="fine-webbing" value="no" checked/);
    expect(page).toMatch(/type="checkbox" name="host" value="[a-z-]*(ficus|fig)[a-z-]*" checked/);
    expect(page).toMatch(/type="radio" name="household" value="pets"/);
    expect(page).toMatch(/type="checkbox" name="thought" value="powdery-mildew\./);
    expect(page).toContain("We did not understand this:");
    expect(page).toContain("zebras dance at midnight");
  });

  test("stand in no address, header or log, and the page is not kept", async () => {
    const spies = (["log", "info", "warn", "error", "debug"] as const).map((level) =>
      vi.spyOn(console, level),
    );
    const response = await say(sentence);
    const page = await response.text();
    expect(response.headers.get("cache-control")).toBe("no-store");
    expect(response.headers.get("content-security-policy")).toContain("default-src 'none'");
    expect([...response.headers].join(" ")).not.toContain("zebra");
    const addresses = [...page.matchAll(/(?:href|action|value)="([^"]*)"/g)].map(([, text]) => text ?? "");
    expect(addresses.length).toBeGreaterThan(5);
    expect(addresses.filter((text) => /zebra|fuzzy|midnight/.test(text))).toEqual([]);
    expect(spies.flatMap((spy) => spy.mock.calls)).toEqual([]);
    for (const spy of spies) spy.mockRestore();
  });

  test("go on with the case in the address, and answer its question", async () => {
    const page = await (await say("soggy", "?e=1&what-you-see=droop&host=pothos")).text();
    expect(page).toMatch(/type="checkbox" name="soil-check" value="soggy" checked/);
    expect(page).toContain('<input type="hidden" name="what-you-see" value="droop"/>');
  });

  test("are text, whatever they look like", async () => {
    const page = await (await say("<script>alert(1)</script> zebras dance at midnight")).text();
    expect(page).not.toContain("<script>alert");
  });

  test("lead on when there is nothing to read", async () => {
    for (const said of ["", "   "]) {
      const response = await say(said, "?e=1&what-you-see=white");
      expect([response.status, response.headers.get("location")]).toEqual([
        303,
        "/check?e=1&what-you-see=white",
      ]);
    }
    expect((await ask("/say?e=1")).status).toBe(303);
    expect((await say("x".repeat(20_000))).status).toBe(303);
    expect(
      (await ask("/say", { method: "POST", headers: { "content-type": "application/json" }, body: "{}" }))
        .status,
    ).toBe(303);
    expect((await ask("/say", { method: "PUT" })).status).toBe(405);
    expect((await say("\u0000\ud800 %%% 🌿🌿")).status).toBe(200);
  });
});

const due =
  "?e=1&what-you-see=white&host=basil&white-look=cotton&white-cottony-tufts=yes&dab-finds-soft-body=yes";

describe("a theory and a question", () => {
  async function verdict(query: string): Promise<string> {
    let address = `/check${query}`;
    for (let i = 0; i < 20; i++) {
      const page = await (await ask(address)).text();
      const [, name] = /type="radio" name="([a-z-]+)"/.exec(page) ?? [];
      if (page.includes("lt-verdict")) return page;
      address += `&${name ?? "host"}=not-sure`;
    }
    throw new Error("no verdict");
  }

  test("are answered by the verdict, which says whether the signs agree", async () => {
    const right = await verdict(`${due}&thought=mealybugs&asked=will-it-live.can-i-eat-it`);
    expect(right).toContain("The signs agree with you");
    expect(right).toMatch(/<h4>Will it live\?<\/h4>/);
    expect(right).toMatch(/<h4>Can I still eat it\?<\/h4>/);
    const wrong = await verdict(`${due}&thought=powdery-mildew`);
    expect(wrong).toContain("You thought of this: Powdery mildew.");
    expect(wrong).not.toContain("The signs agree with you");
  });

  test("never change it", async () => {
    const headline = (page: string) => /lt-verdict-name[^>]*>([^<]*)/.exec(page)?.[1];
    expect(headline(await verdict(`${due}&thought=powdery-mildew`))).toBe(headline(await verdict(due)));
  });

  test("take no words into the address, only ids", async () => {
    const page = await verdict(`${due}&thought=mealybugs.<b>.bogus&asked=my+cat`);
    expect(page).not.toContain("&lt;b&gt;");
    expect(page).toContain("thought=mealybugs.bogus");
    expect(page).not.toContain("my+cat");
  });
});
