import { type Case, giveAnswer, newCase } from "./case.ts";
import { writeLink } from "./case-link.ts";
import type { Question, Standing } from "./edition.ts";
import { findHosts } from "./find-host.ts";
import { ABSENT, closeFindings, PRESENT } from "./finding-table.ts";
import { type Flow, NOT_SURE, type Reply } from "./flow.ts";
import { nextQuestion } from "./next-question.ts";
import { makePlan } from "./plan.ts";
import { judge } from "./verdict.ts";

/** A real case with the expert's conclusion. Fields not named here are ignored. */
export interface CaseHistory {
  id: string;
  /** The plant in the owner's words; empty when not told. */
  plant: string;
  present: string[];
  absent: string[];
  household: { edible: boolean | null; pets: boolean | null; children: boolean | null };
  /** Conditions that are right as a first answer; empty when the expert would not choose. */
  accept: string[];
  also: string[];
  in_scope: boolean;
}

export interface Replay {
  id: string;
  questions: number;
  asked: string[];
  standing: Standing;
  firstThree: string[];
  secondFinding: string | null;
  methods: string[];
  case: Case;
  link: string;
}

/** Plays a case history: a simulated shopper answers each question from what the history states, and no more. */
export function replayHistory(flow: Flow, history: CaseHistory): Replay {
  const shopper = makeShopper(flow, history);
  const asked: string[] = [];
  let kase = newCase(flow);
  for (let next = nextQuestion(flow, kase); next; next = nextQuestion(flow, kase)) {
    asked.push(next.id);
    kase = giveAnswer(flow, kase, next.id, shopper(next)).case;
  }
  const verdict = judge(flow, kase);
  const plan = makePlan(flow, kase, verdict);
  const methods = plan.steps.map((step) => flow.remedy(step.remedy)?.method ?? "");
  return {
    id: history.id,
    questions: asked.length,
    asked,
    standing: verdict.standing,
    firstThree: verdict.candidates.slice(0, 3).map(({ condition }) => condition),
    secondFinding: verdict.beside[0] ?? null,
    methods: [...new Set(methods)],
    case: kase,
    link: writeLink(flow, kase),
  };
}

/** Answers a question the way an owner would who knows exactly what the history states. */
function makeShopper(flow: Flow, history: CaseHistory): (question: Question) => string {
  const indexes = (ids: readonly string[]) => ids.flatMap((id) => flow.findings.index.get(id) ?? []);
  const known = closeFindings(flow.findings, indexes(history.present), indexes(history.absent));
  const host = namedHost(flow, history.plant);
  return (question) => {
    if (question.kind === "host") return host ?? NOT_SURE;
    const replies = flow.promptById.get(question.id)?.replies.slice(0, -1) ?? [];
    return question.kind === "fact" ? factReply(replies, history) : findingReply(replies, known);
  };
}

function namedHost(flow: Flow, plant: string): string | undefined {
  const name = plant.replace(/\([^()]*\)/g, " ");
  return findHosts(flow, name, 1)[0]?.id;
}

/** The reply that most of the known findings support; "none of these" only when all of it is known to be absent. */
function findingReply(replies: readonly Reply[], known: Uint8Array): string {
  let best = NOT_SURE;
  let most = 0;
  for (const reply of replies) {
    if (reply.present.some((finding) => known[finding] === ABSENT)) continue;
    if (reply.absent.some((finding) => known[finding] === PRESENT)) continue;
    const hits = reply.present.filter((finding) => known[finding] === PRESENT).length;
    const score = hits * 10 - (reply.present.length - hits);
    if (hits > 0 && score > most) {
      best = reply.id;
      most = score;
    }
    const denied = reply.present.length === 0 && reply.absent.every((f) => known[f] === ABSENT);
    if (denied && most === 0 && best === NOT_SURE) best = reply.id;
  }
  return best;
}

function factReply(replies: readonly Reply[], { household }: CaseHistory): string {
  const told = { eaten: household.edible, pets: household.pets, children: household.children };
  const fits = replies.find(({ facts }) => {
    const stated = Object.entries(facts);
    return (
      stated.length > 0 &&
      stated.every(([fact, is]) => (told as Record<string, boolean | null>)[fact] === (is === "yes"))
    );
  });
  return fits?.id ?? NOT_SURE;
}

/** Rates over a set of histories, each from 0 to 1. */
export interface Totals {
  inScope: number;
  rightFirst: number;
  rightInThree: number;
  rightWhenSuspected: number;
  suspected: number;
  samplesSuspected: number;
  medianQuestions: number;
  longest: number;
}

/** Scores replays against the experts' conclusions. Cases with an empty `accept` count only in `samplesSuspected`. */
export function scoreReplays(histories: readonly CaseHistory[], replays: readonly Replay[]): Totals {
  const pairs = histories.flatMap((history, i) => {
    const replay = replays[i];
    return replay && history.in_scope ? [{ history, replay }] : [];
  });
  const decided = pairs.filter(({ history }) => history.accept.length > 0);
  const open = pairs.filter(({ history }) => history.accept.length === 0);
  const suspected = decided.filter(({ replay }) => replay.standing === "suspected");
  const first = ({ history, replay }: (typeof pairs)[number]) =>
    history.accept.includes(replay.firstThree[0] ?? "");
  const counts = replays.map((replay) => replay.questions).sort((a, b) => a - b);
  return {
    inScope: decided.length,
    rightFirst: rate(decided, first),
    rightInThree: rate(decided, ({ history, replay }) =>
      replay.firstThree.some((id) => history.accept.includes(id)),
    ),
    rightWhenSuspected: rate(suspected, ({ history, replay }) =>
      [...history.accept, ...history.also].includes(replay.firstThree[0] ?? ""),
    ),
    suspected: suspected.length,
    samplesSuspected: rate(open, ({ replay }) => replay.standing === "suspected"),
    medianQuestions: counts[Math.floor(counts.length / 2)] ?? 0,
    longest: counts.at(-1) ?? 0,
  };
}

function rate<T>(items: readonly T[], holds: (item: T) => boolean): number {
  if (items.length === 0) return 1;
  return Math.round((items.filter(holds).length / items.length) * 1000) / 1000;
}
