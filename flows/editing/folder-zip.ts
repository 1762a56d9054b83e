import { strFromU8, strToU8, Unzip, UnzipInflate, zipSync } from "fflate";
import { mostCharacters } from "../content/limits.ts";
import type { Files } from "../content/read-files.ts";

/** One date for every file, in whatever time zone: a zip states local time. */
const EPOCH = new Date(1980, 0, 1);

export const zipProblemCodes = [
  "ZIP_UNREADABLE",
  "ZIP_TOO_LARGE",
  "ZIP_TOO_MANY",
  "ZIP_PATH",
  "ZIP_TWICE",
  "ZIP_NOT_TEXT",
  "ZIP_EMPTY",
] as const;

/** Why a zip, or one file in it, was not taken. */
export interface ZipProblem {
  code: (typeof zipProblemCodes)[number];
  /** The file in the zip; empty when the zip as a whole is at fault. */
  path: string;
  sentence: string;
}

const mostFiles = 3000;
const mostBytes = 16 * 1024 * 1024;
const mostFileBytes = 4 * mostCharacters;

/** The files as a zip, in a folder `content/`. The same files give the same bytes. */
export function packFolder(files: Files): Uint8Array {
  const names = Object.keys(files).sort();
  const entries = names.map((name) => [`content/${name}`, strToU8(files[name] ?? "")] as const);
  return zipSync(Object.fromEntries(entries), { level: 6, mtime: EPOCH, os: 3 });
}

/**
 * The text files of a zip. They may lie in one folder, whatever its name. Every file that cannot be taken is named; with a
 * problem the caller should take none. Nothing is unpacked beyond the limits, whatever sizes the zip claims.
 */
export function unpackFolder(bytes: Uint8Array): { files: Record<string, string>; problems: ZipProblem[] } {
  const { contents, problems } = inflate(bytes);
  const files = new Map<string, string>();
  const paths = [...contents.keys()].filter((path) => !isLitter(path));
  const top = commonFolder(paths);
  for (const path of paths) {
    const name = path.slice(top.length);
    const problem = checkPath(path, name);
    const text = readText(contents.get(path));
    if (problem) problems.push(problem);
    else if (files.has(name.toLowerCase())) problems.push(tell("ZIP_TWICE", path));
    else if (text === null) problems.push(tell("ZIP_NOT_TEXT", path));
    else files.set(name, text);
  }
  if (files.size === 0 && problems.length === 0) problems.push(tell("ZIP_EMPTY", ""));
  return { files: Object.fromEntries(files), problems };
}

/** Unpacks piece by piece and stops at the limits: the sizes that a zip states are not believed. */
function inflate(bytes: Uint8Array): { contents: Map<string, Uint8Array>; problems: ZipProblem[] } {
  const contents = new Map<string, Uint8Array>();
  const problems: ZipProblem[] = [];
  let total = 0;
  let count = 0;
  let listed = 0;
  const unzip = new Unzip((file) => {
    listed++;
    if (file.name.endsWith("/") || problems.length > 0) return;
    count++;
    if (count > mostFiles) {
      problems.push(tell("ZIP_TOO_MANY", ""));
      return;
    }
    if (contents.has(file.name)) problems.push(tell("ZIP_TWICE", file.name));
    const chunks: Uint8Array[] = [];
    let size = 0;
    file.ondata = (error, data, final) => {
      if (error) {
        problems.push(tell("ZIP_UNREADABLE", file.name));
        return;
      }
      size += data.length;
      total += data.length;
      if (size > mostFileBytes || total > mostBytes) {
        if (!problems.some(({ code }) => code === "ZIP_TOO_LARGE"))
          problems.push(tell("ZIP_TOO_LARGE", file.name));
        file.terminate();
        return;
      }
      chunks.push(data);
      if (final) contents.set(file.name, join(chunks, size));
    };
    file.start();
  });
  unzip.register(UnzipInflate);
  try {
    // Small pieces: a bomb is noticed after the first few.
    for (let at = 0; at < bytes.length && problems.length === 0; at += PIECE) {
      unzip.push(bytes.subarray(at, at + PIECE), at + PIECE >= bytes.length);
    }
  } catch {
    problems.push(tell("ZIP_UNREADABLE", ""));
  }
  if (problems.length === 0 && countListed(bytes) !== listed) problems.push(tell("ZIP_UNREADABLE", ""));
  return { contents, problems };
}

const PIECE = 16_384;
const END_LENGTH = 22;

/** How many entries the end of the zip counts (APPNOTE 4.3.16); null when the end is missing: the zip was cut off. */
function countListed(bytes: Uint8Array): number | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const first = Math.max(0, bytes.length - END_LENGTH - 0xffff);
  for (let at = bytes.length - END_LENGTH; at >= first; at--) {
    if (view.getUint32(at, true) === 0x06054b50) return view.getUint16(at + 10, true);
  }
  return null;
}

function join(chunks: readonly Uint8Array[], size: number): Uint8Array {
  const whole = new Uint8Array(size);
  let at = 0;
  for (const chunk of chunks) {
    whole.set(chunk, at);
    at += chunk.length;
  }
  return whole;
}

/** What operating systems add on their own. */
function isLitter(path: string): boolean {
  return /(?:^|\/)(?:__MACOSX\/|\.DS_Store$|Thumbs\.db$|desktop\.ini$)/.test(path);
}

/** The folder that all files share, with its slash; one of the content's own folders is no such. */
function commonFolder(paths: readonly string[]): string {
  const top = /^([^/\\]+\/)/.exec(paths[0] ?? "")?.[1] ?? "";
  const isOwn = /^(?:questions|conditions|remedies|\.\.?)\/$/.test(top);
  return top !== "" && !isOwn && paths.every((path) => path.startsWith(top)) ? top : "";
}

function checkPath(path: string, name: string): ZipProblem | null {
  return /^(?:[a-z0-9]+(?:[-.][a-z0-9]+)*\/)?[a-z0-9]+(?:[-.][a-z0-9]+)*\.(?:md|yaml|svg)$/.test(name) &&
    name.length <= 120
    ? null
    : tell("ZIP_PATH", path);
}

/** UTF-8 as text; null for anything else. */
function readText(bytes: Uint8Array | undefined): string | null {
  if (!bytes) return null;
  // The decoder would swallow a byte order mark.
  const hasMark = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf;
  const text = (hasMark ? "\uFEFF" : "") + strFromU8(hasMark ? bytes.subarray(3) : bytes);
  // Whatever is not UTF-8 does not come back the same.
  const again = strToU8(text);
  const same = again.length === bytes.length && again.every((byte, i) => byte === bytes[i]);
  return same && !text.includes("\u0000") ? text : null;
}

const sentences: Record<ZipProblem["code"], (path: string) => string> = {
  ZIP_UNREADABLE: (path) =>
    path ? `“${path}” cannot be unpacked.` : "This is not a zip file, or it is damaged.",
  ZIP_TOO_LARGE: (path) => `“${path}” unpacks to more than we take.`,
  ZIP_TOO_MANY: () => `There are more than ${mostFiles} files in it.`,
  ZIP_PATH: (path) => `“${path}” has no place in a content folder.`,
  ZIP_TWICE: (path) => `“${path}” is in it twice.`,
  ZIP_NOT_TEXT: (path) => `“${path}” is not a text in UTF-8.`,
  ZIP_EMPTY: () => "There are no files in it.",
};

function tell(code: ZipProblem["code"], path: string): ZipProblem {
  const short = path.length > 80 ? `${path.slice(0, 80)}…` : path;
  return { code, path: short, sentence: sentences[code](short) };
}
