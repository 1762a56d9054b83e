import { env } from "cloudflare:test";
import { afterEach, describe, expect, test, vi } from "vitest";
import { writeCode } from "../../flows/case-code.ts";
import { readLink } from "../../flows/case-link.ts";
import { alternativesTo } from "../../flows/desk/mishearing.ts";
import type { Edition } from "../../flows/edition.ts";
import { openFlow } from "../../flows/flow.ts";
import { dayAtShop } from "../../worker/staff/shop-day.ts";
import { bundled, openFreshApp, publish, renumber } from "./fresh-app.ts";
import { makePerson, send, signIn } from "./sign-in.ts";

const flow = openFlow(bundled as Edition);
const query = "e=1&what-you-see=marks&host=basil&mark-look=stipple&tap-test=dots&traces=webs&air=dry";
const codeOf = (text: string) => writeCode(flow, readLink(flow, text).case);
const mites = codeOf(query);
const nothing = codeOf("e=1&what-you-see=not-sure");
const NOON = Date.parse("2026-11-25T17:00:00Z");

afterEach(() => {
  vi.restoreAllMocks();
});

async function openCounter(bindings?: { DB?: D1Database }) {
  const { ask, clock } = openFreshApp(bindings);
  clock.now = NOON;
  const { key } = await makePerson("Ada", NOON);
  const cookie = await signIn(ask, key);
  const read = async (path: string, status = 200) => {
    let response = await ask(path, { headers: { cookie } });
    if (response.status === 303)
      response = await ask(response.headers.get("location") ?? "", { headers: { cookie } });
    expect(response.status, path).toBe(status);
    return (await response.text()).replaceAll("&amp;", "&");
  };
  const fill = async (code = mites, more = "") => {
    const page = await read(`/desk/counter?code=${encodeURIComponent(code)}${more}`);
    const [, id = ""] = /name="id" value="([0-9a-f]{40})"/.exec(page) ?? [];
    const [, corrects = ""] = /name="corrects" value="([^"]*)"/.exec(page) ?? [];
    return { code, id, corrects, result: "confirmed", other: "", branch: "canal-street", day: "2026-11-25" };
  };
  const record = (fields: Record<string, string>) => ask("/desk/counter", send(fields, { cookie }));
  return { ask, clock, cookie, read, fill, record };
}

const rowsOf = async (code: string) =>
  (await env.DB.prepare("SELECT * FROM bench_findings WHERE code = ?1").bind(code).all()).results;

describe("the counter", () => {
  test("shows nothing to those who are not signed in", async () => {
    const { ask } = openFreshApp();
    const response = await ask(`/desk/counter?code=${mites}`);
    expect(response.status).toBe(403);
    const page = await response.text();
    expect(page).not.toContain("Tap");
    expect(page).toContain(`value="/desk/counter?code=${mites}"`);
    expect((await ask("/desk/counter", send(await (await openCounter()).fill()))).status).toBe(403);
    expect(await rowsOf(mites)).toEqual([]);
  });

  test.each([
    ["the code", mites],
    ["the code in another shape", ` ${mites.toLowerCase().replace(/(.)/g, "$1-").replace(/-$/, "")} `],
    ["the link that a scanner types", `https://shop.example/check?${query}`],
    ["the address of the code", `https://shop.example/c/${encodeURIComponent(mites)}`],
  ])("opens a case by %s", async (_name, typed) => {
    const { read } = await openCounter();
    const page = await read(`/desk/counter?code=${encodeURIComponent(typed)}`);
    expect(page).toContain(`Case ${mites}`);
    expect(page).toContain("This is most likely: Spider mites");
    expect(page).toContain("Confirmed: Spider mites");
    expect(page).toContain("The check that tells");
    for (const { prompt } of bundled.questions.filter(({ id }) => query.includes(`&${id}=`)))
      expect(page).toContain(prompt.replaceAll("'", "&#39;"));
  });

  test("points at what a code typed wrong may have been, and keeps the branch", async () => {
    const { read } = await openCounter();
    const misread = [...mites].flatMap((symbol, at) =>
      alternativesTo(symbol).map((other) => mites.slice(0, at) + other + mites.slice(at + 1)),
    )[0];
    const page = await read(`/desk/counter?code=${misread}&branch=canal-street`, 404);
    expect(page).toContain("It may be one of these.");
    expect(page).toContain(`href="/desk/counter?code=${encodeURIComponent(mites)}&branch=canal-street"`);
    expect(page).toContain("Basil; Spots, patches or marks on leaves");
  });

  test.each([
    ["half a code", mites.slice(0, 4), "One character of the code"],
    ["a code with a strange sign", `${mites.slice(0, 3)}é${mites.slice(4)}`, "Our codes hold no"],
    [
      "a code of an edition that is gone",
      writeCode({ ...flow, edition: { ...flow.edition, number: 44 } }, { edition: 44, answers: [] }),
      "from an edition we no longer have",
    ],
    ["a link without answers", "https://shop.example/check?e=1", "This link holds no answers"],
    ["markup", "<script>alert(1)</script>", "Our codes hold no"],
  ])("says what is wrong with %s, and keeps it in its field", async (_name, typed, sentence) => {
    const { read } = await openCounter();
    const page = await read(`/desk/counter?code=${encodeURIComponent(typed)}`, 404);
    expect(page).toContain(sentence);
    expect(page).toContain(
      `value="${typed.replaceAll("<", "&lt;").replaceAll(">", "&gt;").replaceAll("&amp;", "&")}"`,
    );
    expect(page).not.toContain("<script>alert");
  });

  test("shows an older edition's case as it was said then, and says so", async () => {
    await publish(bundled as Edition);
    const names = bundled.conditions.map((one) =>
      one.id === "spider-mites" ? { ...one, name: "tiny red ones" } : one,
    );
    await publish(renumber(2, { conditions: names as Edition["conditions"] }));
    const { read, fill, record } = await openCounter();
    const page = await read(`/desk/counter?code=${mites}`);
    expect(page).toContain("The shopper used guide number 1, which is not today’s");
    expect(page).toContain("This is most likely: Spider mites");
    expect((await record(await fill())).status).toBe(303);
    expect(await rowsOf(mites)).toMatchObject([{ edition: 1, condition: "spider-mites" }]);
    const gone = await read(
      `/desk/counter?code=${encodeURIComponent("/check?e=77&host=basil&fine-webbing")}`,
    );
    expect(gone).toContain("guide number 77, which we no longer have");
    await env.DB.batch([env.DB.prepare("DELETE FROM live"), env.DB.prepare("DELETE FROM editions")]);
  });
});

describe("a bench finding", () => {
  test("is one line with the case, what was said, what is seen, branch and day, and nobody's name", async () => {
    const { fill, record, read } = await openCounter();
    const code = codeOf(`${query}&host=pothos`.replace("host=basil&", ""));
    const response = await record(await fill(code));
    expect(response.status).toBe(303);
    const [row, ...more] = await rowsOf(code);
    expect(more).toEqual([]);
    expect(row).toEqual({
      id: expect.stringMatching(/^[0-9a-f]{40}$/),
      corrects: null,
      edition: 1,
      code,
      standing: "suspected",
      condition: "spider-mites",
      lead: expect.any(Number),
      result: "confirmed",
      bench_condition: null,
      branch: "canal-street",
      day: "2026-11-25",
    });
    const done = await read(response.headers.get("location") ?? "");
    expect(done).toContain(`Recorded: ${code}, Confirmed: Spider mites, Canal Street, Wed, Nov 25.`);
    expect(done).toContain('<input type="hidden" name="branch" value="canal-street"/>');
  });

  test("sent twice is recorded once; sent again with another result it is not changed", async () => {
    const { fill, record } = await openCounter();
    const code = codeOf("e=1&what-you-see=marks&host=mint");
    const form = { ...(await fill(code)), result: "not-detected" };
    const both = await Promise.all([record(form), record(form)]);
    expect(both.map(({ status }) => status)).toEqual([303, 303]);
    expect((await record(form)).status).toBe(303);
    const other = await record({ ...form, result: "something-else", other: "thrips" });
    expect(other.status).toBe(409);
    expect(await other.text()).toContain("has recorded something else before");
    expect(await rowsOf(code)).toMatchObject([{ result: "not-detected" }]);
  });

  test("is corrected by a new line, once, and can be taken out", async () => {
    const { fill, record, read } = await openCounter();
    const code = codeOf("e=1&what-you-see=marks&host=lemon-balm");
    const first = { ...(await fill(code)), result: "not-detected" };
    await record(first);
    const correcting = await fill(code, `&corrects=${first.id}`);
    expect(correcting).toMatchObject({ corrects: first.id });
    const fixed = { ...correcting, result: "something-else", other: "not.listed" };
    const late = { ...(await fill(code, `&corrects=${first.id}`)), result: "withdrawn" };
    expect((await record(fixed)).status).toBe(303);
    const refused = await record(late);
    expect([refused.status, await refused.text()]).toEqual([
      409,
      expect.stringContaining("Someone has corrected this finding already"),
    ]);
    const page = await read(`/desk/counter?code=${code}`);
    expect(page).toContain("Something else: Something that is not on our list");
    expect(page.match(/class="lt-line"/g)).toHaveLength(1);
    const out = { ...(await fill(code, `&corrects=${fixed.id}`)), result: "withdrawn" };
    expect((await record(out)).status).toBe(303);
    expect((await rowsOf(code)).map(({ result }) => result)).toEqual([
      "not-detected",
      "something-else",
      "withdrawn",
    ]);
    const unknown = { ...(await fill(code)), corrects: "a".repeat(40) };
    expect((await record(unknown)).status).toBe(409);
    const otherCase = { ...(await fill(mites)), corrects: out.id };
    expect((await record(otherCase)).status).toBe(409);
  });

  test("is never changed or deleted, not even by hand", async () => {
    const { fill, record } = await openCounter();
    await record(await fill());
    await expect(env.DB.prepare("UPDATE bench_findings SET result = 'not-detected'").run()).rejects.toThrow(
      /never changed/,
    );
    await expect(env.DB.prepare("DELETE FROM bench_findings").run()).rejects.toThrow(/never deleted/);
    const before = (await env.DB.prepare("SELECT * FROM bench_findings").all()).results;
    for (const id of ["id", "'another'"]) {
      const replace = `INSERT OR REPLACE INTO bench_findings (rowid, id, corrects, edition, code, standing, condition, lead, result, branch, day)
        SELECT rowid, ${id}, corrects, edition, code, standing, condition, lead, 'not-detected', branch, day FROM bench_findings`;
      await env.DB.prepare(replace).run();
      await env.DB.prepare(replace.replaceAll(/rowid, /g, ""))
        .run()
        .catch(() => {});
    }
    const after = (await env.DB.prepare("SELECT * FROM bench_findings").all()).results;
    expect(after.slice(0, before.length)).toEqual(before);
  });

  test.each([
    ["no result", { result: "" }, "Please say what the bench sees"],
    ["a result that is none", { result: "perhaps" }, "Please say what the bench sees"],
    ["taking out what was never recorded", { result: "withdrawn" }, "Please say what the bench sees"],
    ["something else without saying what", { result: "something-else" }, "which condition it is"],
    [
      "a condition that does not exist",
      { result: "something-else", other: "constructor" },
      "which condition it is",
    ],
    [
      "something else that is the same",
      { result: "something-else", other: "spider-mites" },
      "choose “Confirmed”",
    ],
    ["a condition beside another result", { other: "thrips" }, "make it one or the other"],
    ["no branch", { branch: "" }, "choose the branch"],
    ["a branch that does not exist", { branch: "__proto__" }, "choose the branch"],
    ["tomorrow", { day: "2026-11-26" }, "not in the future"],
    ["a day of two years ago", { day: "2024-11-25" }, "not more than a year ago"],
    ["a day that does not exist", { day: "2026-02-30" }, "Please give the day"],
    ["an id that is not ours", { id: "1" }, "This form is not from here"],
  ])("with %s is asked again, with the rest kept", async (_name, change, sentence) => {
    const { fill, record } = await openCounter();
    const response = await record({ ...(await fill()), ...change });
    const page = await response.text();
    expect(response.status).toBe(422);
    expect(page).toContain(sentence);
    expect(page).toContain('aria-invalid="true"'.slice(0, _name.startsWith("an id") ? 0 : undefined));
    if (!("branch" in change)) expect(page).toContain('<option value="canal-street" selected="">');
    if (!("result" in change)) expect(page).toContain('value="confirmed" checked=""');
  });

  test("cannot confirm where the check named nothing", async () => {
    const { fill, record, read } = await openCounter();
    expect(await read(`/desk/counter?code=${nothing}`)).not.toContain('value="confirmed"');
    const response = await record(await fill(nothing));
    expect([response.status, await response.text()]).toEqual([422, expect.stringContaining("named nothing")]);
  });

  test("survives the records being away: the form comes back as it was", async () => {
    vi.spyOn(console, "error").mockImplementation(() => {});
    const { fill, record } = await openCounter();
    const form = await fill();
    await env.DB.exec("ALTER TABLE bench_findings RENAME TO away");
    const response = await record(form);
    await env.DB.exec("ALTER TABLE away RENAME TO bench_findings");
    const page = await response.text();
    expect(response.status).toBe(503);
    expect(page).toContain("Nothing is lost");
    expect(page).toContain(`name="id" value="${form.id}"`);
    expect(page).toContain('value="confirmed" checked=""');
  });

  test("survives a session that ended: after the sign-in the form is filled in again", async () => {
    const { ask, clock, read, fill, cookie } = await openCounter();
    const form = { ...(await fill()), result: "something-else", other: "thrips", branch: "north-yard" };
    clock.now += 3 * 3_600_000;
    const refused = await ask("/desk/counter", send(form, { cookie }));
    expect(refused.status).toBe(403);
    const [, next = ""] = /name="next" value="([^"]*)"/.exec(await refused.text()) ?? [];
    const { key } = await makePerson("Bea", clock.now);
    const entered = await ask("/desk/sign-in", send({ key, next: next.replaceAll("&amp;", "&") }));
    const again = await ask(entered.headers.get("location") ?? "", {
      headers: { cookie: entered.headers.get("set-cookie")?.split(";")[0] ?? "" },
    });
    const page = await again.text();
    expect(page).toContain(`name="id" value="${form.id}"`);
    expect(page).toContain('value="something-else" checked=""');
    expect(page).toContain('<option value="thrips" selected="">');
    expect(page).toContain('<option value="north-yard" selected="">');
    await read("/desk/counter", 403);
  });
});

test("the day at the shop is its own, not the one in Greenwich", () => {
  const shop = { name: "", strapline: "", branches: [], poisonHelp: "" };
  const late = Date.parse("2026-11-26T03:00:00Z");
  expect(dayAtShop({ ...shop, timeZone: "America/New_York" }, late)).toBe("2026-11-25");
  expect(dayAtShop({ ...shop, timeZone: "Asia/Tokyo" }, late)).toBe("2026-11-26");
  expect(dayAtShop(shop, late)).toBe("2026-11-26");
});
