import { readdirSync, readFileSync } from "node:fs";
import { join, relative } from "node:path";
import { parse } from "acorn";
import { simple } from "acorn-walk";
import { transformSync } from "esbuild";
import { checkSync } from "recheck";
import { describe, expect, it } from "vitest";

const root = join(import.meta.dirname, "..", "..");

/** Every regular expression that stands in the sources, with the files it stands in. */
function expressionsOf(folders: readonly string[]): Map<string, string[]> {
  const found = new Map<string, string[]>();
  for (const folder of folders) {
    for (const entry of readdirSync(join(root, folder), { recursive: true, withFileTypes: true })) {
      if (!entry.isFile() || !/\.tsx?$/.test(entry.name) || entry.parentPath.includes("generated")) continue;
      const path = join(entry.parentPath, entry.name);
      const { code } = transformSync(readFileSync(path, "utf8"), {
        loader: entry.name.endsWith("x") ? "tsx" : "ts",
        jsx: "automatic",
      });
      simple(parse(code, { ecmaVersion: "latest", sourceType: "module" }), {
        Literal(node) {
          if (!node.regex) return;
          const key = JSON.stringify([node.regex.pattern, node.regex.flags]);
          found.set(key, [...(found.get(key) ?? []), relative(root, path)]);
        },
      });
    }
  }
  return found;
}

describe("regular expressions", () => {
  const expressions = expressionsOf(["flows", "worker", "widget"]);

  it("are found", () => {
    expect(expressions.size).toBeGreaterThan(30);
  });

  // Source of the judgement: recheck, which proves the matching time linear or builds an attack and tries it.
  it.each([...expressions])("%s in %j takes no more than linear time", (key, files) => {
    const [pattern, flags] = JSON.parse(key) as [string, string];
    const judged = checkSync(pattern, flags, { timeout: 20_000 });
    expect({
      files,
      status: judged.status,
      why: judged.status === "vulnerable" ? judged.attack : null,
    }).toEqual({
      files,
      status: "safe",
      why: null,
    });
  });
});
