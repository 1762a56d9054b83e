import { env } from "cloudflare:test";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { writeCode } from "../../flows/case-code.ts";
import type { Edition } from "../../flows/edition.ts";
import { openFlow } from "../../flows/flow.ts";
import { PATIENCE } from "../../worker/editions.ts";
import { pageWords } from "../../worker/pages/page-words.ts";
import { peopleWords } from "../../worker/people/people-words.ts";
import { makeToken } from "../../worker/people/token.ts";
import { counterWords } from "../../worker/staff/counter-words.ts";
import { figuresWords } from "../../worker/staff/figures-words.ts";
import { beginDraft, enterRoom, fieldOf } from "./editor/enter.ts";
import { bundled, openFreshApp } from "./fresh-app.ts";
import { makePerson, sameOrigin } from "./sign-in.ts";
import { wrapCalls } from "./wrap-calls.ts";

type Fault = (call: () => Promise<unknown>) => Promise<unknown>;

/** What can become of a call to the database. */
const faults: Readonly<Record<string, Fault>> = {
  throws: () => {
    throw new Error("D1_ERROR: no such table: live: SQLITE_ERROR");
  },
  fails: async () => {
    throw new Error("D1_ERROR: internal error");
  },
  "is cut off behind the write": async (call) => {
    await call();
    throw new Error("D1_ERROR: Network connection lost.");
  },
  "is slow": async (call) => {
    await new Promise((resolve) => setTimeout(resolve, 20));
    return call();
  },
  "is sent twice": async (call) => {
    await call().catch(() => {});
    return call();
  },
  "gives nothing": async () => undefined,
  "gives null": async () => null,
  "gives an empty object": async () => ({}),
  "gives rows of something else": async () => ({ results: [{ number: 9, isLive: 1, body: "{}" }], meta: {} }),
  "gives broken JSON": async () => ({
    results: [{ number: 9, hash: "x", isLive: 1, body: '{"number":' }],
    meta: {},
  }),
};

const NOON = Date.parse("2026-11-25T17:00:00Z");
const random = (count: number) => crypto.getRandomValues(new Uint8Array(count));

beforeEach(() => {
  vi.spyOn(console, "error").mockImplementation(() => {});
});

afterEach(() => {
  vi.useRealTimers();
  vi.restoreAllMocks();
});

/** A database that fails at the calls that were armed: from the next one on, so many times. */
function openFaulty() {
  let fault: Fault | undefined;
  let skip = 0;
  const database = wrapCalls(env.DB, (call) => {
    if (fault === undefined) return call();
    if (skip-- !== 0) return call();
    return fault(call);
  });
  return {
    database,
    /** The call of that number, counted from 0, goes as told; all others as usual. */
    arm(next: Fault | undefined, at = 0) {
      fault = next;
      skip = at;
    },
  };
}

const verdict =
  "what-you-see=marks&host=basil&mark-look=stipple&tap-test=dots&traces=webs&air=dry&flowering-or-outdoors=no&household=children";

/** What a shopper may ask for, and what must be in the answer whatever the database does. */
const shoppers: [path: string, status: number, said: string | null, init?: RequestInit][] = [
  ["/", 200, "The Green Bench"],
  ["/check", 200, "What do you notice first?"],
  [`/check?e=1&${verdict}`, 200, "This is most likely: Spider mites"],
  [`/check?e=7&${verdict}`, 200, "This is most likely: Spider mites"],
  [`/slip?e=1&${verdict}`, 200, "Spider mites"],
  [`/calendar.ics?e=1&${verdict}`, 200, "BEGIN:VCALENDAR"],
  ["/c/nonsense", 404, "</main>"],
  ["/desk?e=1&host=basil", 200, "</main>"],
  [`/api/case?${verdict}`, 200, '"standing":"suspected"'],
  ["/api/case?colour=red", 422, "case-not-readable"],
  ["/api/edition", 200, '"conditions"'],
  ["/api/editions/9", 404, "unknown-edition"],
  ["/embed/live.json", 200, '"hash"'],
  ["/api/counts", 204, null, { method: "POST", body: '{"started":true}' }],
  [
    "/say?e=1",
    200,
    "Is that right?",
    { method: "POST", body: new URLSearchParams({ said: "sticky leaves" }) },
  ],
  ["/nowhere", 404, "</main>"],
];

describe("a shopper whose request finds a database that", () => {
  async function expectAll(ask: (path: string, init?: RequestInit) => Promise<Response>): Promise<void> {
    for (const [path, status, said, init] of shoppers) {
      const response = await ask(path, init);
      const text = await response.text();
      expect(response.status, `${path}: ${text.slice(0, 300)}`).toBe(status);
      if (said !== null) expect(text, path).toContain(said);
      if (status >= 400 && path.startsWith("/api/"))
        expect(response.headers.get("content-type"), path).toBe("application/problem+json");
    }
  }

  test.each(Object.keys(faults))("%s gets the same answer from the edition at hand", async (name) => {
    const { database, arm } = openFaulty();
    const { ask, clock } = openFreshApp({ DB: database });
    clock.now = NOON;
    await expectAll((path, init) => {
      clock.now += 10_000;
      arm(faults[name]);
      return ask(path, init);
    });
  });

  test("never answers waits no longer than the patience", async () => {
    const { ask, clock } = openFreshApp({ DB: wrapCalls(env.DB, () => new Promise(() => {})) });
    clock.now = NOON;
    vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout"] });
    await expectAll(async (path, init) => {
      clock.now += PATIENCE + 10_000;
      const asked = ask(path, init);
      // A code may name other editions: the first wait is the last.
      await vi.advanceTimersByTimeAsync(PATIENCE);
      return asked;
    });
  });
});

/** What must hold whatever was cut off: nothing half written, in any of the books. */
async function findHalfWritten(): Promise<unknown[]> {
  const whole = {
    "the live edition is there": "SELECT number FROM live WHERE number NOT IN (SELECT number FROM editions)",
    "a publication has its edition":
      "SELECT edition FROM publications WHERE edition NOT IN (SELECT number FROM editions)",
    "an edition has all its files": `SELECT edition FROM edition_files GROUP BY edition
      HAVING COUNT(*) < (SELECT COUNT(*) FROM edition_files WHERE edition = 1)`,
    "a draft that was published is closed":
      "SELECT id FROM drafts WHERE published_as IS NOT NULL AND closed_at IS NULL",
    "nobody published twice from one draft":
      "SELECT draft FROM publications WHERE kind = 'publish' GROUP BY draft HAVING COUNT(*) > 1",
    "a publication is in the history": `SELECT edition FROM publications p WHERE NOT EXISTS
      (SELECT 1 FROM history h WHERE h.subject = CAST(p.edition AS TEXT) AND h.at = p.at)`,
  };
  const found = await env.DB.batch(Object.values(whole).map((query) => env.DB.prepare(query)));
  return Object.keys(whole).filter((_, i) => (found[i]?.results.length ?? 0) > 0);
}

const sentences = [
  pageWords.outOfReach,
  pageWords.errorBehind,
  peopleWords.refusals["out-of-reach"],
  counterWords.outOfReach,
  figuresWords.outOfReach,
];

/** Someone who is signed in, over a database that can be made to fail. */
async function enterFaulty() {
  const room = await enterRoom(["staff", "editor", "publisher"]);
  const { database, arm } = openFaulty();
  const { ask, clock } = openFreshApp({ DB: database });
  clock.now = room.clock.now;
  const act = (path: string, fields?: Record<string, string>) =>
    ask(path, {
      redirect: "manual",
      headers: { cookie: room.cookie, ...sameOrigin },
      ...(fields && { method: "POST", body: new URLSearchParams(fields) }),
    });
  return { arm, act, ask, database, clock, room };
}

type Faulty = Awaited<ReturnType<typeof enterFaulty>>;

/** Something that people behind the sign-in do; made anew each time, for most can be done once. */
interface Deed {
  prepare?: (faulty: Faulty) => Promise<Record<string, string>>;
  act: (faulty: Faulty, made: Record<string, string>) => Promise<Response>;
  /** How many rows the deed leaves, when it was done or only half told. */
  rows?: (made: Record<string, string>) => Promise<number>;
}

async function countOf(query: string, ...values: string[]): Promise<number> {
  return (
    (await env.DB.prepare(query)
      .bind(...values)
      .first<number>("n")) ?? 0
  );
}

const code = writeCode(openFlow(bundled as Edition), {
  edition: 1,
  answers: [
    { to: "what-you-see", is: "marks" },
    { to: "host", is: "basil" },
  ],
});

const deeds: Readonly<Record<string, Deed>> = {
  "the counter's page": { act: ({ act }) => act("/desk/counter") },
  "the figures": { act: ({ act }) => act("/desk/figures") },
  "the figures as a file": { act: ({ act }) => act("/desk/figures/counts.csv") },
  "the bench book": {
    prepare: async ({ act }) => {
      const page = await (await act(`/desk/counter?code=${encodeURIComponent(code)}`)).text();
      const located = /name="id" value="([0-9a-f]{40})"/.exec(page)?.[1] ?? makeToken(random);
      return {
        code,
        id: located,
        corrects: "",
        result: "not-detected",
        other: "",
        branch: "canal-street",
        day: "1970-01-01",
      };
    },
    act: ({ act }, fields) => act("/desk/counter", fields),
    rows: ({ id = "" }) => countOf("SELECT COUNT(*) AS n FROM bench_findings WHERE id = ?1", id),
  },
  "signing in": {
    prepare: async ({ clock }) => ({ key: (await makePerson("Ada", clock.now)).key }),
    act: ({ act }, { key = "" }) => act("/desk/sign-in", { key }),
  },
  "the drafts": { act: ({ act }) => act("/editor") },
  "the history": { act: ({ act }) => act("/editor/history") },
  "beginning a draft": {
    prepare: async () => ({ title: `Draft ${makeToken(random)}` }),
    act: ({ act }, fields) => act("/editor/drafts", fields),
    rows: ({ title = "" }) => countOf("SELECT COUNT(*) AS n FROM drafts WHERE title = ?1", title),
  },
  "saving a file": {
    prepare: async ({ room }) => {
      const draft = await beginDraft(room, "Autumn");
      const page = await room.read(`${draft}/file?path=shop.yaml`);
      return { draft, path: "shop.yaml", tag: fieldOf(page, "tag"), text: "name: Half\n" };
    },
    act: ({ act }, { draft = "", ...fields }) => act(`${draft}/file`, fields),
    rows: async ({ draft = "" }) =>
      countOf("SELECT COUNT(*) AS n FROM saves WHERE draft = ?1", draft.split("/").at(-1) ?? ""),
  },
};

describe.each(Object.entries(deeds))("%s, whatever becomes of any call to the database", (_name, deed) => {
  test("ends in a page or in a sentence, and leaves nothing half written", async () => {
    const faulty = await enterFaulty();
    let tried = 0;
    for (const name of [
      "fails",
      "is cut off behind the write",
      "is sent twice",
      "gives nothing",
      "gives rows of something else",
    ]) {
      const fault = faults[name];
      if (!fault) throw new Error(name);
      for (let at = 0, reached = true; reached; at++) {
        const made = (await deed.prepare?.(faulty)) ?? {};
        faulty.clock.now += 60_000;
        reached = false;
        faulty.arm((call) => {
          reached = true;
          return fault(call);
        }, at);
        const response = await deed.act(faulty, made);
        faulty.arm(undefined);
        const text = await response.text();
        const where = `${name} at call ${at}: ${response.status} ${text.slice(0, 400)}`;
        expect([200, 303, 403, 404, 409, 412, 422, 500, 503], where).toContain(response.status);
        if (response.status >= 500)
          expect(
            sentences.some((one) => text.includes(escapeQuotes(one))),
            where,
          ).toBe(true);
        if (deed.rows) expect(await deed.rows(made), where).toBeLessThanOrEqual(1);
        expect(await findHalfWritten(), where).toEqual([]);
        tried++;
      }
    }
    expect(tried).toBeGreaterThan(9);
  });
});

const escapeQuotes = (sentence: string) => sentence.replaceAll("'", "&#39;");

test("records that never answer are waited for twenty seconds, and then there is a sentence", async () => {
  const { act, arm } = await enterFaulty();
  for (const at of [0, 2]) {
    vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout"] });
    arm(() => new Promise(() => {}), at);
    const asked = act("/editor/drafts", { title: "Stuck" });
    const answered = Promise.race([asked.then(() => true), Promise.resolve().then(() => false)]);
    expect(await answered).toBe(false);
    for (let waited = 0; waited < 25_000; waited += 1_000) {
      await new Promise((resolve) => setImmediate(resolve));
      await vi.advanceTimersByTimeAsync(1_000);
    }
    const response = await asked;
    vi.useRealTimers();
    expect(response.status).toBe(503);
  }
});
