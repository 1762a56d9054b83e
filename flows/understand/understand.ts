import type { AskId, Fact } from "../edition.ts";
import type { Flow } from "../flow.ts";
import { findPattern, type Hit, range, standsIn } from "./match.ts";
import { cutReaches, type Stretch } from "./reaches.ts";
import { correctStem } from "./spelling.ts";
import { LONGEST_TYPED, type Segment, type Token, tokenize } from "./tokens.ts";
import { type Bearings, lengthOfRun, readBearings } from "./turns.ts";
import { type FindingWays, type Index, openVocabulary, type Vocabulary } from "./vocabulary.ts";
import type { Pattern } from "./ways.ts";

/** Something that was understood, with the words it was read from. */
export interface Heard {
  id: string;
  said: string;
  /** Told with a doubt: "maybe some webs". */
  unsure: boolean;
}

export interface HeardFact {
  fact: Fact;
  is: "yes" | "no";
  said: string;
}

/** What the owner thinks it is. Never evidence. `denied`: "it is not scale". */
export interface Theory {
  conditions: readonly string[];
  said: string;
  denied: boolean;
}

/**
 * What was understood of something typed: a proposal, which counts only when its author has said that it is right.
 * Findings are ids of the edition; one that a sharper one brings along is left out.
 */
export interface Understood {
  host: Heard | null;
  /** Further plants that were named. */
  otherHosts: Heard[];
  present: Heard[];
  absent: Heard[];
  facts: HeardFact[];
  theories: Theory[];
  asks: { id: AskId; said: string }[];
  /** Pieces of the text, in its own words, that nothing was understood of. */
  rest: string[];
  /** True when the text was longer than is read. */
  cut: boolean;
}

/** Reads what somebody typed. Pure and the same on every machine; an edition without a lexicon understands nothing. */
export function understand(flow: Flow, typed: string): Understood {
  const vocabulary = openVocabulary(flow.edition);
  const cut = typed.length > LONGEST_TYPED;
  if (!vocabulary)
    return { ...nothing(), rest: typed.trim() === "" ? [] : [typed.slice(0, LONGEST_TYPED)], cut };
  const { tokens: raw, segments } = tokenize(typed);
  const tokens = raw.map((token) => ({ ...token, stem: readStem(vocabulary, token) }));
  const bearings = readBearings(vocabulary, tokens, segments);
  const said = (places: readonly number[]) => quote(typed, tokens, places);
  const names = findNames(vocabulary.hosts, tokens);
  const taken = tokens.map((_, at) =>
    names.some(({ places, value }) => value !== null && places.includes(at)),
  );
  const hostEnds = new Set(
    names.flatMap(({ places, value }) => (value === null ? [] : (places.at(-1) ?? []))),
  );
  const statement = tokens.map((_, at) => lengthOfRun(vocabulary, tokens, "statement", at) > 0);
  const stretches = cutReaches(vocabulary, tokens, segments, hostEnds, taken, bearings.small, statement);
  const reader = { tokens, bearings, stretches, said };
  const sentences = cutReaches(
    vocabulary,
    tokens,
    joinSentences(segments),
    hostEnds,
    taken,
    bearings.small,
    statement,
  );
  const heard = hearFindings(vocabulary.findings, reader, { ...reader, stretches: sentences });
  const theories = hearTheories(vocabulary, reader);
  const facts = hearFacts(vocabulary, reader);
  const asks = hearAsks(vocabulary, reader);
  const hosts = hearHosts(names, reader);
  const used = [
    heard.places,
    theories.places,
    facts.places,
    asks.places,
    names.flatMap(({ places }) => places),
  ].flat();
  const [host = null, ...otherHosts] = hosts;
  return {
    host,
    otherHosts,
    ...keepSharpest(flow, heard.present, heard.absent),
    facts: facts.facts,
    theories: theories.theories,
    asks: asks.asks,
    rest: listRest(typed, tokens, segments, bearings, new Set(used)),
    cut,
  };
}

function readStem(vocabulary: Vocabulary, { word, stem }: Token): string {
  return vocabulary.whole.has(word) ? "" : correctStem(vocabulary, word, stem);
}

function nothing(): Omit<Understood, "rest" | "cut"> {
  return { host: null, otherHosts: [], present: [], absent: [], facts: [], theories: [], asks: [] };
}

interface Reader {
  tokens: readonly Token[];
  bearings: Bearings;
  stretches: readonly Stretch[];
  said: (places: readonly number[]) => string;
}

/** A hit in places of the whole text, and how it was told. */
interface Told {
  places: number[];
  denied: boolean;
  supposed: boolean;
  unsure: boolean;
}

/** Every place where one of some patterns stands, with what small words make of it. */
function findTold(patterns: readonly Pattern[], unless: readonly Pattern[], reader: Reader): Told[] {
  return reader.stretches.flatMap(({ from, reach }) =>
    patterns
      .flatMap((pattern) => findPattern(pattern, reach))
      .filter(() => !unless.some((pattern) => standsIn(pattern, reach)))
      .map((hit) => tell(hit, from, reader.bearings)),
  );
}

function tell(hit: Hit, from: number, { deniedBy, supposed, hedged }: Bearings): Told {
  const places = hit.places.map((place) => place + from);
  const core = hit.core.map((place) => place + from);
  return {
    places,
    // A denying word that belongs to the way, such as "no growth", does not deny it.
    denied: core.some((place) => deniedBy[place]?.some((denier) => !places.includes(denier))),
    supposed: core.some((place) => supposed[place]),
    unsure: core.some((place) => hedged[place]),
  };
}

/** Whole sentences as if they were one piece, for ways that reach across. */
function joinSentences(segments: readonly Segment[]): Segment[] {
  const joined: Segment[] = [];
  for (const segment of segments) {
    const last = joined.at(-1);
    if (last && last.sentence === segment.sentence) last.to = segment.to;
    else joined.push({ ...segment });
  }
  return joined;
}

function hearFindings(findings: readonly FindingWays[], pieces: Reader, whole: Reader) {
  const present: Heard[] = [];
  const absent: Heard[] = [];
  const places: number[] = [];
  for (const { id, told, whenDenied, unless, deniable, across } of findings) {
    const reader = across ? whole : pieces;
    const direct = findTold(told, unless, reader).filter(({ supposed }) => !supposed);
    const turned = findTold(whenDenied, unless, reader).filter(({ supposed, denied }) => !supposed && denied);
    const affirmed = [...direct.filter(({ denied }) => !denied), ...turned];
    const denied = direct.filter((one) => one.denied);
    places.push(...[...direct, ...turned].flatMap((one) => one.places));
    const hear = ({ places: where, unsure }: Told): Heard => ({ id, said: reader.said(where), unsure });
    const [first] = affirmed;
    if (first) present.push(hear(first));
    else if (denied[0] && deniable) absent.push(hear(denied[0]));
  }
  return { present, absent, places };
}

/** What a sharper finding brings along, or a vaguer denial takes away, need not be said twice. */
function keepSharpest(
  flow: Flow,
  present: readonly Heard[],
  absent: readonly Heard[],
): Pick<Understood, "present" | "absent"> {
  const { index, vaguer, sharper } = flow.findings;
  const known = (heard: readonly Heard[]) => heard.filter(({ id }) => index.has(id));
  const at = (id: string) => index.get(id) ?? -1;
  const brought = new Set(known(present).flatMap(({ id }) => vaguer[at(id)] ?? []));
  const denied = new Set(known(absent).flatMap(({ id }) => sharper[at(id)] ?? []));
  const seen = new Set(known(present).flatMap(({ id }) => [at(id), ...(vaguer[at(id)] ?? [])]));
  return {
    present: known(present).filter(({ id }) => !brought.has(at(id))),
    absent: known(absent).filter(({ id }) => !denied.has(at(id)) && !seen.has(at(id))),
  };
}

function hearFacts({ facts }: Vocabulary, reader: Reader) {
  const heard = new Map<Fact, HeardFact>();
  const places: number[] = [];
  for (const { fact, is, told, unless } of facts) {
    for (const one of findTold(told, unless, reader)) {
      if (one.supposed) continue;
      places.push(...one.places);
      const state = one.denied ? (is === "yes" ? "no" : "yes") : is;
      // A fact that was told both ways is the dangerous one.
      if (heard.get(fact)?.is !== "yes") heard.set(fact, { fact, is: state, said: reader.said(one.places) });
    }
  }
  return { facts: [...heard.values()], places };
}

function hearAsks({ asks }: Vocabulary, reader: Reader) {
  const heard: Understood["asks"] = [];
  const places: number[] = [];
  for (const { id, told } of asks) {
    const [first, ...others] = findTold(told, [], reader);
    if (!first) continue;
    heard.push({ id, said: reader.said(first.places) });
    places.push(...[first, ...others].flatMap((one) => one.places));
  }
  return { asks: heard, places };
}

function hearTheories({ theories }: Vocabulary, { tokens, bearings, said }: Reader) {
  const found = findNames(theories, tokens);
  const heard: Theory[] = [];
  for (const { places, value } of found) {
    const denied = places.some((place) => (bearings.deniedBy[place]?.length ?? 0) > 0);
    const key = value.join();
    if (!heard.some(({ conditions }) => conditions.join() === key)) {
      heard.push({ conditions: value, said: said(places), denied });
    }
  }
  return { theories: heard, places: found.flatMap(({ places }) => places) };
}

function hearHosts(names: readonly Named<string | null>[], { bearings, said }: Reader): Heard[] {
  const heard: Heard[] = [];
  let end = -2;
  for (const { places, value } of names) {
    const [first = 0] = places;
    // "cymbidium orchid": the second word only says what kind of plant the first one is.
    const goesOn = first === end + 1;
    if (value !== null) end = places.at(-1) ?? end;
    if (value === null || goesOn || places.some((place) => (bearings.deniedBy[place]?.length ?? 0) > 0))
      continue;
    if (!heard.some(({ id }) => id === value)) {
      heard.push({ id: value, said: said(places), unsure: bearings.hedged[first] ?? false });
    }
  }
  return heard;
}

interface Named<T> {
  places: number[];
  value: T;
}

/** The longest names in the text, from left to right. */
function findNames<T>(index: Index<T>, tokens: readonly Token[]): Named<T>[] {
  const found: Named<T>[] = [];
  for (let at = 0; at < tokens.length; at++) {
    const entry = index
      .get(tokens[at]?.stem ?? "")
      ?.find(({ run }) => run.every((stem, i) => tokens[at + i]?.stem === stem));
    if (!entry) continue;
    found.push({ places: range(at, entry.run.length), value: entry.value });
    at += entry.run.length - 1;
  }
  return found;
}

function quote(typed: string, tokens: readonly Token[], places: readonly number[]): string {
  const words = places.flatMap((place) => tokens[place] ?? []);
  const start = Math.min(...words.map((token) => token.start));
  const end = Math.max(...words.map((token) => token.end));
  return words.length === 0 ? "" : typed.slice(start, end);
}

/** Segments with something to say of which nothing was understood; neighbors are joined. */
function listRest(
  typed: string,
  tokens: readonly Token[],
  segments: readonly { from: number; to: number }[],
  { small }: Bearings,
  used: ReadonlySet<number>,
): string[] {
  const rest: [number, number][] = [];
  let goesOn = false;
  for (const { from, to } of segments) {
    const places = range(from, to - from);
    const telling = places.filter((place) => !small[place]).length;
    const isWhole = tokens.every(
      ({ sentence }, i) => sentence !== tokens[from]?.sentence || (i >= from && i < to),
    );
    const isMissed = !places.some((place) => used.has(place)) && telling >= (isWhole ? 1 : 2);
    const last = rest.at(-1);
    if (isMissed && goesOn && last) last[1] = to - 1;
    else if (isMissed) rest.push([from, to - 1]);
    goesOn = isMissed;
  }
  return rest.map((places) => quote(typed, tokens, places));
}
