import { distance } from "fastest-levenshtein";
import type { Host } from "./edition.ts";
import type { Flow } from "./flow.ts";

interface Named {
  host: Host;
  words: string[];
  text: string;
}

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
    .map((word) =>
      word.length > 4 && word.endsWith("s") && !word.endsWith("ss") && !word.endsWith("us")
        ? word.slice(0, -1)
        : word,
    )
    .join(" ");
}

/** 0 to 100: 100 the same, 90 one contains the other, below that by words and wrong letters. */
function match(sought: string, { text, words }: Named): number {
  if (sought === text) return 100;
  if (` ${sought} `.includes(` ${text} `)) return 80 + Math.min(15, text.length / 2);
  if (text.startsWith(sought) && sought.length >= 3) return 78;
  if (` ${text} `.includes(` ${sought} `)) return 70;
  const slips = distance(sought, text);
  const allowed = text.length >= 9 ? 2 : text.length >= 5 ? 1 : 0;
  if (slips <= allowed) return 75 - slips;
  return matchWords(sought.split(" "), words);
}

function matchWords(sought: readonly string[], words: readonly string[]): number {
  let hits = 0;
  for (const word of words) {
    const near = word.length >= 9 ? 2 : word.length >= 5 ? 1 : 0;
    if (sought.some((given) => distance(given, word) <= near)) hits++;
  }
  return hits === words.length && hits > 0 ? 60 + Math.min(10, words.length) : 0;
}
