import { type Answer, type Case, giveAnswer, newCase } from "../case.ts";
import { writeLink } from "../case-link.ts";
import { type Standing, standings } from "../edition.ts";
import { type Flow, NOT_SURE } from "../flow.ts";
import { nextQuestion } from "../next-question.ts";
import { type Progress, runToEnd } from "../progress.ts";
import { judge } from "../verdict.ts";
import { classifyHosts, type HostClass } from "./classes.ts";
import { checkPlans, countFactPaths, type FactPaths } from "./household.ts";
import { type LookReport, walkLooks } from "./second-look.ts";
import { type Ending, traverseSteps } from "./traverse.ts";

export const LONGEST_ALLOWED = 14;

/** A rule of the design that a conversation breaks, with the shortest conversation that shows it. */
export interface Violation {
  invariant: string;
  sentence: string;
  /** Case link of the shortest conversation found. */
  conversation: string;
}

export interface WalkReport {
  /** All conversations from the first question to the verdict, exactly. */
  conversations: bigint;
  byStanding: Record<Standing, bigint>;
  /** Questions in the longest of them. */
  longest: number;
  /** Points of the conversation tree; host plants and household facts are counted, not walked one by one. */
  points: number;
  endings: number;
  /** What can follow when the case is opened again. */
  looks: LookReport;
  /** The highest standing that each condition reaches. */
  reached: Record<string, Standing | "never">;
  violations: Violation[];
}

/** Walks every conversation that the edition allows and checks every invariant of the design. Exact, never sampled. */
export function walk(flow: Flow): WalkReport {
  return runToEnd(walkSteps(flow));
}

/** The same, bit by bit: for a page that shows how far it is, and can stop. */
export function* walkSteps(flow: Flow): Generator<Progress, WalkReport> {
  const classes = classifyHosts(flow);
  const traversal = yield* share(traverseSteps(flow, classes), 0, 0.7);
  const paths = countFactPaths(flow);
  const counted = countConversations(flow, classes, traversal.endings, paths);
  const reached = highestStandings(flow, traversal.endings);
  const looks = walkLooks(flow, traversal.endings, classes);
  const plans = yield* share(checkPlans(flow, traversal.endings, classes), 0.75, 1);
  const violations = [
    ...looks.violations,
    ...plans,
    ...checkReach(flow, reached),
    ...checkAsked(flow, traversal.asked),
    ...checkUnsure(flow),
  ];
  if (traversal.orderMatters) {
    violations.push({
      invariant: "ORDER_NEVER_MATTERS",
      sentence: "The same answers in another order give another verdict.",
      conversation: linkOf(flow, traversal.orderMatters),
    });
  }
  if (counted.longest > LONGEST_ALLOWED) {
    violations.push({
      invariant: "LONGEST_CONVERSATION",
      sentence: `A conversation has ${counted.longest} questions; ${LONGEST_ALLOWED} are allowed.`,
      conversation: "",
    });
  }
  const { points, endings } = traversal;
  return { ...counted, points, endings: endings.length, looks: looks.report, reached, violations };
}

/** Progress of one part of the work, as progress of the whole. */
function* share<T>(work: Generator<Progress, T>, from: number, to: number): Generator<Progress, T> {
  for (;;) {
    const step = work.next();
    if (step.done) return step.value;
    yield { share: from + step.value.share * (to - from), points: step.value.points };
  }
}

function countConversations(
  flow: Flow,
  classes: readonly HostClass[],
  endings: readonly Ending[],
  paths: FactPaths,
): Pick<WalkReport, "conversations" | "byStanding" | "longest"> {
  const byStanding: Record<Standing, bigint> = { undetermined: 0n, leaning: 0n, suspected: 0n };
  const before = flow.hostQuestion ? 1 : 0;
  let longest = 0;
  for (const ending of endings) {
    let ways = 0n;
    ending.counts.forEach((count, i) => {
      if (count === 0) return;
      const { replies, questions } = paths(ending, classes[i]?.hosts ?? []);
      ways += BigInt(count) * BigInt(replies);
      longest = Math.max(longest, ending.longest + before + questions);
    });
    byStanding[ending.decision.standing] += ways;
  }
  const conversations = standings.reduce((sum, standing) => sum + byStanding[standing], 0n);
  return { conversations, byStanding, longest };
}

function highestStandings(flow: Flow, endings: readonly Ending[]): Record<string, Standing | "never"> {
  const highest = new Map<number, number>();
  for (const { decision } of endings) {
    if (decision.standing === "undetermined") continue;
    const rank = standings.indexOf(decision.standing);
    highest.set(decision.leader, Math.max(rank, highest.get(decision.leader) ?? 0));
    for (const c of decision.beside) if (!highest.has(c)) highest.set(c, 0);
  }
  return Object.fromEntries(
    flow.edition.conditions.map(({ id }, c) => [id, standings[highest.get(c) ?? -1] ?? "never"]),
  );
}

function checkReach(flow: Flow, reached: Record<string, Standing | "never">): Violation[] {
  return flow.edition.conditions.flatMap(({ id, name, evidence }) => {
    const goal = evidence.hallmark.length > 0 ? "suspected" : "leaning";
    const is = reached[id];
    if (is === "suspected" || is === goal) return [];
    const sentence = `No conversation ends with “${name}” as ${goal}.`;
    return [{ invariant: "EVERY_CONDITION_REACHABLE", sentence, conversation: "" }];
  });
}

function checkAsked(flow: Flow, asked: ReadonlySet<string>): Violation[] {
  return flow.prompts.flatMap(({ question }) => {
    if (asked.has(question.id)) return [];
    const sentence = `The question “${question.prompt}” is never asked.`;
    return [{ invariant: "EVERY_QUESTION_ASKABLE", sentence, conversation: "" }];
  });
}

/** "Not sure" to everything must end in a sample request, not in a guess. */
function checkUnsure(flow: Flow): Violation[] {
  let kase: Case = newCase(flow);
  for (let next = nextQuestion(flow, kase); next; next = nextQuestion(flow, kase)) {
    kase = giveAnswer(flow, kase, next.id, NOT_SURE).case;
  }
  const verdict = judge(flow, kase);
  if (verdict.standing === "undetermined" && verdict.bringSample) return [];
  const sentence = "“Not sure” to everything ends in a guess.";
  return [{ invariant: "UNSURE_MEANS_SAMPLE", sentence, conversation: writeLink(flow, kase) }];
}

function linkOf(flow: Flow, answers: readonly Answer[]): string {
  return writeLink(flow, { edition: flow.edition.number, answers });
}
