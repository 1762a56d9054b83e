import { env } from "cloudflare:test";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { bundled, openFreshApp, publish, renumber, watchDatabase } from "./fresh-app.ts";

beforeEach(async () => {
  await env.DB.batch([env.DB.prepare("DELETE FROM live"), env.DB.prepare("DELETE FROM editions")]);
});

afterEach(() => {
  vi.restoreAllMocks();
});

async function liveNumber(ask: ReturnType<typeof openFreshApp>["ask"]): Promise<number> {
  const response = await ask("/api/edition");
  const { number } = await response.json<{ number: number }>();
  return number;
}

describe("the live edition", () => {
  test("is the bundled one while the database is empty", async () => {
    const { ask } = openFreshApp();
    expect(await liveNumber(ask)).toBe(bundled.number);
  });

  test("is the bundled one when there is no database at all", async () => {
    const { ask } = openFreshApp({});
    expect(await liveNumber(ask)).toBe(bundled.number);
  });

  test("is the bundled one when the database fails", async () => {
    const complaint = vi.spyOn(console, "error").mockImplementation(() => {});
    await env.DB.exec("ALTER TABLE live RENAME TO away");
    const { ask } = openFreshApp();
    expect(await liveNumber(ask)).toBe(bundled.number);
    expect((await ask("/check")).status).toBe(200);
    await env.DB.exec("ALTER TABLE away RENAME TO live");
    expect(complaint).toHaveBeenCalledOnce();
  });

  test("is the one the pointer names, whatever is newest", async () => {
    await publish(renumber(3));
    await publish(renumber(2));
    const { ask } = openFreshApp();
    expect(await liveNumber(ask)).toBe(2);
  });

  test("changes within seconds of publishing, without a new isolate", async () => {
    await publish(renumber(2));
    const { ask, clock } = openFreshApp();
    expect(await liveNumber(ask)).toBe(2);
    await publish(renumber(3));
    expect(await liveNumber(ask)).toBe(2);
    clock.now += 6_000;
    expect(await liveNumber(ask)).toBe(3);
  });

  test("stays the last one seen when its row cannot be read", async () => {
    await publish(renumber(2));
    const { ask, clock } = openFreshApp();
    expect(await liveNumber(ask)).toBe(2);
    vi.spyOn(console, "error").mockImplementation(() => {});
    await env.DB.prepare(
      "INSERT INTO editions (number, hash, body, published_at) VALUES (3, 'x', '{', '')",
    ).run();
    await env.DB.prepare("UPDATE live SET number = 3").run();
    clock.now += 6_000;
    expect(await liveNumber(ask)).toBe(2);
  });

  test("costs one read a request at most, and none while it is fresh", async () => {
    await publish(renumber(2));
    await publish(renumber(3));
    const watched = watchDatabase(env.DB);
    const { ask, clock } = openFreshApp({ DB: watched.database });
    for (const [path, reads] of [
      ["/check", 1],
      ["/check", 1],
      ["/check?e=2", 2],
      ["/check?e=2", 2],
      ["/check?e=77", 3],
    ] as const) {
      await ask(path);
      expect(watched.reads(), path).toBe(reads);
    }
    clock.now += 6_000;
    await ask("/check?e=2");
    expect(watched.reads()).toBe(4);
  });
});

describe("an older edition", () => {
  const verdictLink = "what-you-see=not-sure&host=not-sure";

  test("is served under its number", async () => {
    await publish(renumber(2));
    await publish(renumber(3));
    const { ask } = openFreshApp();
    const response = await ask("/api/editions/2");
    expect(await response.json()).toMatchObject({ number: 2, hash: "hash-of-2" });
    expect((await ask("/api/editions/9")).status).toBe(404);
  });

  test("is replayed, and the page says so when the outcome differs", async () => {
    const { ask } = openFreshApp();
    const link = await walkToVerdict(ask, "e=1&what-you-see=insects&host=basil");
    // The next edition knows the same condition under another standing: nothing is ever sure enough.
    await publish(renumber(1));
    await publish(
      renumber(2, {
        weights: { ...bundled.weights, lead: { suspected: 900, leaning: 800 } },
        conversation: { ...bundled.conversation, mostQuestions: 0 },
      }),
    );
    const later = openFreshApp();
    const page = await (await later.ask(`/check?${link}`)).text();
    expect(page).toContain("Our guide has changed since this link was made.");
    expect(page).toContain("We cannot tell from this.");
  });

  test("needs no word when the outcome is the same", async () => {
    await publish(renumber(1));
    await publish(renumber(2));
    const { ask } = openFreshApp();
    const page = await (await ask(`/check?e=1&${verdictLink}`)).text();
    expect(page).not.toContain("Please note");
  });

  test("that no longer exists gives way to the live one, and the page says so", async () => {
    const { ask } = openFreshApp();
    const response = await ask(`/check?e=44&${verdictLink}`);
    expect(response.status).toBe(200);
    expect(await response.text()).toContain("guide number 44, which we no longer have");
  });
});

/** Answers every question with its first option until the verdict is due; gives the case's query. */
async function walkToVerdict(ask: ReturnType<typeof openFreshApp>["ask"], start: string): Promise<string> {
  let link = start;
  for (let i = 0; i < 20; i++) {
    const { next } = await (await ask(`/api/case?${link}`)).json<{
      next: { id: string; options: { id: string }[] } | null;
    }>();
    if (next === null) return link;
    link += `&${next.id}=${next.options[0]?.id ?? "not-sure"}`;
  }
  throw new Error("no verdict after twenty questions");
}
