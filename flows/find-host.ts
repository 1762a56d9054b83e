import type { Host } from "./edition.ts";
import type { Flow } from "./flow.ts";

interface Named {
  host: Host;
  words: string[];
  text: string;
}

const MOST_SLIPS = 2;

const indexes = new WeakMap<Flow, Named[]>();

/**
 * Host plants by common or botanical name, best first. Forgives capitals, accents, word order, plurals and a wrong
 * letter or two. Empty when nothing comes close.
 */
export function findHosts(flow: Flow, text: string, limit = 8): Host[] {
  const sought = normalize(text).slice(0, 60);
  if (sought === "") return [];
  const best = new Map<Host, number>();
  for (const named of namesOf(flow)) {
    const score = match(sought, named);
    if (score > (best.get(named.host) ?? 0)) best.set(named.host, score);
  }
  return [...best]
    .sort(([a, x], [b, y]) => y - x || a.name.localeCompare(b.name, "en"))
    .slice(0, limit)
    .map(([host]) => host);
}

function namesOf(flow: Flow): Named[] {
  let named = indexes.get(flow);
  if (!named) {
    named = flow.edition.hosts.flatMap((host) =>
      [host.name, ...(host.botanical ? [host.botanical] : []), ...host.alsoCalled].map((name) => {
        const text = normalize(name);
        return { host, text, words: text.split(" ") };
      }),
    );
    indexes.set(flow, named);
  }
  return named;
}

function normalize(text: string): string {
  return text
    .normalize("NFD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/['’]/g, "")
    .replace(/[^a-z0-9]+/g, " ")
    .trim()
    .split(" ")
    .map((word) => (word.length > 4 && /[^isuo]s$/.test(word) ? word.slice(0, -1) : word))
    .join(" ");
}

/**
 * 0 to 100. 100: the same; above 95: the same but for a slip or two; 75 to 95: all words of the name are there, the more
 * letters the better; below that, part of the name.
 */
function match(sought: string, { text, words }: Named): number {
  if (sought === text) return 100;
  const slips = slipsBetween(sought, text);
  if (slips <= allowedSlips(text)) return 98 - slips;
  const share = Math.min(15, text.length / 2);
  if (` ${sought} `.includes(` ${text} `)) return 80 + share;
  const wordSlips = slipsInWords(sought.split(" "), words);
  if (wordSlips !== undefined) return 79 + share - Math.min(4, wordSlips);
  if (text.startsWith(sought) && sought.length >= 3) return 74;
  return ` ${text} `.includes(` ${sought} `) ? 70 : 0;
}

/** Wrong letters in all when each word of a name is among those given, in any order; undefined when one is missing. */
function slipsInWords(given: readonly string[], words: readonly string[]): number | undefined {
  let total = 0;
  for (const word of words) {
    const slips = Math.min(...given.map((other) => slipsBetween(other, word)));
    if (slips > allowedSlips(word)) return undefined;
    total += slips;
  }
  return total;
}

/** Short names have near neighbors that are other plants. */
function allowedSlips({ length }: string): number {
  return length >= 9 ? MOST_SLIPS : length >= 5 ? 1 : 0;
}

/** Letters that are wrong, missing or too many. Two neighbors that changed places are one slip. */
function slipsBetween(a: string, b: string): number {
  if (Math.abs(a.length - b.length) > MOST_SLIPS) return Number.POSITIVE_INFINITY;
  const slips = distance(a, b);
  return slips === 2 && isSwap(a, b) ? 1 : slips;
}

/** Levenshtein's distance, one row of the table at a time. */
export function distance(a: string, b: string): number {
  const row = Array.from({ length: b.length + 1 }, (_, j) => j);
  let last = b.length;
  for (let i = 0; i < a.length; i++) {
    let aslant = i;
    last = i + 1;
    for (let j = 0; j < b.length; j++) {
      const above = row[j + 1] ?? 0;
      const kept = aslant + (a[i] === b[j] ? 0 : 1);
      row[j] = last;
      last = Math.min(above + 1, last + 1, kept);
      aslant = above;
    }
    row[b.length] = last;
  }
  return last;
}

function isSwap(a: string, b: string): boolean {
  const at = [...a].findIndex((letter, i) => letter !== b[i]);
  return (
    a.length === b.length && a[at] === b[at + 1] && a[at + 1] === b[at] && a.slice(at + 2) === b.slice(at + 2)
  );
}
