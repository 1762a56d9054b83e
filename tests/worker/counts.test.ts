import { createExecutionContext, env, waitOnExecutionContext } from "cloudflare:test";
import { parse } from "csv-parse/sync";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { openFreshApp, publish, renumber, watchDatabase } from "./fresh-app.ts";
import { makePerson, signIn } from "./sign-in.ts";

const NOON = Date.parse("2026-11-25T17:00:00Z");
const navigation = { "sec-fetch-mode": "navigate", "sec-fetch-dest": "document" };
const press = { ...navigation, "sec-fetch-site": "same-origin" };
const opened = { ...navigation, "sec-fetch-site": "none" };
const case1 = "/check?e=1&what-you-see=marks";
const case2 = `${case1}&host=not-sure`;
const whole = "/check?e=1&what-you-see=marks&host=basil&mark-look=stipple&tap-test=dots&traces=webs&air=dry";

beforeEach(async () => {
  await env.DB.exec("DELETE FROM counts");
});

afterEach(() => {
  vi.restoreAllMocks();
});

function openApp(bindings: { DB?: D1Database } = { DB: env.DB }) {
  const { app, clock } = openFreshApp();
  clock.now = NOON;
  const ask = async (path: string, init: RequestInit = {}) => {
    const context = createExecutionContext();
    const response = await app.request(`https://shop.example${path}`, init, bindings, context);
    await waitOnExecutionContext(context);
    return response;
  };
  const view = async (path: string, headers: Record<string, string>, method = "GET") =>
    (await ask(path, { headers, method })).status;
  const tell = (body: unknown, headers: Record<string, string> = {}) =>
    ask("/api/counts", {
      method: "POST",
      headers: { "content-type": "text/plain;charset=UTF-8", ...headers },
      body: typeof body === "string" ? body : JSON.stringify(body),
    });
  return { ask, clock, view, tell };
}

async function readAll(): Promise<Record<string, number>> {
  const { results } = await env.DB.prepare("SELECT day, branch, source, name, what, count FROM counts").all<{
    day: string;
    branch: string;
    source: string;
    name: string;
    what: string;
    count: number;
  }>();
  return Object.fromEntries(
    results.map(({ count, ...key }) => [Object.values(key).filter(Boolean).join(" "), count]),
  );
}

describe("a page", () => {
  test("is counted step by step, to the verdict", async () => {
    const { view } = openApp();
    for (const [path, headers] of [
      ["/check", opened],
      [case1, press],
      [case2, press],
      [whole, press],
    ] as const)
      expect(await view(path, headers)).toBe(200);
    const day = "2026-11-25 page";
    expect(await readAll()).toMatchObject({
      [`${day} started`]: 1,
      [`${day} shown what-you-see`]: 1,
      [`${day} answered what-you-see`]: 1,
      [`${day} shown host`]: 1,
      [`${day} answered host`]: 1,
      [`${day} unsure host`]: 1,
    });
  });

  test("counts the verdict with its standing, once", async () => {
    const { ask, view } = openApp();
    let path = "/check?e=1";
    for (let i = 0; i < 20; i++) {
      const answer = await (await ask(path.replace("/check", "/api/case"))).json<{
        next: { id: string } | null;
        link: string;
      }>();
      if (answer.next === null) break;
      path = `${answer.link}&${answer.next.id}=not-sure`;
    }
    await view(path, press);
    await view(`${path}&room=20C`, press);
    await view(`${path}&look=later`, press);
    expect(await readAll()).toMatchObject({
      "2026-11-25 page finished": 1,
      "2026-11-25 page verdict undetermined": 1,
    });
  });

  test.each([
    ["a link that was sent", case1, { ...navigation, "sec-fetch-site": "cross-site" }],
    ["a link that was typed", case1, opened],
    ["a reload", case1, { ...press, "cache-control": "max-age=0" }],
    ["a page fetched ahead", "/check", { ...opened, "sec-purpose": "prefetch" }],
    ["a robot, or a browser that tells nothing", "/check", {}],
    ["an answer being changed", `${case2}&change=host`, press],
    ["a name being searched", `${case1}&plant=xyzzy`, press],
    ["a reader who says no (Global Privacy Control)", "/check", { ...opened, "sec-gpc": "1" }],
    ["a look at the head alone", "/check", { ...opened, method: "HEAD" }],
  ])("is not counted for %s", async (_name, path, { method = "GET", ...headers }: Record<string, string>) => {
    const { view } = openApp();
    expect(await view(path, headers, method)).toBe(200);
    expect(await readAll()).toEqual({});
  });

  test("is shown all the same when counting fails, is slow, or has no database", async () => {
    const complaint = vi.spyOn(console, "error").mockImplementation(() => {});
    await env.DB.exec("ALTER TABLE counts RENAME TO away");
    expect(await openApp().view("/check", opened)).toBe(200);
    expect(await openApp().view("/check", opened)).toBe(200);
    await env.DB.exec("ALTER TABLE away RENAME TO counts");
    expect(complaint).toHaveBeenCalledWith("A visit could not be counted.", expect.anything());
    expect(await openApp({}).view("/check", opened)).toBe(200);
    const { app } = openFreshApp();
    const stuck = new Proxy(env.DB, {
      get: (target, name) =>
        name === "prepare"
          ? (sql: string) =>
              sql.includes("counts")
                ? { bind: () => ({ run: () => new Promise(() => {}) }) }
                : target.prepare(sql)
          : Reflect.get(target, name),
    });
    const context = createExecutionContext();
    const slow = await app.request("https://shop.example/check", { headers: opened }, { DB: stuck }, context);
    expect(slow.status).toBe(200);
  });

  test("costs one write behind the answer, and no read of its own", async () => {
    const watched = watchDatabase(env.DB);
    const { view } = openApp({ DB: watched.database });
    await view("/check", opened);
    expect(watched.reads()).toBe(2);
    await view(case1, press);
    expect(watched.reads()).toBe(4);
  });

  test("is not counted where the shop has switched it off", async () => {
    const { shop } = renumber(2);
    await publish(renumber(2, { shop: { ...shop, countVisits: false } }));
    const { view, tell } = openApp();
    await view("/check", opened);
    expect((await tell({ started: true })).status).toBe(204);
    expect(await readAll()).toEqual({});
    await env.DB.batch([env.DB.prepare("DELETE FROM live"), env.DB.prepare("DELETE FROM editions")]);
  });
});

describe("the element", () => {
  test("tells what is added up, by day and branch", async () => {
    const { tell, clock } = openApp();
    const first = { branch: "north-yard", started: true, shown: ["what-you-see"], answered: [], unsure: [] };
    expect((await tell(first)).status).toBe(204);
    expect((await tell(first)).status).toBe(204);
    const more = {
      branch: "north-yard",
      shown: ["host"],
      answered: ["what-you-see", "host"],
      unsure: ["host"],
    };
    await tell({ ...more, standing: "suspected", condition: "thrips" });
    clock.now += 86_400_000;
    await tell({ ...more, branch: "nowhere" });
    const [day, next] = ["2026-11-25 north-yard element", "2026-11-26 element"];
    expect(await readAll()).toEqual({
      [`${day} started`]: 2,
      [`${day} shown what-you-see`]: 2,
      [`${day} shown host`]: 1,
      [`${day} answered what-you-see`]: 1,
      [`${day} answered host`]: 1,
      [`${day} unsure host`]: 1,
      [`${day} finished`]: 1,
      [`${day} verdict suspected thrips`]: 1,
      [`${next} shown host`]: 1,
      [`${next} answered what-you-see`]: 1,
      [`${next} answered host`]: 1,
      [`${next} unsure host`]: 1,
    });
  });

  test.each([
    ["an unknown question", { shown: ["nobody"] }],
    ["a prototype's name", { shown: ["__proto__"] }],
    ["an answer", { answered: [{ to: "host", is: "basil" }] }],
    ["an unknown standing", { standing: "confirmed" }],
    ["an unknown condition", { standing: "leaning", condition: "my plant" }],
    ["a condition without a standing", { condition: "thrips" }],
    ["anything else", { started: true, name: "Ada" }],
    ["a list too long", { shown: Array(41).fill("host") }],
    ["no object", [1]],
    ["no JSON", "{"],
    ["nothing", ""],
  ])("is refused with %s, and nothing is counted", async (_name, body) => {
    const response = await openApp().tell(body);
    expect(response.status).toBe(422);
    expect(await response.json()).toMatchObject({ type: "urn:leafturn:problem:unexpected-body" });
    expect(await readAll()).toEqual({});
  });

  test("is not counted when the reader says no, however large or odd the body", async () => {
    const { tell } = openApp();
    expect((await tell({ started: true }, { "sec-gpc": "1" })).status).toBe(204);
    expect(await readAll()).toEqual({});
    expect((await tell("x".repeat(3000))).status).toBe(413);
  });

  test("waits when too much comes from one place", async () => {
    const { tell, clock } = openApp();
    const from = { "cf-connecting-ip": "192.0.2.7" };
    for (let i = 0; i < 299; i++) await tell("{", from);
    expect((await tell({ started: true }, from)).status).toBe(204);
    const shut = await tell({ started: true }, from);
    expect([shut.status, shut.headers.get("retry-after")]).toEqual([429, "60"]);
    expect((await tell({ started: true }, { "cf-connecting-ip": "192.0.2.8" })).status).toBe(204);
    clock.now += 60_000;
    expect((await tell({ started: true }, from)).status).toBe(204);
    expect(await readAll()).toEqual({ "2026-11-25 element started": 3 });
  }, 30_000);

  test("gets a 204 also when the records are away", async () => {
    vi.spyOn(console, "error").mockImplementation(() => {});
    await env.DB.exec("ALTER TABLE counts RENAME TO away");
    expect((await openApp().tell({ started: true })).status).toBe(204);
    await env.DB.exec("ALTER TABLE away RENAME TO counts");
    expect((await openApp({}).tell({ started: true })).status).toBe(204);
  });
});

describe("what is kept", () => {
  test("has no room for anything about a person", async () => {
    const { results } = await env.DB.prepare("PRAGMA table_info(counts)").all<{ name: string }>();
    expect(results.map(({ name }) => name)).toEqual(["day", "branch", "source", "name", "what", "count"]);
  });

  test("is shown to staff and goes along as CSV", async () => {
    const { ask, tell, view } = openApp();
    for (let i = 0; i < 3; i++)
      await tell({
        started: true,
        shown: ["host", "air"],
        answered: ["host"],
        unsure: i > 0 ? ["host"] : [],
      });
    await view("/check", opened);
    await tell({ standing: "leaning", condition: "thrips" });
    const cookie = await signIn(async (path, init) => ask(path, init), (await makePerson("Ada", NOON)).key);
    const page = await (await ask("/desk/figures", { headers: { cookie } })).text();
    const [, table = ""] = page.split(
      "Questions: where people stop, and what they are not sure of</caption>",
    );
    const rows = [...(table.split("</table>")[0]?.matchAll(/<tr>(.*?)<\/tr>/g) ?? [])].map(([, row = ""]) =>
      [...row.matchAll(/>([^<]+)</g)].map(([, cell]) => cell),
    );
    expect(rows.slice(1)).toEqual([
      ["Which plant is it?", "3", "0", "2", "67 %"],
      [expect.any(String), "3", "3", "0"],
      [expect.any(String), "1", "1", "0"],
    ]);
    expect(page).toContain("<td>Looks like</td>");
    const file = await (await ask("/desk/figures/counts.csv", { headers: { cookie } })).text();
    const read = parse(file, { columns: true }) as Record<string, string>[];
    expect(read).toContainEqual({
      day: "2026-11-25",
      branch: "",
      source: "element",
      name: "unsure",
      what: "host",
      count: "2",
    });
    expect(read).toHaveLength((await env.DB.prepare("SELECT * FROM counts").all()).results.length);
    expect((await ask("/desk/figures/counts.csv")).status).toBe(403);
  });
});
