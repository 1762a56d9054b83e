import type { Question } from "../edition.ts";
import { type Flow, NOT_SURE } from "../flow.ts";
import { correctStem } from "./spelling.ts";
import { stemOf, type Token, tokenize } from "./tokens.ts";
import { lengthOfRun } from "./turns.ts";
import type { Understood } from "./understand.ts";
import { openVocabulary, type Vocabulary } from "./vocabulary.ts";

/** More words than this are a story and no reply to a question; then only what they tell counts. */
const LONGEST_REPLY = 6;

const ordinals: Readonly<Record<string, number>> = {
  first: 0,
  "1st": 0,
  "1": 0,
  second: 1,
  "2nd": 1,
  "2": 1,
  third: 2,
  "3rd": 2,
  "3": 2,
  fourth: 3,
  "4th": 3,
  "4": 3,
  fifth: 4,
  "5th": 4,
  "5": 4,
  sixth: 5,
  "6": 5,
  seventh: 6,
  "7": 6,
  eighth: 7,
  "8": 7,
  last: -1,
};

const agreeing: Readonly<Record<string, string>> = {
  yes: "yes",
  yeah: "yes",
  yep: "yes",
  yup: "yes",
  no: "no",
  nope: "no",
  nah: "no",
};

/**
 * The option of the question in hand that somebody means: "the second one", "soggy", "dunno", "yes". What a longer text
 * tells is told by its findings. Undefined when none, or more than one, could be meant.
 */
export function readReply(
  flow: Flow,
  question: Question,
  typed: string,
  heard: Understood,
): string | undefined {
  const vocabulary = openVocabulary(flow.edition);
  if (!vocabulary || question.kind === "host") return undefined;
  const tokens = tokenize(typed).tokens.map((token) => ({
    ...token,
    stem: correctStem(vocabulary, token.word, token.stem),
  }));
  const short = tokens.length > 0 && tokens.length <= LONGEST_REPLY;
  if (short && tokens.some((_, at) => lengthOfRun(vocabulary, tokens, "unsure", at) > 0)) return NOT_SURE;
  // What a longer text tells is told by its findings.
  if (!short) return undefined;
  return (
    byPlace(question, tokens) ??
    byAgreeing(question, tokens) ??
    byFindings(flow, question, heard) ??
    byWords(vocabulary, question, tokens)
  );
}

function byPlace({ options }: Question, tokens: readonly Token[]): string | undefined {
  const places = tokens.flatMap(({ word }) => ordinals[word] ?? []);
  return places.length === 1 ? options.at(places[0] ?? 0)?.id : undefined;
}

function byAgreeing({ options }: Question, tokens: readonly Token[]): string | undefined {
  const word = agreeing[tokens[0]?.word ?? ""];
  return options.find(({ id }) => id === word)?.id;
}

/** An option all of whose findings were told, and nothing that another option tells. */
function byFindings(flow: Flow, { options }: Question, { present, absent }: Understood): string | undefined {
  const told = new Set(
    present.flatMap(({ id }) => [
      flow.findings.at(id),
      ...(flow.findings.vaguer[flow.findings.at(id)] ?? []),
    ]),
  );
  const denied = new Set(absent.map(({ id }) => flow.findings.at(id)));
  const has = (ids: readonly string[], set: ReadonlySet<number>) =>
    ids.length > 0 && ids.every((id) => set.has(flow.findings.at(id)));
  const found = options.filter((option) =>
    option.present.length > 0 ? has(option.present, told) : !option.none && has(option.absent, denied),
  );
  return found.length === 1 ? found[0]?.id : undefined;
}

/** The one option whose label, or id, has most of the words. A denial may mean anything, so it means nothing here. */
function byWords(
  vocabulary: Vocabulary,
  { options }: Question,
  tokens: readonly Token[],
): string | undefined {
  const isSmall = (token: Token) => (vocabulary.turns.small.get(token.stem) ?? []).length > 0;
  const meant = tokens.filter((token) => !isSmall(token));
  // "Both" is a small word, and the answer to some question.
  const telling = meant.length > 0 ? meant : tokens;
  if (telling.length === 0 || tokens.some((_, at) => lengthOfRun(vocabulary, tokens, "deny", at) > 0))
    return undefined;
  const scores = options.map(({ id, label }) => {
    const stems = new Set([...tokenize(label).tokens.map(({ stem }) => stem), ...id.split("-").map(stemOf)]);
    return telling.filter(({ stem }) => stems.has(stem)).length;
  });
  const best = Math.max(...scores);
  const isClear =
    best > 0 && best * 2 >= telling.length && scores.filter((score) => score === best).length === 1;
  return isClear ? options[scores.indexOf(best)]?.id : undefined;
}
