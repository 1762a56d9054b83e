import { join } from "node:path";
import { build } from "esbuild";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest";
import type { Edit } from "../../flows/editing/edit.ts";
import { addEntry, moveEvidence } from "../../flows/editing/entries.ts";
import { moveItem, setField } from "../../flows/editing/field.ts";
import { loadFiles, shippedContent } from "../flows/content/content-files.ts";
import { openChromium } from "./chromium.ts";

const origin = inject("origin");
const files = loadFiles(shippedContent);
let browser: Browser;
let page: Page;
const complaints: string[] = [];

beforeAll(async () => {
  browser = await openChromium();
  const context = await browser.newContext();
  page = await context.newPage();
  page.on("console", (message) => {
    if (/Content.Security|Trusted/i.test(message.text())) complaints.push(message.text());
  });
  // The client as its own script of the same origin: what a page of the room does.
  const { outputFiles } = await build({
    stdin: {
      contents: `import { startChecker } from "./checker-client.ts"; window.checker = startChecker();`,
      resolveDir: join(import.meta.dirname, "..", "..", "widget", "editor"),
    },
    ...{ bundle: true, write: false, format: "esm", target: "es2022" },
  });
  await page.route("**/assets/editor/sign-in.js", (route) =>
    route.fulfill({ contentType: "text/javascript", body: outputFiles[0]?.text ?? "" }),
  );
  await page.goto(`${origin}/editor/sign-in`);
  await page.waitForFunction("window.checker");
});
afterAll(() => browser.close());

interface Asked {
  ms: number;
  shares: number;
  outcome: { gives?: unknown; stopped?: true; refused?: string };
}

/** Asks the checker in the page; `stopAfter`: stops after so many reports of progress. */
function ask(name: string, asks: object, stopAfter = 0): Promise<Asked> {
  return page.evaluate(
    async ({ name, asks, stopAfter }) => {
      const { checker } = window as unknown as {
        checker: { ask(name: string, asks: object, options: object): Promise<Asked["outcome"]> };
      };
      const control = new AbortController();
      let shares = 0;
      const onProgress = () => {
        shares++;
        if (shares === stopAfter) control.abort();
      };
      const from = performance.now();
      const outcome = await checker.ask(name, asks, { onProgress, signal: control.signal });
      const plain = JSON.parse(
        JSON.stringify(outcome, (_, value) => (typeof value === "bigint" ? Number(value) : value)),
      );
      return { ms: performance.now() - from, shares, outcome: plain };
    },
    { name, asks, stopAfter },
  );
}

function done(edit: Edit): Record<string, string> {
  if (!edit.ok) throw new Error(edit.sentence);
  return edit.files;
}

interface Compared {
  same: boolean;
  pairs: number;
  differ: Record<string, number>;
  groups: { pairs: number }[];
}

async function compare(
  draft: Record<string, string>,
): Promise<{ seconds: number; shares: number; gives: Compared }> {
  const opened = await ask("open", { draft, live: files, liveNumber: 1 });
  expect(opened.outcome).toEqual({ gives: { problems: [] } });
  const { ms, shares, outcome } = await ask("compare", {});
  return { seconds: ms / 1000, shares, gives: outcome.gives as Compared };
}

describe("the checker in a Web Worker, under the policy of the room", () => {
  test("answers at once to a change of wording", async () => {
    const address = { file: "conditions/rust.md", path: ["sections", "willItLive"] };
    const { gives, seconds } = await compare(done(setField(files, address, "It will.")));
    expect(gives.same).toBe(true);
    expect(seconds).toBeLessThan(1);
    expect((await ask("changes", {})).outcome.gives).toMatchObject([
      { sentence: "Rust: the text “Will it live?” changed." },
    ]);
  });

  test("compares every conversation of the shipped content, with progress", {
    timeout: 600_000,
  }, async () => {
    const question = {
      prompt: "Is it far from a window?",
      why: "Light matters.",
      ask_when: { any: ["yellow-leaves"] },
      options: [{ id: "yes", label: "Yes", present: ["dim-place"] }],
    };
    const drafts = {
      "one evidence word": done(moveEvidence(files, "spider-mites", "pale-stippling", "hallmark")),
      "two questions reordered": done(
        moveItem(files, { file: "conversation.yaml", path: ["order"] }, 20, 21),
      ),
      "a new question": done(addEntry(files, "question", "far-from-window", question)),
    };
    for (const [name, draft] of Object.entries(drafts)) {
      const { gives, seconds, shares } = await compare(draft);
      console.log(
        `${name}: ${seconds.toFixed(1)} s, ${gives.pairs} pairs, ${JSON.stringify(gives.differ)}, ${gives.groups.length} groups`,
      );
      expect(gives.pairs).toBeGreaterThan(40_000_000);
      expect(gives.groups.length).toBeGreaterThan(0);
      expect(shares).toBeGreaterThan(5);
    }
    const explained = await ask("explain", { from: 0, count: 3 });
    expect(JSON.stringify(explained.outcome)).toContain("far-from-window");
  });

  test("stops when asked to, and goes on with the next", { timeout: 120_000 }, async () => {
    await ask("open", {
      draft: done(moveEvidence(files, "rust", "rusty-powder", "supports")),
      live: files,
      liveNumber: 1,
    });
    expect((await ask("compare", {}, 2)).outcome).toEqual({ stopped: true });
    expect((await ask("walk", {}, 2)).outcome).toEqual({ stopped: true });
    const edited = await ask("edit", {
      file: "weights.yaml",
      text: (files["weights.yaml"] ?? "").replace("reach: 5", "reach: x"),
    });
    expect(edited.outcome.gives).toMatchObject({ problems: [{ code: "TYPE_WRONG", path: ["reach"] }] });
    expect((await ask("compare", {})).outcome.refused).toMatch(/problems/);
  });

  test("breaks no rule of the policy", () => {
    expect(complaints).toEqual([]);
  });
});
