import { existsSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { z } from "zod";
import { readText, root } from "./papers.ts";

const { scripts, engines, license } = z
  .object({
    scripts: z.record(z.string(), z.string()),
    engines: z.object({ node: z.string() }),
    license: z.string(),
  })
  .parse(JSON.parse(readText("package.json")));
const papers = { "README.md": readText("README.md"), "DEVELOPERS.md": readText("DEVELOPERS.md") };

describe("the two commands", () => {
  it.each(["start", "test"])("npm ci && npm %s stands in the README and exists", (name) => {
    expect(papers["README.md"]).toContain(`npm ci && npm ${name}`);
    expect(Object.keys(scripts)).toContain(name);
  });

  it("are what continuous integration runs", () => {
    expect(readText(".ci/run")).toMatch(/^npm ci\b.*\nnpm test$/m);
  });

  it("start the server at the address that the README names", () => {
    const [, port] = /http:\/\/localhost:(\d+)\//.exec(papers["README.md"]) ?? [];
    expect(readText("worker/commands/start.ts")).toContain(`"${port}"`);
  });
});

describe.each(Object.entries(papers))("%s", (_, paper) => {
  it("names only commands that exist", () => {
    const named = [...paper.matchAll(/\bnpm run (?:-s )?([a-z:]+)/g)].map(([, name]) => name);
    expect(named.filter((name) => scripts[name ?? ""] === undefined)).toEqual([]);
  });

  it("names only files and folders that exist", () => {
    const named = [...paper.matchAll(/`((?:content|flows|worker|widget|tests|\.ci)\/[\w./-]*)`/g)];
    const paths = named.map(([, path]) => path ?? "").filter((path) => !path.includes("generated"));
    expect(paths.length).toBeGreaterThan(0);
    expect(paths.filter((path) => !existsSync(join(root, path)))).toEqual([]);
  });
});

it("the README states the Node version and the licence of package.json", () => {
  expect(papers["README.md"]).toContain(`Node ${engines.node.replace(">=", "")}`);
  expect(papers["README.md"]).toMatch(new RegExp(`## Licence\\s+${license}\\b`));
});
