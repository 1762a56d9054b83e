import { posix } from "node:path";
import { describe, expect, it } from "vitest";
import { projectFiles, readText, root } from "./papers.ts";

const files = projectFiles();
const sources = files.filter((path) => /\.(ts|tsx|js|mjs)$/.test(path));

interface Import {
  from: string;
  /** A path from the top of the project, or the name of a package. */
  to: string;
  isOurs: boolean;
}

const statements = [
  /^\s*(?:import|export)\b[^;"']*?\bfrom\s*"([^"]+)"/gm,
  /^\s*import\s*"([^"]+)"/gm,
  /\bimport\(\s*"([^"]+)"\s*\)/g,
];

function readImports(path: string, text: string): Import[] {
  return statements
    .flatMap((statement) => [...text.matchAll(statement)].map(([, name]) => name ?? ""))
    .map((name) => {
      const isOurs = name.startsWith(".");
      return { from: path, to: isOurs ? posix.join(posix.dirname(path), name) : name, isOurs };
    });
}

const imports = sources.flatMap((path) => readImports(path, readText(path)));
const importsIn = (folder: string) => imports.filter(({ from }) => from.startsWith(`${folder}/`));

/** What is not allowed, as "file → target". */
function strays(some: readonly Import[], ours: RegExp, packages: RegExp): string[] {
  return some
    .filter(({ to, isOurs }) => !(isOurs ? ours : packages).test(to))
    .map(({ from, to }) => `${from} → ${to}`);
}

const none = /^(?!)/;

describe("imports", () => {
  it("are found in every way of writing them", () => {
    const text = `import a from "./a.ts";\nimport type {\n  B,\n} from "../b.ts";\nexport { c } from "c";\nimport "d";\nawait import("e");`;
    expect(readImports("flows/walk/x.ts", text).map(({ to }) => to)).toEqual([
      "flows/walk/a.ts",
      "flows/b.ts",
      "c",
      "d",
      "e",
    ]);
    expect(imports.length).toBeGreaterThan(300);
  });

  it("content holds no code", () => {
    expect(sources.filter((path) => path.startsWith("content/"))).toEqual([]);
  });

  it("flows sees flows and its few libraries", () => {
    expect(strays(importsIn("flows"), /^flows\//, /^(zod|yaml|marked|saxes|xstate|stemmer|fflate)$/)).toEqual(
      [],
    );
  });

  it("what runs in flows does not see how content is read or edited", () => {
    const runTime = importsIn("flows").filter(({ from }) => !/^flows\/(content|editing)\//.test(from));
    expect(strays(runTime, /^flows\/(?!content\/|editing\/)/, /^(xstate|stemmer)$/)).toEqual([]);
    const reading = importsIn("flows").filter(({ from }) => from.startsWith("flows/content/"));
    expect(strays(reading, /^flows\/(?!editing\/)/, /^(zod|yaml|marked|saxes)$/)).toEqual([]);
  });

  it("widget sees itself and what runs in flows", () => {
    const shopper = importsIn("widget").filter(({ from }) => !from.startsWith("widget/editor/"));
    const own = /^(widget\/(?!editor\/)|flows\/(?!content\/|editing\/))/;
    expect(strays(shopper, own, /^(hono|hono\/.*|qrcode-generator)$/)).toEqual([]);
  });

  it("the editor's scripts may read and edit content as well", () => {
    const editor = importsIn("widget").filter(({ from }) => from.startsWith("widget/editor/"));
    expect(strays(editor, /^(widget|flows)\//, /^(hono|hono\/.*|zod|@simplewebauthn\/browser)$/)).toEqual([]);
  });

  it("no library of the reader or the statechart reaches the shopper's browser by a detour", () => {
    const reached = new Set(
      sources.filter((path) => path.startsWith("widget/") && !path.startsWith("widget/editor/")),
    );
    for (const path of reached) {
      for (const { from, to, isOurs } of imports) if (from === path && isOurs) reached.add(to);
    }
    const packages = imports.filter(({ from, isOurs }) => reached.has(from) && !isOurs);
    expect(strays(packages, none, /^(hono|hono\/.*|qrcode-generator|stemmer)$/)).toEqual([]);
  });

  it("the served part of worker sees flows, the views and hono", () => {
    const served = importsIn("worker").filter(({ from }) => !/^worker\/(commands\/|build)/.test(from));
    expect(
      strays(
        served,
        /^(flows|worker|widget\/(views|check))\//,
        /^(hono|hono\/.*|qrcode-generator|@dagrejs\/dagre|@simplewebauthn\/server)$/,
      ),
    ).toEqual([]);
  });

  it("commands and builds may use Node and their tools as well", () => {
    const tools = importsIn("worker").filter(({ from }) => /^worker\/(commands\/|build)/.test(from));
    expect(
      strays(tools, /^(flows|worker|widget)\//, /^(node:.*|esbuild|@viz-js\/viz|hono|hono\/.*)$/),
    ).toEqual([]);
  });

  it("nothing sees the tests", () => {
    const outside = imports.filter(({ from }) => !from.startsWith("tests/"));
    expect(outside.filter(({ to, isOurs }) => isOurs && to.startsWith("tests/"))).toEqual([]);
  });
});

describe("the house", () => {
  it("has exactly the agreed names at the top", () => {
    const top = new Set(
      files.map((path) => path.split("/")[0] ?? "").filter((name) => !name.startsWith(".")),
    );
    expect([...top].sort()).toEqual([
      "DEVELOPERS.md",
      "README.md",
      "content",
      "flows",
      "package-lock.json",
      "package.json",
      "tests",
      "tsconfig.json",
      "widget",
      "worker",
    ]);
  });

  it("names no absolute path of a machine", () => {
    const homes = /(?<![\w.~-])\/(?:work|home|Users|root|tmp)\/\w/;
    const wrong = files.filter((path) => {
      if (!/\.(ts|tsx|js|mjs|json|jsonc|jsonl|md|yaml|sql|svg|css|html)$|^\.|\/run$/.test(path)) return false;
      const text = readText(path);
      return homes.test(text) || text.includes(root);
    });
    expect(wrong).toEqual([]);
  });
});
