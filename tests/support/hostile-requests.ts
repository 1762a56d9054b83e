import type { Edition } from "../../flows/edition.ts";

/** A request as a stranger might send it. `path` goes out as it is, with its query. */
export interface HostileRequest {
  method: string;
  path: string;
  headers: Record<string, string>;
  body?: string;
}

/** Draws whole numbers from 0 up to, not including, `below`. */
type Draw = (below: number) => number;

/** A linear congruential generator: the same requests on every machine. */
function makeDraw(seed: number): Draw {
  let state = seed >>> 0;
  return (below) => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
}

const asides = [
  "e",
  "units",
  "room",
  "start",
  "bottle",
  "bottle-unit",
  "look",
  "looked",
  "began",
  "change",
  "branch",
];
const plantNames = ["plant", "name", "q"];
const odd = [
  "",
  "%",
  "%00",
  "%ff%fe",
  "%C0%80",
  "😀",
  "\u202e",
  "__proto__",
  "constructor",
  "toString",
  "-1",
  "1e999",
  "NaN",
  "2026-02-30",
  "9".repeat(40),
  "a".repeat(700),
  "' OR 1=1 --",
  "<script>alert(1)</script>",
  "../../etc/passwd",
  "\\",
  "{{7*7}}",
  "((((((((((((((((((((",
  "       ,       ,      ",
];
const codeLetters = "0123456789ABCDEFGHJKMNPQRSTVWXYZ*~$=Uoil -";
const methods = ["GET", "GET", "GET", "GET", "POST", "PUT", "DELETE", "HEAD", "OPTIONS", "PATCH"];
const headerNames = [
  "accept",
  "accept-language",
  "content-type",
  "cookie",
  "origin",
  "sec-fetch-site",
  "if-none-match",
];

/**
 * Requests without end: valid links, codes, bodies and headers of this edition, most of them then broken somewhere.
 *
 * @param seed the same seed gives the same requests.
 * @param paths further addresses to knock at.
 */
export function* hostileRequests(
  edition: Edition,
  seed: number,
  paths: readonly string[] = [],
): Generator<HostileRequest, never> {
  const draw = makeDraw(seed);
  const pick = <T>(from: readonly T[]): T => from[draw(from.length)] as T;
  const pairs = knownPairs(edition);
  const makers = [
    () => pick(["/check?", "/slip?", "/calendar.ics?", "/api/case?"]) + makeQuery(draw, pick, pairs),
    () => `/c/${encodeURIComponent(makeCode(draw))}`,
    () => `/api/editions/${pick([...odd.map(encodeURIComponent), "1", "2", "0"])}`,
    () =>
      `/embed/${pick(["live.json", "leafturn.js", encodeURIComponent(pick(odd)), "editions/1-x/first.json"])}`,
    () => pick(["/", "/c", "/help", "/desk", "/desk/sign-in", "/assets/x", ...paths]),
  ];
  const path = () => (draw(3) > 0 ? makers[0] : pick(makers))?.() ?? "/";
  while (true) {
    const method = pick(methods);
    const headers: Record<string, string> = {};
    for (let i = draw(3); i > 0; i--) headers[pick(headerNames)] = toHeader(mangle(pick(odd), draw));
    const request: HostileRequest = { method, path: cutToAscii(maybe(draw, path(), 3)), headers };
    if (["POST", "PUT", "PATCH"].includes(method)) {
      if (draw(2) === 0) request.path = "/api/case";
      headers["content-type"] = pick([
        "application/json",
        "application/x-www-form-urlencoded",
        "text/plain",
        "x",
      ]);
      request.body = makeBody(draw, pick, pairs);
    }
    yield request;
  }
}

function knownPairs({ questions, findings, hosts }: Edition): [string, string][] {
  return [
    ...questions.flatMap(({ id, options }) => options.map((option): [string, string] => [id, option.id])),
    ...findings.flatMap(({ id }): [string, string][] => [
      [id, "yes"],
      [id, "no"],
    ]),
    ...hosts.map(({ id }): [string, string] => ["host", id]),
  ];
}

function makeQuery(
  draw: Draw,
  pick: <T>(from: readonly T[]) => T,
  pairs: readonly [string, string][],
): string {
  const parts = Array.from({ length: draw(14) }, () => {
    const kind = draw(8);
    if (kind === 0) return `${pick(asides)}=${encodeURIComponent(pick(odd))}`;
    if (kind === 1) return `${pick(plantNames)}=${encodeURIComponent(mangle("fiddle leaf fig", draw))}`;
    const [to, is] = pick(pairs);
    return `${to}=${kind === 2 ? encodeURIComponent(pick(odd)) : is}`;
  });
  return maybe(draw, parts.join("&"), 3);
}

function makeCode(draw: Draw): string {
  return Array.from({ length: draw(22) }, () => codeLetters[draw(codeLetters.length)]).join("");
}

function makeBody(
  draw: Draw,
  pick: <T>(from: readonly T[]) => T,
  pairs: readonly [string, string][],
): string {
  const answers = Array.from({ length: draw(9) }, () => {
    const [to, is] = pick(pairs);
    return draw(6) === 0 ? pick([null, 3, [], { to }, { to, is: { is } }]) : { to, is };
  });
  const bodies: unknown[] = [
    { answers },
    { code: makeCode(draw) },
    { link: makeQuery(draw, pick, pairs) },
    answers,
    null,
    7,
  ];
  const deep = `${"[".repeat(draw(3000))}`;
  return draw(12) === 0 ? deep : maybe(draw, JSON.stringify(pick(bodies)), 2);
}

/** Broken in one of `odds` cases. */
function maybe(draw: Draw, text: string, odds: number): string {
  return draw(odds) === 0 ? mangle(text, draw) : text;
}

/** Takes a letter away, doubles one, swaps one for another, or puts something odd between two. */
function mangle(text: string, draw: Draw): string {
  const at = draw(text.length + 1);
  const letter = String.fromCharCode(33 + draw(94));
  const [before, after] = [text.slice(0, at), text.slice(at)];
  const ways = [
    before + after.slice(1),
    before + after.slice(0, 1) + after,
    before + letter + after.slice(1),
    before + encodeURIComponent(odd[draw(odd.length)] ?? "") + after,
  ];
  return ways[draw(ways.length)] ?? text;
}

/** What an address can carry on the wire. */
function cutToAscii(path: string): string {
  const kept = path.replace(/[^\x21-\x7e]/g, "").replace(/#/g, "");
  return kept.startsWith("/") ? kept : `/${kept}`;
}

function toHeader(text: string): string {
  return text.replace(/[^\x20-\x7e]/g, "").trim();
}
