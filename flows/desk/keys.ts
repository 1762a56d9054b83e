import { type Flow, NOT_SURE } from "../flow.ts";

/**
 * The keys of the desk. Each question has a letter that it keeps for good; a digit answers it. Questions are more than
 * letters, so that a few share one: then the letter goes to the one that is open, and typed twice to the other.
 */
export interface DeskKeys {
  /** Question ids by their letter, the one that a single press chooses first. */
  holders: ReadonlyMap<string, readonly string[]>;
  /** What to press to choose a question: its letter, once or more. */
  keyOf: ReadonlyMap<string, string>;
}

const ALPHABET = "abcdefghijklmnopqrstuvwxyz";
/** Keys of the first nine options; further ones have letters. */
const DIGITS = "123456789";
export const NOT_SURE_KEY = "0";

const assigned = new WeakMap<Flow, ReadonlyMap<string, string>>();

/** The letter of each question, worked out from the ids alone: the facts' from the end of the alphabet, the plant's, then in the editor's order. */
export function assignLetters(flow: Flow): ReadonlyMap<string, string> {
  const found = assigned.get(flow) ?? assign(flow);
  assigned.set(flow, found);
  return found;
}

function assign(flow: Flow): ReadonlyMap<string, string> {
  const { hostQuestion, looks } = flow;
  const letters = new Map<string, string>();
  const base = questionsToKey(flow);
  const holders = (letter: string) => [...letters.values()].filter((one) => one === letter).length;
  // Facts are open together with all sorts of questions: each has one of the last letters, and shares it with nobody.
  for (const [i, { question }] of flow.factPrompts.entries()) {
    letters.set(question.id, ALPHABET.charAt(ALPHABET.length - 1 - i));
  }
  for (const pass of [ownLetters, anyLetters]) {
    for (const id of base) {
      const free = pass(id).find((letter) => holders(letter) === 0);
      if (free !== undefined && !letters.has(id)) letters.set(id, free);
    }
  }
  // The plant's letter is followed by its name, so that it shares with nobody.
  const sole = [hostQuestion?.id ?? "", ...flow.factPrompts.map(({ question }) => question.id)];
  const taken = new Set(sole.map((id) => letters.get(id)));
  for (const id of base.filter((one) => !letters.has(one))) {
    const wished = anyLetters(id).filter((letter) => !taken.has(letter));
    letters.set(id, wished.sort((a, b) => holders(a) - holders(b))[0] ?? "");
  }
  for (const again of looks?.again ?? [])
    copyLetter(letters, looks?.again[0]?.question.id, again.question.id);
  for (const { question } of looks?.reopenings ?? []) {
    copyLetter(letters, flow.prompts[0]?.question.id, question.id);
  }
  return letters;
}

function questionsToKey({ hostQuestion, prompts, looks }: Flow): string[] {
  const later = looks ? [looks.again[0], looks.tried, looks.technique] : [];
  return [
    ...(hostQuestion ? [hostQuestion.id] : []),
    ...[...prompts, ...later].flatMap((prompt) => prompt?.question.id ?? []),
  ];
}

function copyLetter(letters: Map<string, string>, from: string | undefined, to: string): void {
  const letter = from === undefined ? undefined : letters.get(from);
  if (letter !== undefined) letters.set(to, letter);
}

/** The first letters of the words of an id, then its other letters. */
function ownLetters(id: string): string[] {
  const first = id.split("-").map((word) => word.charAt(0));
  return [...new Set([...first, ...id])].filter((letter) => ALPHABET.includes(letter));
}

function anyLetters(id: string): string[] {
  return [...new Set([...ownLetters(id), ...ALPHABET])];
}

/** The keys as they are now. `open`: ids of the questions that are open, which come before others of their letter. */
export function keysNow(flow: Flow, open: ReadonlySet<string>): DeskKeys {
  const holders = new Map<string, string[]>();
  for (const [id, letter] of assignLetters(flow)) holders.set(letter, [...(holders.get(letter) ?? []), id]);
  for (const ids of holders.values()) ids.sort((a, b) => Number(open.has(b)) - Number(open.has(a)));
  const keyOf = new Map<string, string>();
  for (const [letter, ids] of holders) {
    for (const [i, id] of ids.entries()) keyOf.set(id, letter.repeat(i + 1));
  }
  return { holders, keyOf };
}

/** The key of the option at that place, counted from 0. */
export function optionKey(place: number): string {
  return DIGITS.charAt(place) || ALPHABET.charAt(place - DIGITS.length);
}

/** What is typed into the field means one of these. Nothing is done before it is certain. */
export type Reading =
  | { kind: "empty" }
  | { kind: "answer"; to: string; is: string }
  /** A question was chosen; its answer is still to come. */
  | { kind: "question"; to: string }
  /** The plant's name, as far as it is typed, and which of the plants found is meant: 0 is the first. */
  | { kind: "plant"; to: string; name: string; pick: number | null }
  | { kind: "words"; words: string }
  | { kind: "command"; command: DeskCommand }
  | { kind: "unknown" };

export const deskCommands = { "?": "keys", ".": "hand-over", ",": "take-over" } as const;
export type DeskCommand = (typeof deskCommands)[keyof typeof deskCommands];

/** Reads what stands in the field. `best`: the question that digits alone answer. */
export function readKeys(flow: Flow, keys: DeskKeys, best: string | null, typed: string): Reading {
  if (typed === "") return { kind: "empty" };
  if (/^[ /]/.test(typed)) return { kind: "words", words: typed.slice(1).trimStart() };
  const text = typed.toLowerCase();
  const command = (deskCommands as Record<string, DeskCommand | undefined>)[text];
  if (command) return { kind: "command", command };
  if (/^\d$/.test(text)) return best === null ? { kind: "unknown" } : answerBy(flow, best, text);
  const [first = "", ...rest] = text;
  return chooseQuestion(flow, keys.holders.get(first) ?? [], first, rest.join(""));
}

function chooseQuestion(flow: Flow, holders: readonly string[], letter: string, typed: string): Reading {
  let rest = typed;
  for (const id of holders) {
    if (id === flow.hostQuestion?.id) return readPlant(id, rest);
    if (rest === "") return { kind: "question", to: id };
    const answer = rest.length === 1 ? answerBy(flow, id, rest) : ({ kind: "unknown" } as const);
    if (answer.kind === "answer") return answer;
    if (rest.charAt(0) !== letter) return { kind: "unknown" };
    rest = rest.slice(1);
  }
  return { kind: "unknown" };
}

function readPlant(to: string, typed: string): Reading {
  if (typed === "") return { kind: "question", to };
  if (typed === NOT_SURE_KEY) return { kind: "answer", to, is: NOT_SURE };
  const place = DIGITS.indexOf(typed.slice(-1));
  const name = place < 0 ? typed : typed.slice(0, -1);
  return { kind: "plant", to, name: name.trim(), pick: place < 0 ? null : place };
}

function answerBy(flow: Flow, to: string, key: string): Reading {
  if (key === NOT_SURE_KEY) return { kind: "answer", to, is: NOT_SURE };
  const options = flow.question(to)?.options ?? [];
  const option = options.find((_, place) => optionKey(place) === key);
  return option ? { kind: "answer", to, is: option.id } : { kind: "unknown" };
}
