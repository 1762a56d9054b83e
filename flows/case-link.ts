import { type Answer, type Case, isAnswer, isDayId, newCase } from "./case.ts";
import type { Host } from "./edition.ts";
import { findHosts } from "./find-host.ts";
import { closeFindings, PRESENT } from "./finding-table.ts";
import { type Flow, NOT_SURE } from "./flow.ts";

export const linkProblemCodes = [
  "TOO_LONG",
  "BAD_EDITION",
  "UNKNOWN_QUESTION",
  "UNKNOWN_ANSWER",
  "UNKNOWN_PLANT",
  "CONTRADICTION",
] as const;

/** A part of a link that could not be used. The rest of the link is kept. */
export interface LinkProblem {
  code: (typeof linkProblemCodes)[number];
  part: string;
  sentence: string;
}

/** What a shopper can tell about the home and the tools. It changes dates and amounts, never the verdict. */
export const numberNames = [
  "units",
  "room",
  "start",
  "bottle",
  "bottle-unit",
  "outdoor",
  "outdoor-humidity",
  "pot",
  "pot-bottom",
  "pot-height",
  "roots",
] as const;
/** A product type may have a bottle of its own. No id holds a dot, so such a name is never an id. */
export type OwnBottleName = `bottle.${string}` | `bottle-unit.${string}`;
export type NumberName = (typeof numberNames)[number] | OwnBottleName;

export function isOwnBottleName(name: string): name is OwnBottleName {
  return /^bottle(?:-unit)?\.[a-z0-9-]{1,60}$/.test(name);
}

/** What an owner thought and asked in passing: ids joined by dots. Shown with the verdict, never evidence. */
export const remarkNames = ["thought", "asked"] as const;
export type RemarkName = (typeof remarkNames)[number];

/** The ids of a remark in the order they were told, each once. */
export function readIds(remark: string | undefined): string[] {
  return [...new Set((remark ?? "").split("."))].filter((id) => id !== "");
}

/** Query names that are not part of a case. No question or finding may have one of these as its id. */
export const asideNames = [
  "change",
  "code",
  "to",
  "plant",
  "dropped",
  "look",
  "made",
  "replace",
  "branch",
  ...numberNames,
  ...remarkNames,
] as const;

/** Longest query that is read, in characters: far above any real case. */
export const LONGEST_LINK = 4000;
const LONGEST_PART = 60;

/** The case as a readable query string: `e=1&what-you-see=white&host=basil&fine-webbing=no`. */
export function writeLink(flow: Flow, kase: Case): string {
  const pairs = kase.answers.map(({ to, is }) => `${to}=${is}`);
  return [`e=${flow.edition.number}`, ...pairs].join("&");
}

/** The edition number a link was made under, or undefined. */
export function editionOf(query: string): number | undefined {
  const found = /(?:^|[?&])e=(\d{1,6})(?:&|$)/.exec(query);
  return found ? Number(found[1]) : undefined;
}

/**
 * Reads a link's query. Accepts questions with their answers, findings with `yes` or `no`, bare finding ids, and
 * `host` with an id or a name. What cannot be read is named; everything else is kept.
 */
export function readLink(flow: Flow, query: string): { case: Case; problems: LinkProblem[] } {
  const problems: LinkProblem[] = [];
  if (query.length > LONGEST_LINK) {
    problems.push({
      code: "TOO_LONG",
      part: "",
      sentence: "This link is too long to be one of ours. We start afresh.",
    });
    return { case: newCase(flow), problems };
  }
  const answers: Answer[] = [];
  for (const [to, is] of readPairs(query)) {
    if (to === "e") {
      if (!/^\d{1,6}$/.test(is)) problems.push(problem("BAD_EDITION", is));
      continue;
    }
    const answer = readAnswer(flow, to, is);
    if ("code" in answer) problems.push(answer);
    else if (!answers.some((given) => given.to === answer.to)) answers.push(answer);
    else if (!answers.some((given) => given.to === answer.to && given.is === answer.is)) {
      problems.push(problem("CONTRADICTION", `${to}=${is}`));
    }
  }
  return { case: { edition: flow.edition.number, answers }, problems };
}

function readAnswer(flow: Flow, to: string, is: string): Answer | LinkProblem {
  if (to === flow.hostQuestion?.id) {
    if (is === NOT_SURE || flow.host(is)) return { to, is };
    const [best, ...others] = findHosts(flow, is, 2);
    if (best && (others.length === 0 || isNameOf(best, is))) return { to, is: best.id };
    return problem("UNKNOWN_PLANT", is);
  }
  const answer = { to, is: is === "" && flow.finding(to) ? "yes" : is };
  if (isAnswer(flow, answer)) return answer;
  const isDay = flow.looks !== undefined && isDayId(to);
  const known = isDay || flow.promptById.has(to) || flow.finding(to) !== undefined;
  return problem(known ? "UNKNOWN_ANSWER" : "UNKNOWN_QUESTION", known ? `${to}=${is}` : to);
}

/**
 * Findings told as not there that others show all the same: a sharper one, or the parts that make them. What was seen
 * counts, whoever said it first; both stay in the case, so that the one that is wrong can be mended.
 */
export function findContradictions(flow: Flow, kase: Case): LinkProblem[] {
  const { findings, edition } = flow;
  const seen = kase.answers.flatMap(({ to, is }) => {
    const reply = flow.promptById.get(to)?.replies.find(({ id }) => id === is);
    return reply?.present ?? (is === "yes" && findings.index.has(to) ? [findings.at(to)] : []);
  });
  const closed = closeFindings(findings, seen, []);
  return kase.answers.flatMap(({ to, is }) => {
    const denied = findings.index.get(to);
    if (is !== "no" || denied === undefined || closed[denied] !== PRESENT) return [];
    const parts = findings.combines.find(({ whole }) => whole === denied)?.parts ?? [];
    const shows = (f: number) => f === denied || findings.vaguer[f]?.includes(denied) === true;
    const shown = seen.some(shows) ? seen.filter(shows) : parts;
    const names = [...new Set(shown)].flatMap((f) => edition.findings[f]?.name ?? []).join(", ");
    const sentence = `You told us “${names}” and also “${flow.finding(to)?.absent}”. Both cannot be. We go by what was seen.`;
    return [{ code: "CONTRADICTION", part: `${to}=no`, sentence }];
  });
}

function isNameOf({ name, botanical, alsoCalled }: Host, text: string): boolean {
  return [name, botanical, ...alsoCalled].some((known) => known?.toLowerCase() === text.trim().toLowerCase());
}

function* readPairs(query: string): Generator<[string, string]> {
  for (const pair of query.replace(/^\?/, "").split("&")) {
    if (pair === "") continue;
    const cut = pair.indexOf("=");
    yield cut < 0 ? [decode(pair), ""] : [decode(pair.slice(0, cut)), decode(pair.slice(cut + 1))];
  }
}

/** Percent-decoding that never throws: a broken escape is kept as it stands. */
function decode(text: string): string {
  const spaced = text.replaceAll("+", " ");
  try {
    return decodeURIComponent(spaced);
  } catch {
    return spaced;
  }
}

const sentences: Record<LinkProblem["code"], (part: string) => string> = {
  TOO_LONG: () => "This link is too long to be one of ours.",
  BAD_EDITION: (part) => `“${part}” is not the number of an edition. We use today's.`,
  UNKNOWN_QUESTION: (part) => `We do not know “${part}”. We kept the rest.`,
  UNKNOWN_ANSWER: (part) => `“${part}” is not one of the answers. We kept the rest and ask again.`,
  UNKNOWN_PLANT: (part) =>
    `We do not know a plant called “${part}”. Choose one from the list, or go on without.`,
  CONTRADICTION: (part) => `“${part}” says something else than before. We kept the first answer.`,
};

function problem(code: LinkProblem["code"], part: string): LinkProblem {
  const short = part.length > LONGEST_PART ? `${part.slice(0, LONGEST_PART)}…` : part;
  return { code, part: short, sentence: sentences[code](short) };
}
