import { env } from "cloudflare:test";
import { beforeEach, describe, expect, test, vi } from "vitest";
import { closeDraft, findDraft, readWholeDraft } from "../../../worker/editor/drafts.ts";
import { readFolder } from "../../../worker/editor/folders.ts";
import { listHistory } from "../../../worker/editor/history.ts";
import {
  cutBody,
  listEditions,
  listPublications,
  prepareFirst,
  publishDraft,
  readLiveNumber,
  takeBack,
} from "../../../worker/editor/publish.ts";
import { openFreshApp } from "../fresh-app.ts";
import { wrapCalls } from "../wrap-calls.ts";
import { ada, ben, bundled, compile, makeId, openDraft, publishNow, write } from "./stage.ts";

const shop = bundled.files["shop.yaml"] ?? "";
const named = (name: string) => shop.replace(/^name: .*$/m, `name: ${name}`);

async function draftWithShop(name: string): Promise<string> {
  const draft = await openDraft(await liveOrFirst());
  await write(draft, "shop.yaml", named(name));
  return draft;
}

async function liveOrFirst(): Promise<number> {
  await prepareFirst(env.DB, bundled, 1_000);
  return readLiveNumber(env.DB);
}

/** What a reader gets: the edition as the server hands it out, to the byte. */
async function readLive(): Promise<string> {
  const { ask } = openFreshApp();
  return (await ask("/api/edition")).text();
}

beforeEach(() => {
  vi.restoreAllMocks();
});

describe("publishing", () => {
  test("makes the draft the live edition, numbered, with all records", async () => {
    const draft = await draftWithShop("The Fern House");
    const before = await readLiveNumber(env.DB);
    const published = await publishNow(draft);
    expect(published.ok).toBe(true);
    const number = await readLiveNumber(env.DB);
    expect(published).toEqual({ ok: true, number });
    expect(number).toBeGreaterThan(before);
    expect(JSON.parse(await readLive())).toMatchObject({ number, shop: { name: "The Fern House" } });
    expect(await readFolder(env.DB, number)).toEqual({
      ...bundled.files,
      "shop.yaml": named("The Fern House"),
    });
    expect((await listPublications(env.DB))[0]).toMatchObject({
      ...{ kind: "publish", edition: number, before, draft, whoName: ada.name, at: 4_000, note: "a note" },
    });
    expect((await listHistory(env.DB))[0]).toMatchObject({
      ...{ what: "published", subject: String(number), whoName: ada.name, why: "a note" },
    });
    expect(await findDraft(env.DB, draft)).toMatchObject({ publishedAs: number, closedAt: 4_000 });
    expect((await listEditions(env.DB))[0]).toMatchObject({ number, isLive: true, hasFiles: true });
  });

  test("hands out the new edition's page and parcels at once, and the old ones go on", async () => {
    const before = await readLiveNumber(env.DB);
    await publishNow(await draftWithShop("Moss & Co"));
    const { ask } = openFreshApp();
    const { number, hash } = await (await ask("/embed/live.json")).json<{ number: number; hash: string }>();
    for (const part of ["first", "prose"]) {
      expect((await ask(`/embed/editions/${number}-${hash}/${part}.json`)).status).toBe(200);
    }
    expect(await (await ask("/check")).text()).toContain("Moss &amp; Co");
    expect((await ask(`/api/editions/${before}`)).status).toBe(200);
  });

  test("is refused when another edition went live since the draft was made", async () => {
    const [late, early] = [await draftWithShop("Late"), await draftWithShop("Early")];
    await publishNow(early);
    const live = await readLive();
    expect(await publishNow(late)).toEqual({ ok: false, because: "live-moved" });
    expect(await readLive()).toBe(live);
    expect((await findDraft(env.DB, late))?.closedAt).toBeNull();
  });

  test("is refused when the draft was changed or closed after it was compiled", async () => {
    const draft = await draftWithShop("One");
    const whole = await readWholeDraft(env.DB, draft);
    if (whole === null) throw new Error("no draft");
    const edition = await compile(draft);
    const publishing = { whole, edition, note: "", summary: "{}", token: makeId(), who: ada, now: 1 };
    await write(draft, "shop.yaml", named("Two"));
    expect(await publishDraft(env.DB, publishing)).toEqual({ ok: false, because: "draft-moved" });
    const again = { ...publishing, whole: (await readWholeDraft(env.DB, draft)) ?? whole };
    await closeDraft(env.DB, { id: draft, isOpen: false, who: ada, now: 2, why: "" });
    expect(await publishDraft(env.DB, again)).toEqual({ ok: false, because: "draft-moved" });
  });

  test("by two at once is done by one", async () => {
    const [a, b] = [await draftWithShop("A"), await draftWithShop("B")];
    const done = await Promise.all([publishNow(a), publishNow(b)]);
    expect(done.filter(({ ok }) => ok)).toHaveLength(1);
  });

  test("twice with one token is done once", async () => {
    const draft = await draftWithShop("Twice");
    const whole = await readWholeDraft(env.DB, draft);
    if (whole === null) throw new Error("no draft");
    const edition = await compile(draft);
    const publishing = { whole, edition, note: "", summary: "{}", token: makeId(), who: ada, now: 1 };
    const first = await publishDraft(env.DB, publishing);
    await expect(publishDraft(env.DB, publishing)).rejects.toThrow(/UNIQUE/);
    expect(await readLiveNumber(env.DB)).toBe(first.ok ? first.number : 0);
  });

  test("a body that is too large for a row is cut and put together again", async () => {
    expect(cutBody("", 4)).toEqual([""]);
    expect(cutBody("ab😀cd", 3)).toEqual(["ab😀", "cd"]);
    const draft = await draftWithShop("Big");
    const whole = await readWholeDraft(env.DB, draft);
    if (whole === null) throw new Error("no draft");
    const edition = await compile(draft);
    const times = Array.from({ length: 5 }, (_, copy) =>
      edition.sources.map((source) => ({
        ...source,
        id: `${source.id}-${copy}`,
        title: source.title.repeat(12),
      })),
    );
    const large = { ...edition, sources: times.flat() };
    expect(JSON.stringify(large).length).toBeGreaterThan(1_300_000);
    const done = await publishDraft(env.DB, {
      ...{ whole, edition: large, note: "", summary: "{}", token: makeId(), who: ada, now: 1 },
    });
    expect(done.ok).toBe(true);
    const { number, ...live } = JSON.parse(await readLive()) as { number: number; sources: unknown[] };
    expect(done).toEqual({ ok: true, number });
    expect(live.sources).toEqual(large.sources);
    await backToFirst();
  });
});

describe("taking back", () => {
  test("makes the earlier edition live again, byte for byte, in one action", async () => {
    const first = await readLiveNumber(env.DB);
    const before = await readLive();
    await publishNow(await draftWithShop("Slip of the pen"));
    const slip = await readLiveNumber(env.DB);
    expect(await readLive()).not.toBe(before);
    const move = { to: first, seen: slip, note: "A slip.", token: makeId(), who: ben, now: 7_000 };
    expect(await takeBack(env.DB, move)).toBe(true);
    expect(await readLive()).toBe(before);
    expect((await listHistory(env.DB))[0]).toMatchObject({
      ...{ what: "taken-back", subject: String(first), whoName: ben.name, why: "A slip." },
    });
    // Conversations under way stay on the edition they began with.
    const { ask } = openFreshApp();
    expect(await (await ask(`/api/editions/${slip}`)).json()).toMatchObject({
      shop: { name: "Slip of the pen" },
    });
    // A number is never given twice.
    await publishNow(await draftWithShop("Next"));
    expect(await readLiveNumber(env.DB)).toBe(slip + 1);
  });

  test("is refused when something else is live than was seen, or there is no such edition", async () => {
    const live = await readLiveNumber(env.DB);
    const move = { to: 1, seen: live - 1, note: "", token: makeId(), who: ada, now: 1 };
    expect(await takeBack(env.DB, move)).toBe(false);
    expect(await takeBack(env.DB, { ...move, to: 999, seen: live })).toBe(false);
    expect(await takeBack(env.DB, { ...move, to: live, seen: live })).toBe(false);
    expect(await readLiveNumber(env.DB)).toBe(live);
  });
});

class Killed extends Error {}

/** The database goes away at one call, before it or after it has done its work, and stays away. */
function killAt(nth: number, when: "before" | "after") {
  let calls = 0;
  return wrapCalls(env.DB, async (call) => {
    calls++;
    if (calls > nth || (calls === nth && when === "before")) throw new Killed();
    const done = await call();
    if (calls === nth) throw new Killed();
    return done;
  });
}

async function countCalls(act: (database: D1Database) => Promise<unknown>): Promise<number> {
  let calls = 0;
  await act(
    wrapCalls(env.DB, (call) => {
      calls++;
      return call();
    }),
  );
  return calls;
}

describe("killed at every call to the storage", () => {
  test("publishing leaves the old edition or the new one, whole, for everyone who reads meanwhile", async () => {
    const most = await countCalls(async (database) => publishNow(await draftWithShop("Counted"), database));
    expect(most).toBeGreaterThanOrEqual(3);
    const outcomes = new Set<string>();
    for (const when of ["before", "after"] as const) {
      for (let nth = 1; nth <= most; nth++) {
        const name = `Killed ${when} ${nth}`;
        const draft = await draftWithShop(name);
        const [number, old, editions] = await stateOfAll();
        const readers = readUntil();
        await expect(publishNow(draft, killAt(nth, when))).rejects.toThrow(Killed);
        const seen = await readers.stop();
        const [after, now, later] = await stateOfAll();
        const isNew = after !== number;
        outcomes.add(`${when} ${isNew ? "new" : "old"}`);
        // Nothing between old and new: pointer, edition, files, records and draft tell the same.
        expect(later).toBe(editions + Number(isNew));
        expect(now === old).toBe(!isNew);
        expect(JSON.parse(now)).toMatchObject({ number: after, ...(isNew ? { shop: { name } } : {}) });
        expect((await readFolder(env.DB, after))?.["shop.yaml"]).toContain(JSON.parse(now).shop.name);
        expect((await findDraft(env.DB, draft))?.publishedAs).toBe(isNew ? after : null);
        expect((await listPublications(env.DB))[0]?.edition).toBe(after);
        for (const text of seen) expect([old, now]).toContain(text);
        if (!isNew) expect((await publishNow(draft)).ok).toBe(true);
      }
    }
    expect([...outcomes].sort()).toEqual(["after new", "after old", "before old"]);
  }, 120_000);

  test("taking back moves the pointer or leaves it", async () => {
    await publishNow(await draftWithShop("To be taken back"));
    for (const when of ["before", "after"] as const) {
      const seen = await readLiveNumber(env.DB);
      const to = when === "before" ? 1 : 1;
      const move = { to, seen, note: "", token: makeId(), who: ada, now: 1 };
      await expect(takeBack(killAt(1, when), move)).rejects.toThrow(Killed);
      expect(await readLiveNumber(env.DB)).toBe(when === "before" ? seen : to);
    }
  });

  test("preparing an empty database can be done again", async () => {
    await expect(prepareFirst(killAt(1, "after"), bundled, 1)).rejects.toThrow(Killed);
    await prepareFirst(env.DB, bundled, 1);
    expect(await readFolder(env.DB, 1)).toEqual(bundled.files);
  });
});

async function stateOfAll(): Promise<[live: number, body: string, editions: number]> {
  return [await readLiveNumber(env.DB), await readLive(), (await listEditions(env.DB)).length];
}

async function backToFirst(): Promise<void> {
  const seen = await readLiveNumber(env.DB);
  await takeBack(env.DB, { to: 1, seen, note: "", token: makeId(), who: ada, now: 1 });
}

/** Readers in several isolates who do not stop reading until they are told to. */
function readUntil() {
  let goOn = true;
  const seen: string[] = [];
  const readers = Array.from({ length: 3 }, async () => {
    const { ask } = openFreshApp();
    while (goOn) {
      seen.push(await (await ask("/api/edition")).text());
      await new Promise((resolve) => setTimeout(resolve, 0));
    }
  });
  return {
    async stop(): Promise<string[]> {
      goOn = false;
      await Promise.all(readers);
      return [...new Set(seen)];
    },
  };
}
