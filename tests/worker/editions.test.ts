import { env } from "cloudflare:test";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { writeCode } from "../../flows/case-code.ts";
import { alternativesTo } from "../../flows/desk/mishearing.ts";
import { openFlow } from "../../flows/flow.ts";
import { PATIENCE } from "../../worker/editions.ts";
import { caseOf } from "../support/cases.ts";
import { bundled, openFreshApp, publish, renumber, watchDatabase } from "./fresh-app.ts";
import { wrapCalls } from "./wrap-calls.ts";

beforeEach(async () => {
  await env.DB.batch(
    ["live", "edition_files", "edition_parts", "editions"].map((table) =>
      env.DB.prepare(`DELETE FROM ${table}`),
    ),
  );
});

afterEach(() => {
  vi.useRealTimers();
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

  test("changes with the very next request after publishing, in every isolate", async () => {
    await publish(renumber(2));
    const [one, other] = [openFreshApp(), openFreshApp()];
    expect([await liveNumber(one.ask), await liveNumber(other.ask)]).toEqual([2, 2]);
    await publish(renumber(3));
    expect([await liveNumber(one.ask), await liveNumber(other.ask)]).toEqual([3, 3]);
  });

  test("is not asked to be kept by caches", async () => {
    const { ask } = openFreshApp();
    for (const path of ["/api/edition", "/embed/live.json", "/check"]) {
      expect((await ask(path)).headers.get("cache-control"), path).toBe("no-cache");
    }
  });

  test("is put together from its parts when its body is too large for a row", async () => {
    const edition = renumber(2);
    await publish(edition);
    const body = JSON.stringify(edition);
    const parts = [body.slice(0, 100_000), body.slice(100_000, 300_000), body.slice(300_000)];
    await env.DB.batch([
      env.DB.prepare("UPDATE editions SET body = '' WHERE number = 2"),
      ...parts.map((part, index) =>
        env.DB.prepare("INSERT INTO edition_parts (edition, part, body) VALUES (2, ?1, ?2)").bind(
          index,
          part,
        ),
      ),
    ]);
    const { ask } = openFreshApp();
    for (let times = 0; times < 2; times++) {
      expect(await (await ask("/api/edition")).json()).toEqual(edition);
    }
    expect(await (await ask("/api/editions/2")).json()).toEqual(edition);
  });

  test("does not go back when an earlier read answers late", async () => {
    await publish(renumber(2));
    const slow = holdBack(env.DB, ["answer"]);
    const { ask } = openFreshApp({ DB: slow.database });
    const late = liveNumber(ask);
    await slow.read;
    await publish(renumber(3));
    slow.letGo();
    expect(await liveNumber(ask)).toBe(3);
    expect([2, 3]).toContain(await late);
    expect(await liveNumber(ask)).toBe(3);
  });

  describe("when the database does not answer", () => {
    const paths = ["/check", "/check?e=7&what-you-see=marks", "/api/case?what-you-see=marks", "/nowhere"];

    test.each(paths)("is the bundled one after some seconds, and no read waits behind: %s", async (path) => {
      vi.spyOn(console, "error").mockImplementation(() => {});
      const stuck = holdBack(env.DB, ["never", "never"]);
      const { ask, clock } = openFreshApp({ DB: stuck.database });
      const response = await outwait(() => ask(path));
      expect(response.status).toBe(path === "/nowhere" ? 404 : 200);
      clock.now += PATIENCE + 4_999;
      expect(await liveNumber(ask)).toBe(bundled.number);
      expect(stuck.calls()).toBe(1);
      clock.now += 1;
      const later = await outwait(() => ask(path));
      expect(later.status).toBe(response.status);
      expect(stuck.calls()).toBe(2);
    });

    test("is the last one seen, and an answer or a failure that comes late does no harm", async () => {
      const complaint = vi.spyOn(console, "error").mockImplementation(() => {});
      await publish(renumber(2));
      const stuck = holdBack(env.DB, ["pass", "answer", "fail", "pass"]);
      const { ask, clock } = openFreshApp({ DB: stuck.database });
      expect(await liveNumber(ask)).toBe(2);
      for (const late of ["answer", "fail"]) {
        expect(await outwait(() => liveNumber(ask)), late).toBe(2);
        clock.now += PATIENCE + 5_000;
      }
      await publish(renumber(3));
      expect(await liveNumber(ask)).toBe(3);
      stuck.letGo();
      await stuck.settled();
      clock.now += 1;
      expect(await liveNumber(ask)).toBe(3);
      expect(complaint).toHaveBeenCalledTimes(2);
    });
  });

  test("stays the last one seen when its row cannot be read", async () => {
    await publish(renumber(2));
    const { ask } = openFreshApp();
    expect(await liveNumber(ask)).toBe(2);
    vi.spyOn(console, "error").mockImplementation(() => {});
    await env.DB.prepare(
      "INSERT INTO editions (number, hash, body, published_at) VALUES (3, 'x', '{', '')",
    ).run();
    await env.DB.prepare("UPDATE live SET number = 3").run();
    expect(await liveNumber(ask)).toBe(2);
  });

  test("costs one read a request, whatever it is", async () => {
    const second = openFlow(renumber(2));
    const code = writeCode(second, caseOf(second, "what-you-see=marks", "host=basil"));
    const misread = code.slice(0, -1) + alternativesTo(code.slice(-1))[0];
    await publish(renumber(2));
    await publish(renumber(3));
    const watched = watchDatabase(env.DB);
    const { ask } = openFreshApp({ DB: watched.database });
    let reads = 0;
    for (const path of [
      "/check",
      "/check",
      "/check?e=2",
      "/check?e=2",
      "/check?e=77",
      "/nothing",
      "/embed/x/y",
      // A misread code may name other editions once it is mended; they come with the same read.
      "/c/AAAA1",
      `/c/${encodeURIComponent(misread)}`,
      `/desk?e=2&what-you-see=droop&code=${encodeURIComponent(misread)}`,
      "/desk?code=AAAA1",
    ]) {
      await ask(path);
      expect(watched.reads() - reads, path).toBeLessThanOrEqual(1);
      reads = watched.reads();
    }
    expect(reads).toBeGreaterThan(9);
    // And the case of the older edition is among those that it may have been.
    expect(await (await ask(`/desk?code=${encodeURIComponent(misread)}`)).text()).toContain(
      `/desk?code=${encodeURIComponent(code)}`,
    );
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

/** Lets the patience of the server run out, without anyone waiting for it. */
async function outwait<T>(ask: () => Promise<T>): Promise<T> {
  vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout"] });
  const asked = ask();
  while (vi.getTimerCount() === 0) await Promise.resolve();
  await vi.advanceTimersByTimeAsync(PATIENCE);
  vi.useRealTimers();
  return asked;
}

/** A database whose first reads go as told, the others as usual: an answer or a failure comes only when it is let go. */
function holdBack(database: D1Database, ways: ("pass" | "answer" | "fail" | "never")[]) {
  const gate = Promise.withResolvers<void>();
  const read = Promise.withResolvers<void>();
  const held: Promise<unknown>[] = [];
  let calls = 0;
  const wrapped = wrapCalls(database, async (call) => {
    const way = ways[calls++] ?? "pass";
    if (way === "pass") return call();
    if (way === "never") return new Promise(() => {});
    const answer = call().then(async (rows) => {
      read.resolve();
      await gate.promise;
      if (way === "fail") throw new Error("the connection was lost");
      return rows;
    });
    held.push(answer);
    return answer;
  });
  return {
    database: wrapped,
    read: read.promise,
    letGo: () => gate.resolve(),
    settled: () => Promise.allSettled(held),
    calls: () => calls,
  };
}
