import { env } from "cloudflare:test";
import { parse } from "csv-parse/sync";
import { describe, expect, test } from "vitest";
import { type BenchFinding, recordFinding } from "../../worker/staff/bench-findings.ts";
import { openFreshApp } from "./fresh-app.ts";
import { makePerson, signIn } from "./sign-in.ts";

let made = 0;

async function write(parts: Partial<BenchFinding>): Promise<BenchFinding> {
  const finding: BenchFinding = {
    id: String(made++).padStart(40, "0"),
    corrects: null,
    edition: 1,
    code: "E01J",
    standing: "suspected",
    condition: "spider-mites",
    lead: 16,
    result: "confirmed",
    benchCondition: null,
    branch: "canal-street",
    day: "2026-11-25",
    ...parts,
  };
  expect(await recordFinding(env.DB, finding)).toBe("recorded");
  return finding;
}

async function openFigures() {
  const { ask, clock } = openFreshApp();
  const { key } = await makePerson("Ada", clock.now);
  const cookie = await signIn(ask, key);
  return { ask, read: (path: string) => ask(path, { headers: { cookie } }) };
}

/** The rows of a table of the page, as texts. */
function rowsOf(page: string, caption: string): string[][] {
  const [, table = ""] = page.split(`<caption class="st-unseen">${caption}</caption>`);
  const [, body = ""] = /<tbody>(.*?)<\/tbody>/.exec(table) ?? [];
  return [...body.matchAll(/<tr>(.*?)<\/tr>/g)].map(([, row = ""]) =>
    [...row.matchAll(/<t[hd][^>]*>(.*?)<\/t[hd]>/g)].map(([, cell = ""]) => cell),
  );
}

describe("the figures", () => {
  test("begin with a sentence, not with made-up numbers", async () => {
    const { read } = await openFigures();
    const page = await (await read("/desk/figures")).text();
    expect(page).toContain("Nothing has been recorded yet");
    expect(page).not.toContain("<svg");
  });

  test("count each sample once, by its latest line, and show the range", async () => {
    for (let i = 0; i < 9; i++) await write({});
    const slip = await write({ result: "not-detected" });
    await write({ corrects: slip.id, result: "something-else", benchCondition: "thrips" });
    const mistake = await write({ condition: "thrips" });
    await write({ corrects: mistake.id, condition: "thrips", result: "withdrawn" });
    await write({ standing: "leaning", lead: 4, result: "something-else" });
    await write({ standing: "undetermined", condition: null, lead: 0, result: "not-detected" });
    const { read } = await openFigures();
    const page = await (await read("/desk/figures")).text();
    // 9 of 10: the limits of the score interval are 0.5958 and 0.9821.
    expect(rowsOf(page, "By how sure the check was")).toEqual([
      ["Most likely", "10", "9", "90 %", "60 to 98 %"],
      ["Looks like", "1", "0", "0 %", "0 to 79 %"],
      ["Cannot tell; what came closest", "1", "0", "0 %", "0 to 79 %"],
    ]);
    expect(rowsOf(page, "By condition")).toEqual([
      ["Spider mites", "Most likely", "10", "9", "90 %", "60 to 98 %", "Thrips"],
      ["Spider mites", "Looks like", "1", "0", "0 %", "0 to 79 %", "Something that is not on our list"],
    ]);
    // A lead of 16 decibans is 39.8 to 1, one of 4 is 2.5 to 1.
    expect(rowsOf(page, "What was promised, and what came true")).toEqual([
      ["3 to 5", "72 %", "1", "0", "0 %", "0 to 79 %"],
      ["15 to 19", "98 %", "10", "9", "90 %", "60 to 98 %"],
    ]);
    expect(page.match(/<circle /g)).toHaveLength(2);
    expect(page).toContain("promised 98 %, confirmed 90 % of 10");
  });

  test("go along as a table that another program reads, every line of the book in it", async () => {
    const { read } = await openFigures();
    const response = await read("/desk/figures/bench-findings.csv");
    expect(response.headers.get("content-type")).toContain("text/csv");
    expect(response.headers.get("cache-control")).toBe("no-store");
    const rows = parse(await response.text(), { columns: true }) as Record<string, string>[];
    const stored = await env.DB.prepare("SELECT * FROM bench_findings ORDER BY rowid").all();
    expect(rows).toEqual(
      stored.results.map((row) =>
        Object.fromEntries(Object.entries(row).map(([name, value]) => [name, String(value ?? "")])),
      ),
    );
  });

  test("are about one branch and some days, and the files follow", async () => {
    await write({ branch: "north-yard", day: "2026-10-01" });
    await write({ branch: "north-yard", day: "2026-10-31", result: "not-detected" });
    await write({ branch: "north-yard", day: "2026-11-01" });
    const counts = [
      ["2026-10-31", "north-yard", 3],
      ["2026-11-01", "north-yard", 5],
      ["2026-10-31", "canal-street", 7],
    ] as const;
    for (const [day, branch, count] of counts)
      await env.DB.prepare("INSERT INTO counts VALUES (?1, ?2, 'page', 'started', '', ?3)")
        .bind(day, branch, count)
        .run();
    const { read } = await openFigures();
    const query = "?branch=north-yard&from=2026-10-01&to=2026-10-31";
    const page = await (await read(`/desk/figures${query}`)).text();
    expect(rowsOf(page, "By how sure the check was")).toEqual([
      ["Most likely", "2", "1", "50 %", expect.any(String)],
    ]);
    expect(rowsOf(page, "Checks without people")[0]).toEqual(["Started", "3"]);
    expect(page).toContain('<option value="north-yard" selected');
    expect(page).toContain('name="from" type="date" value="2026-10-01"');
    for (const [name, length] of [
      ["bench-findings", 2],
      ["counts", 1],
    ] as const) {
      expect(page).toContain(`href="/desk/figures/${name}.csv${query.replaceAll("&", "&amp;")}"`);
      const file = await read(`/desk/figures/${name}.csv${query}`);
      expect(file.headers.get("content-disposition")).toContain(
        `"${name}-north-yard-2026-10-01-2026-10-31.csv"`,
      );
      const rows = parse(await file.text(), { columns: true }) as Record<string, string>[];
      expect(rows.map(({ branch }) => branch)).toEqual(Array(length).fill("north-yard"));
      expect(rows.every(({ day = "" }) => day >= "2026-10-01" && day <= "2026-10-31")).toBe(true);
    }
    const empty = await (await read("/desk/figures?to=2020-01-01")).text();
    expect(empty).toContain("Nothing was recorded for this branch and these days.");
  });

  test.each([
    ["from=31.2.2026", "“31.2.2026” is no day."],
    ["to=2026-02-30", "“2026-02-30” is no day."],
    ["from=2026-10-02&to=2026-10-01", "The last day comes before the first."],
    ["branch=nowhere", "We have no branch “nowhere”."],
    ["from=%22%3E%3Cscript%3E", "is no day."],
  ])(
    "tell what is wrong with %s, keep it in its field, and give no file of something else",
    async (query, sentence) => {
      const { read } = await openFigures();
      const response = await read(`/desk/figures?${query}`);
      expect(response.status).toBe(200);
      const page = await response.text();
      expect(page).toContain(sentence);
      expect(page).toContain('aria-invalid="true"');
      expect(page).not.toContain("<script>");
      if (query.startsWith("from=31")) expect(page).toContain('type="text" value="31.2.2026"');
      const file = await read(`/desk/figures/counts.csv?${query}`);
      expect(file.status).toBe(400);
      expect(await file.text()).toContain(sentence);
    },
  );

  test("are for those who are signed in", async () => {
    const { ask } = openFreshApp();
    for (const path of ["/desk/figures", "/desk/figures/bench-findings.csv", "/desk/figures/"]) {
      const response = await ask(path);
      expect([403, 404]).toContain(response.status);
      expect(await response.text()).not.toContain("E01J");
    }
  });
});
