import type { Case } from "../../flows/case.ts";
import { writeCode } from "../../flows/case-code.ts";
import { editionOf, readLink } from "../../flows/case-link.ts";
import { editionsMeant } from "../../flows/desk/mishearing.ts";
import type { Flow } from "../../flows/flow.ts";
import { nextQuestion } from "../../flows/next-question.ts";
import { type Editions, replay } from "../../widget/check/replay.ts";
import type { GuessInWords } from "../../widget/views/desk/desk-state.ts";
import { readCodeUnder } from "../pages/read-typed-code.ts";
import type { Setting } from "../setting.ts";
import { counterWords } from "./counter-words.ts";

/** The case a sample belongs to, under the edition it was made with: what the shopper was told. */
export interface Sample {
  flow: Flow;
  case: Case;
  code: string;
  /** What should be known of how it was read. */
  notices: string[];
}

/** A code that is not right comes with what it may have been. */
export type SampleReading =
  | { ok: true; live: Flow; sample: Sample }
  | { ok: false; live: Flow; sentence: string; guesses: readonly GuessInWords[] };

/** What was typed, or what a scanner typed off a slip: the query of a case's link, or a code. */
type Typed = { query: string } | { code: string };

function readTyped(text: string): Typed {
  const [address = ""] = text.trim().split("#");
  const [, inAddress] = /\/c\/([^?]+)/.exec(address) ?? [];
  if (inAddress !== undefined) return { code: decode(inAddress) };
  return address.includes("?") ? { query: address.slice(address.indexOf("?") + 1) } : { code: address };
}

function decode(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

/** What opens editions. */
type Opens = Pick<Setting["Variables"], "openEditions" | "openAnyEditions">;

/** Opens what was typed, with one read of the editions. */
export async function openSample(open: Opens, text: string): Promise<SampleReading> {
  const typed = readTyped(text);
  if ("query" in typed) return openLink(await open.openEditions(editionOf(typed.query)), typed.query);
  const read = readCodeUnder(await open.openAnyEditions(editionsMeant(typed.code)), typed.code);
  const { live } = read;
  if (read.ok) return { ok: true, live, sample: describe(live, read.flow, read.case, []) };
  const { sentences, guesses } = read.failed;
  return { ok: false, live, sentence: sentences.join(" "), guesses };
}

function openLink(editions: Editions, query: string): SampleReading {
  const { live } = editions;
  const asked = editionOf(query);
  const flow = editions.asked?.edition.number === asked ? (editions.asked ?? live) : live;
  const { case: kase, problems } = readLink(flow, query);
  if (kase.answers.length === 0) return { ok: false, live, sentence: counterWords.emptyLink, guesses: [] };
  const gone = replay(editions, query, asked).edition?.code === "UNKNOWN_EDITION";
  const notices = [
    ...(gone ? [counterWords.editionGone(String(asked))] : []),
    ...problems.map(({ sentence }) => sentence),
  ];
  return { ok: true, live, sample: describe(live, flow, kase, notices) };
}

function describe(live: Flow, flow: Flow, kase: Case, notices: string[]): Sample {
  const { number } = flow.edition;
  return {
    flow,
    case: kase,
    code: writeCode(flow, kase),
    notices: [
      ...notices,
      ...(number === live.edition.number ? [] : [counterWords.olderEdition(number)]),
      ...(nextQuestion(flow, kase) === null ? [] : [counterWords.unfinished]),
    ],
  };
}
