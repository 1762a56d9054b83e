import type { AskId, Edition, Fact, Lexicon, TurnKind } from "../edition.ts";
import { findPattern } from "./match.ts";
import { plainLetters, stemOf } from "./tokens.ts";
import { addRun, compileWays, listChoices, type Pattern, type Run, readRun } from "./ways.ts";

/** Runs of stems by their first stem, with what each run stands for. */
export type Index<T> = ReadonlyMap<string, readonly { run: Run; value: T }[]>;

export interface FindingWays {
  id: string;
  told: readonly Pattern[];
  whenDenied: readonly Pattern[];
  unless: readonly Pattern[];
  deniable: boolean;
  across: boolean;
}

/** A lexicon made ready to read with. Derived from the edition alone. */
export interface Vocabulary {
  findings: readonly FindingWays[];
  facts: readonly { fact: Fact; is: "yes" | "no"; told: readonly Pattern[]; unless: readonly Pattern[] }[];
  asks: readonly { id: AskId; told: readonly Pattern[] }[];
  /** Host id, or null for words that only look like a plant's name. Longest run first. */
  hosts: Index<string | null>;
  /** Condition ids. */
  theories: Index<readonly string[]>;
  turns: Readonly<Record<TurnKind, ReadonlyMap<string, readonly Run[]>>>;
  /** Which sets of parts, and of things, a stem belongs to. */
  partsOf: ReadonlyMap<string, readonly string[]>;
  thingStems: ReadonlySet<string>;
  /** Stems that the lexicon knows; its words by first letter; and words that are never misspellings of them. */
  known: ReadonlySet<string>;
  wordsByLetter: ReadonlyMap<string, readonly string[]>;
  plain: ReadonlySet<string>;
  /** Words that are not what their stem says: "potted" is no pot. */
  whole: ReadonlySet<string>;
}

const opened = new WeakMap<Edition, Vocabulary | null>();

/** The edition's lexicon ready to read with, or null where it has none. */
export function openVocabulary(edition: Edition): Vocabulary | null {
  let vocabulary = opened.get(edition);
  if (vocabulary === undefined) {
    vocabulary = edition.lexicon ? compile(edition, edition.lexicon) : null;
    opened.set(edition, vocabulary);
  }
  return vocabulary;
}

function compile(edition: Edition, lexicon: Lexicon): Vocabulary {
  const ways = (list: readonly string[]) => compileWays(lexicon, list);
  const hosts = indexHosts(edition, lexicon);
  const theories = indexTheories(edition, lexicon);
  const words = listWords(edition, lexicon);
  const partsOf = new Map<string, string[]>();
  for (const part of lexicon.parts) {
    for (const word of lexicon.words[part] ?? []) {
      const run = readRun(word);
      if (run.length === 1 && run[0] !== undefined)
        partsOf.set(run[0], [...(partsOf.get(run[0]) ?? []), part]);
    }
  }
  const single = (sets: readonly string[]) =>
    new Set(
      sets.flatMap((set) =>
        (lexicon.words[set] ?? []).map(readRun).flatMap((run) => (run.length === 1 ? run : [])),
      ),
    );
  return {
    findings: lexicon.findings.map(({ id, ways: told, whenDenied, unless, deniable, across }) => ({
      id,
      told: ways(told),
      whenDenied: ways(whenDenied),
      unless: ways(unless),
      deniable,
      across,
    })),
    facts: lexicon.facts.map(({ fact, is, ways: told, unless }) => ({
      fact,
      is,
      told: ways(told),
      unless: ways(unless),
    })),
    asks: lexicon.asks.map(({ id, ways: told }) => ({ id, told: ways(told) })),
    hosts,
    theories,
    turns: mapTurns(lexicon),
    partsOf,
    thingStems: single(lexicon.things),
    known: new Set(words.map(stemOf)),
    wordsByLetter: groupByLetter(words),
    plain: new Set(lexicon.plain.flatMap(readRun)),
    whole: new Set(lexicon.whole),
  };
}

function mapTurns({ turns }: Lexicon): Vocabulary["turns"] {
  const entries = Object.entries(turns).map(([kind, words]) => {
    const byFirst = new Map<string, Run[]>();
    for (const word of words) addRun(byFirst, readRun(word));
    return [kind, byFirst] as const;
  });
  return Object.fromEntries(entries) as Record<TurnKind, Map<string, Run[]>>;
}

function index<T>(entries: Iterable<{ name: string; value: T }>): Map<string, { run: Run; value: T }[]> {
  const byFirst = new Map<string, { run: Run; value: T }[]>();
  for (const { name, value } of entries) {
    const run = readRun(name);
    const [first] = run;
    if (first === undefined) continue;
    const list = byFirst.get(first) ?? [];
    list.push({ run, value });
    byFirst.set(first, list);
  }
  for (const list of byFirst.values()) list.sort((a, b) => b.run.length - a.run.length);
  return byFirst;
}

function indexHosts(edition: Edition, { hosts, notHosts }: Lexicon): Index<string | null> {
  // First come, first served among names of equal length: what is no plant, then the list's own names, then nicknames.
  return index([
    ...notHosts.map((name) => ({ name, value: null })),
    ...edition.hosts.flatMap(({ id, name, botanical, alsoCalled }) =>
      [name.split(",", 1).join(), ...(botanical ? [botanical] : []), ...alsoCalled].map((one) => ({
        name: one,
        value: id,
      })),
    ),
    ...hosts.flatMap(({ host, names }) => names.map((name) => ({ name, value: host }))),
  ]);
}

/** A condition's own names; what reads as a description of something seen stays out. */
function indexTheories(edition: Edition, lexicon: Lexicon): Index<readonly string[]> {
  const byName = new Map<string, string[]>();
  const add = (name: string, ids: readonly string[]) => {
    const key = readRun(name).join(" ");
    byName.set(key, [...new Set([...(byName.get(key) ?? []), ...ids])]);
  };
  for (const { conditions, ways } of lexicon.theories) for (const way of ways) add(way, conditions);
  const told = compileWays(
    lexicon,
    lexicon.findings.flatMap(({ ways }) => ways),
  );
  for (const { id, name, alsoCalled } of edition.conditions) {
    add(name, [id]);
    for (const other of alsoCalled) if (!describes(told, other)) add(other, [id]);
  }
  return index([...byName].map(([name, value]) => ({ name, value })));
}

function describes(told: readonly Pattern[], name: string): boolean {
  const stems = readRun(name);
  const none = stems.map(() => false);
  const reach = {
    stems,
    words: stems,
    parts: [],
    taken: none,
    small: none,
    things: none,
    besideThings: none,
    subjects: [],
  };
  return told.some((pattern) => findPattern(pattern, reach).length > 0);
}

/** Every word that the lexicon, the plants' names or the conditions' names are written with. */
function listWords(edition: Edition, lexicon: Lexicon): string[] {
  const named = [
    ...lexicon.findings.flatMap(({ ways, whenDenied, unless }) => [...ways, ...whenDenied, ...unless]),
    ...lexicon.facts.flatMap(({ ways, unless }) => [...ways, ...unless]),
    ...[...lexicon.theories, ...lexicon.asks].flatMap(({ ways }) => ways),
  ].flatMap(listChoices);
  const texts = [
    ...named.flatMap(({ set, word }) => (set === null ? [word] : [])),
    ...Object.values(lexicon.words).flat(),
    ...Object.values(lexicon.turns).flat(),
    ...lexicon.notHosts,
    ...lexicon.hosts.flatMap(({ names }) => names),
    ...edition.hosts.flatMap(({ name, botanical, alsoCalled }) => [name, botanical ?? "", ...alsoCalled]),
    ...edition.conditions.flatMap(({ name, alsoCalled }) => [name, ...alsoCalled]),
  ];
  return [...new Set(texts.flatMap((text) => plainLetters(text).split(/[^a-z0-9]+/)))].filter(
    (word) => word !== "",
  );
}

function groupByLetter(words: Iterable<string>): Map<string, string[]> {
  const groups = new Map<string, string[]>();
  for (const word of words) {
    if (word.length < 4) continue;
    const letter = word.charAt(0);
    const group = groups.get(letter) ?? [];
    group.push(word);
    groups.set(letter, group);
  }
  return groups;
}
