import { caseDays } from "./calendar/civil-date.ts";
import { type Answer, answerTo, type Case, dayIds, giveAnswer, isDayId, newCase } from "./case.ts";
import { readBase32, writeBase32 } from "./crockford.ts";
import { type Flow, NOT_SURE } from "./flow.ts";
import { nextQuestion } from "./next-question.ts";

export const codeProblemCodes = [
  "CODE_EMPTY",
  "CODE_TOO_LONG",
  "CODE_BAD_SYMBOL",
  "CODE_WRONG_CHECK",
  "CODE_UNKNOWN_EDITION",
  "CODE_NOT_A_CASE",
] as const;
export type CodeProblem = (typeof codeProblemCodes)[number];

export type CodeReading = { ok: true; case: Case } | { ok: false; code: CodeProblem; sentence: string };

/** Longest code that is read, spacing included. Real ones have about ten characters. */
export const LONGEST_CODE = 400;
const EDITIONS = 64n;
const MANY_EDITIONS = 1_000_000n;

/**
 * The case as a few characters: edition, then the rank of each answer along the path, then what was volunteered, as one
 * number in mixed radix. The first digit is the least significant, so what was not answered costs nothing.
 */
export function writeCode(flow: Flow, kase: Case): string {
  const packed = new Digits();
  writeEdition(packed, flow.edition.number);
  let path = newCase(flow);
  for (let next = nextQuestion(flow, path); next; next = nextQuestion(flow, path)) {
    const ranks = choices(flow, next.id);
    const is = answerTo(kase, next.id);
    packed.put(is === undefined ? 0 : ranks.indexOf(is) + 1, ranks.length + 1);
    if (is === undefined) break;
    path = giveAnswer(flow, path, next.id, is).case;
  }
  const askable = askables(flow);
  const volunteered = kase.answers
    .filter(({ to }) => answerTo(path, to) === undefined)
    .map((answer) => ({ answer, at: askable.indexOf(answer.to) }))
    .sort((a, b) => a.at - b.at);
  for (const { answer, at } of volunteered) {
    const ranks = choices(flow, answer.to);
    packed.put(at + 1, askable.length + 1);
    packed.put(ranks.indexOf(answer.is), ranks.length);
  }
  return writeBase32(packed.value());
}

/**
 * Reads a code. `flowOf` gives the flow of an edition number, or undefined when that edition is not at hand.
 * A wrong character is noticed by the check symbol and refused, never guessed.
 */
export function readCode(flowOf: (edition: number) => Flow | undefined, text: string): CodeReading {
  if (text.length > LONGEST_CODE) return refuse("CODE_TOO_LONG");
  const read = readBase32(text);
  if (!read.ok) return refuse(read.code, read.symbol);
  const packed = new Packed(read.value);
  const flow = flowOf(readEdition(packed));
  if (!flow) return refuse("CODE_UNKNOWN_EDITION");
  const kase = unpack(flow, packed);
  // A number that we would never write is a slip of several characters that the check symbol happened to let through.
  if (!kase || writeCode(flow, kase) !== writeBase32(read.value)) return refuse("CODE_NOT_A_CASE");
  return { ok: true, case: kase };
}

/** The edition number a code was made under, without reading the rest; undefined when the code itself is broken. */
export function editionOfCode(text: string): number | undefined {
  if (text.length > LONGEST_CODE) return undefined;
  const read = readBase32(text);
  return read.ok ? readEdition(new Packed(read.value)) : undefined;
}

function unpack(flow: Flow, packed: Packed): Case | undefined {
  let kase = newCase(flow);
  for (let next = nextQuestion(flow, kase); next; next = nextQuestion(flow, kase)) {
    const ranks = choices(flow, next.id);
    const rank = packed.take(ranks.length + 1);
    if (rank === 0) break;
    kase = giveAnswer(flow, kase, next.id, ranks[rank - 1] ?? NOT_SURE).case;
  }
  const askable = askables(flow);
  const answers: Answer[] = [...kase.answers];
  while (!packed.isEmpty()) {
    const to = askable[packed.take(askable.length + 1) - 1];
    if (to === undefined || answers.some((answer) => answer.to === to)) return undefined;
    const ranks = choices(flow, to);
    const is = ranks[packed.take(ranks.length)];
    if (is === undefined) return undefined;
    answers.push({ to, is });
  }
  return { ...kase, answers };
}

function choices(flow: Flow, to: string): readonly string[] {
  const prompt = flow.promptById.get(to);
  if (prompt) return prompt.replies.map((reply) => reply.id);
  if (to === flow.hostQuestion?.id) return [...flow.edition.hosts.map((host) => host.id), NOT_SURE];
  if (isDayId(to)) return caseDays();
  return ["yes", "no"];
}

function askables(flow: Flow): string[] {
  return [
    ...(flow.hostQuestion ? [flow.hostQuestion.id] : []),
    ...flow.promptById.keys(),
    ...flow.edition.findings.map((finding) => finding.id),
    // Editions without a second look keep the codes they always had.
    ...(flow.looks ? dayIds : []),
  ];
}

function writeEdition(packed: Digits, edition: number): void {
  const small = BigInt(edition) < EDITIONS;
  packed.put(small ? edition : 0, Number(EDITIONS));
  if (!small) packed.put(edition, Number(MANY_EDITIONS));
}

function readEdition(packed: Packed): number {
  const small = packed.take(Number(EDITIONS));
  return small > 0 ? small : packed.take(Number(MANY_EDITIONS));
}

/** Collects digits of a mixed-radix number, least significant first. */
class Digits {
  readonly #digits: { digit: number; radix: number }[] = [];

  put(digit: number, radix: number): void {
    this.#digits.push({ digit, radix });
  }

  value(): bigint {
    return this.#digits.reduceRight((value, { digit, radix }) => value * BigInt(radix) + BigInt(digit), 0n);
  }
}

/** Takes the digits off again, in the order they were put. */
class Packed {
  #rest: bigint;

  constructor(value: bigint) {
    this.#rest = value;
  }

  take(radix: number): number {
    const digit = Number(this.#rest % BigInt(radix));
    this.#rest /= BigInt(radix);
    return digit;
  }

  isEmpty(): boolean {
    return this.#rest === 0n;
  }
}

const sentences: Record<CodeProblem, (symbol: string) => string> = {
  CODE_EMPTY: () => "Type the whole code. It is on the slip and at the end of the check.",
  CODE_TOO_LONG: () => "This is too long to be one of our codes. They have about ten characters.",
  CODE_BAD_SYMBOL: (symbol) => `Our codes hold no “${symbol}”. Please look at that character again.`,
  CODE_WRONG_CHECK: () => "One character of the code is not right. Please compare it once more.",
  CODE_UNKNOWN_EDITION: () => "This code is from an edition we no longer have. Please start afresh.",
  CODE_NOT_A_CASE: () => "This code does not lead to a check. Please compare it once more.",
};

function refuse(code: CodeProblem, symbol = ""): CodeReading {
  return { ok: false, code, sentence: sentences[code](symbol) };
}
