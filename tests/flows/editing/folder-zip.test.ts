import { zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import yauzl from "yauzl";
import { packFolder, unpackFolder } from "../../../flows/editing/folder-zip.ts";
import { loadFiles, shippedContent } from "../content/content-files.ts";

const shipped = loadFiles(shippedContent);
const bytesOf = (text: string) => new TextEncoder().encode(text);
const codes = (bytes: Uint8Array) => unpackFolder(bytes).problems.map(({ code, path }) => `${code} ${path}`);

/** Reads a zip with yauzl, which goes by the directory at the end and checks every size and sum. */
function readElsewhere(bytes: Uint8Array): Promise<Record<string, string>> {
  return new Promise((resolve, reject) => {
    yauzl.fromBuffer(Buffer.from(bytes), { lazyEntries: true }, (error, zip) => {
      if (error) return reject(error);
      const files: Record<string, string> = {};
      zip.on("error", reject);
      zip.on("end", () => resolve(files));
      zip.on("entry", (entry: yauzl.Entry) => {
        zip.openReadStream(entry, (failure, stream) => {
          if (failure) return reject(failure);
          const chunks: Buffer[] = [];
          stream.on("data", (chunk: Buffer) => chunks.push(chunk));
          stream.on("end", () => {
            files[entry.fileName] = Buffer.concat(chunks).toString("utf8");
            zip.readEntry();
          });
        });
      });
      zip.readEntry();
    });
  });
}

describe("a content folder as a zip", () => {
  it("is read by an independent tool, file by file", async () => {
    const files = await readElsewhere(packFolder(shipped));
    const named = Object.fromEntries(
      Object.entries(shipped).map(([name, text]) => [`content/${name}`, text]),
    );
    expect(files).toEqual(named);
  });

  it("has the same bytes for the same files, in whatever order and whenever", () => {
    const turned = Object.fromEntries(Object.entries(shipped).reverse());
    expect(packFolder(turned)).toEqual(packFolder(shipped));
    const year = new DataView(packFolder(shipped).buffer).getUint16(12, true) >> 9;
    expect(year).toBe(0);
  });

  it("comes back as it went out", () => {
    const odd = { ...shipped, "shop.yaml": `\uFEFFname: Ünïcode 🪴\r\n` };
    const { files, problems } = unpackFolder(packFolder(odd));
    expect(problems).toEqual([]);
    expect(files).toEqual(odd);
  });

  it("may be packed without a folder, under another name, stored, and with an operating system's litter", () => {
    const inner = { "shop.yaml": bytesOf("name: x\n"), "questions/a.md": bytesOf("---\n---\n") };
    expect(unpackFolder(zipSync(inner, { level: 0 })).problems).toEqual([]);
    const named = zipSync({ "my draft": inner, __MACOSX: { "._x": bytesOf("?") } });
    expect(Object.keys(unpackFolder(named).files).sort()).toEqual(["questions/a.md", "shop.yaml"]);
  });
});

describe("a hostile zip", () => {
  const good = { "content/shop.yaml": bytesOf("name: x\n") };

  it("cannot name a place outside", () => {
    for (const path of [
      "../shop.yaml",
      "content/../../x.yaml",
      "/etc/x.yaml",
      "content/a/b/c.md",
      "content\\x.yaml",
      "content/x.exe",
      "content/__proto__",
      "C:/x.yaml",
    ]) {
      expect(codes(zipSync({ ...good, [path]: bytesOf("x") })).join(), path).toMatch(/ZIP_PATH/);
    }
  });

  it("cannot hold what is no text", () => {
    expect(codes(zipSync({ ...good, "content/pots.yaml": new Uint8Array([0xff, 0xfe, 0x41]) }))).toEqual([
      "ZIP_NOT_TEXT content/pots.yaml",
    ]);
    expect(codes(zipSync({ ...good, "content/pots.yaml": bytesOf("a\u0000b") }))).toEqual([
      "ZIP_NOT_TEXT content/pots.yaml",
    ]);
  });

  it("cannot fill the memory", { timeout: 120_000 }, () => {
    const bomb = zipSync({ "content/shop.yaml": new Uint8Array(64 * 1024 * 1024) }, { level: 9 });
    expect(bomb.length).toBeLessThan(300_000);
    const from = performance.now();
    expect(codes(bomb)).toEqual(["ZIP_TOO_LARGE content/shop.yaml"]);
    expect(performance.now() - from).toBeLessThan(10_000);
    const many = Object.fromEntries(
      Array.from({ length: 3001 }, (_, i) => [`content/questions/q${i}.md`, bytesOf("x")]),
    );
    expect(codes(zipSync(many, { level: 0 }))).toEqual(["ZIP_TOO_MANY "]);
    const sum = Object.fromEntries(
      Array.from({ length: 40 }, (_, i) => [`content/questions/q${i}.md`, new Uint8Array(900_000).fill(65)]),
    );
    expect(codes(zipSync(sum)).join()).toMatch(/ZIP_TOO_LARGE/);
  });

  it("that lies about sizes, is cut off, or is no zip at all is told", () => {
    const lying = zipSync({ "content/shop.yaml": new Uint8Array(5 * 1024 * 1024) }, { level: 9 });
    new DataView(lying.buffer).setUint32(22, 10, true);
    expect(codes(lying).join()).toMatch(/ZIP_TOO_LARGE/);
    expect(codes(bytesOf("hello")).join()).toMatch(/ZIP_UNREADABLE/);
    expect(codes(new Uint8Array()).join()).toMatch(/ZIP_UNREADABLE/);
    expect(codes(zipSync({})).join()).toMatch(/ZIP_EMPTY|ZIP_UNREADABLE/);
    const whole = packFolder(shipped);
    for (const share of [0.1, 0.5, 0.9]) {
      expect(codes(whole.slice(0, Math.floor(whole.length * share))).join()).toMatch(/ZIP_UNREADABLE/);
    }
  });
});
