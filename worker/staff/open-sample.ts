import type { Case } from "../../flows/case.ts";
import { editionOfCode, readCode, writeCode } from "../../flows/case-code.ts";
import { editionOf, readLink } from "../../flows/case-link.ts";
import type { Flow } from "../../flows/flow.ts";
import { nextQuestion } from "../../flows/next-question.ts";
import { type Editions, replay } from "../../widget/check/replay.ts";
import { editionNumbered } from "../api/routes.ts";
import { counterWords } from "./counter-words.ts";

/** The case a sample belongs to, under the edition it was made with: what the shopper was told. */
export interface Sample {
  flow: Flow;
  case: Case;
  code: string;
  /** What should be known of how it was read. */
  notices: string[];
}

export type SampleReading = { ok: true; sample: Sample } | { ok: false; sentence: string };

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

/** The edition to have at hand before the sample can be opened. */
export function editionOfSample(text: string): number | undefined {
  const typed = readTyped(text);
  return "query" in typed ? editionOf(typed.query) : editionOfCode(typed.code);
}

export function openSample(editions: Editions, text: string): SampleReading {
  const typed = readTyped(text);
  return "query" in typed ? openLink(editions, typed.query) : openCode(editions, typed.code);
}

function openCode(editions: Editions, code: string): SampleReading {
  const read = readCode((number) => editionNumbered(editions, number), code);
  if (!read.ok) return { ok: false, sentence: read.sentence };
  const flow = editionNumbered(editions, read.case.edition) ?? editions.live;
  return { ok: true, sample: describe(editions, flow, read.case, []) };
}

function openLink(editions: Editions, query: string): SampleReading {
  const asked = editionOf(query);
  const flow = editions.asked?.edition.number === asked ? (editions.asked ?? editions.live) : editions.live;
  const { case: kase, problems } = readLink(flow, query);
  if (kase.answers.length === 0) return { ok: false, sentence: counterWords.emptyLink };
  const gone = replay(editions, query, asked).edition?.code === "UNKNOWN_EDITION";
  const notices = [
    ...(gone ? [counterWords.editionGone(String(asked))] : []),
    ...problems.map(({ sentence }) => sentence),
  ];
  return { ok: true, sample: describe(editions, flow, kase, notices) };
}

function describe(editions: Editions, flow: Flow, kase: Case, notices: string[]): Sample {
  const { number } = flow.edition;
  return {
    flow,
    case: kase,
    code: writeCode(flow, kase),
    notices: [
      ...notices,
      ...(number === editions.live.edition.number ? [] : [counterWords.olderEdition(number)]),
      ...(nextQuestion(flow, kase) === null ? [] : [counterWords.unfinished]),
    ],
  };
}
