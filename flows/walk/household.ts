import type { Knowledge } from "../case.ts";
import { writeLink } from "../case-link.ts";
import { type Fact, facts, type Standing } from "../edition.ts";
import { type Flow, NOT_SURE } from "../flow.ts";
import { factPromptsFor, factState, planOf, remediesFor, wantedRemedies } from "../plan.ts";
import type { Progress } from "../progress.ts";
import type { Verdict } from "../verdict.ts";
import type { HostClass } from "./classes.ts";
import { findPlanFaults, type PlanFault } from "./plan-invariants.ts";
import { groupByTraits, type HostTraits } from "./traits.ts";
import type { Ending } from "./traverse.ts";
import type { Violation } from "./walk.ts";

/** How many ways the questions about the household can be answered after an ending, and how many questions they are. */
export type FactPaths = (
  ending: Ending,
  hosts: readonly (string | null)[],
) => { replies: number; questions: number };

/**
 * A plan is the union of its causes' remedies, so the facts it depends on are the union of what each cause depends on:
 * worked out once per cause, standing and kind of host, then joined.
 */
export function countFactPaths(flow: Flow): FactPaths {
  const groups = groupByTraits(flow);
  const groupOf = new Map(groups.flatMap((group) => [...group.hosts].map((host) => [host, group] as const)));
  const needs = new Map<HostTraits, Map<string, Set<string>>>(groups.map((group) => [group, new Map()]));
  const needed = (group: HostTraits, standing: Standing, cause: number, isLeader: boolean) => {
    const key = `${standing}|${cause}|${isLeader}`;
    const known = needs.get(group);
    let prompts = known?.get(key);
    if (!prompts) {
      const id = flow.edition.conditions[cause]?.id ?? null;
      const remedies = remediesFor(flow, standing, id, isLeader);
      const open = factPromptsFor(flow, knowledgeOf(flow, group, {}), remedies);
      prompts = new Set(open.map(({ question }) => question.id));
      known?.set(key, prompts);
    }
    return prompts;
  };
  const width = new Map(flow.factPrompts.map(({ question, replies }) => [question.id, replies.length]));
  return ({ decision, behind }, hosts) => {
    const causes =
      decision.standing === "undetermined" ? [-1] : [decision.leader, ...decision.beside, ...behind];
    let replies = 0;
    let questions = 0;
    for (const host of hosts) {
      const group = groupOf.get(host);
      if (!group) continue;
      const prompts = new Set(
        causes.flatMap((cause, i) => [...needed(group, decision.standing, cause, i === 0)]),
      );
      replies += [...prompts].reduce((ways, id) => ways * (width.get(id) ?? 1), 1);
      questions = Math.max(questions, prompts.size);
    }
    return { replies, questions };
  };
}

/** A verdict with just what a plan looks at. */
export function verdictOf(flow: Flow, standing: Standing, causes: readonly number[]): Verdict {
  const ids = causes.flatMap((c) => flow.edition.conditions[c]?.id ?? []);
  const [leader = null, ...rest] = ids;
  return {
    standing,
    leader,
    beside: rest,
    lead: 0,
    candidates: [],
    separatingCheck: null,
    bringSample: standing === "undetermined",
  };
}

export function knowledgeOf(
  flow: Flow,
  group: HostTraits,
  stated: Partial<Record<Fact, "yes" | "no">>,
): Knowledge {
  return {
    known: new Uint8Array(flow.findings.size),
    host: group.example?.id ?? null,
    facts: stated,
    answered: new Set(),
  };
}

/**
 * Checks the plan of every cause that conversations reach, for every kind of host and every state of the household, and
 * the joint plan of every ending in the most careful and in the most open household.
 */
export function* checkPlans(
  flow: Flow,
  endings: readonly Ending[],
  classes: readonly HostClass[],
): Generator<Progress, Violation[]> {
  const groups = groupByTraits(flow);
  const everywhere = groups.flatMap((group) => differentHouseholds(flow, group, allHouseholds()));
  const [unknown] = groups;
  const extremes = unknown ? differentHouseholds(flow, unknown, [{}, allRuledOut()]) : [];
  const violations = new Map<string, Violation>();
  const check = (ending: Ending, causes: readonly number[], homes: readonly Home[]) => {
    const { standing } = ending.decision;
    const wanted = wantedRemedies(flow, verdictOf(flow, standing, causes));
    for (const home of homes) {
      const plan = planOf(flow, home.knowledge, wanted);
      for (const fault of findPlanFaults(flow, plan, standing, home.knowledge)) {
        const key = `${fault.invariant}|${fault.remedy}|${causes[0]}`;
        if (!violations.has(key)) violations.set(key, describe(flow, fault, ending, classes, home));
      }
    }
  };
  const seen = new Set<string>();
  const sorted = [...endings].sort((a, b) => a.shortest.length - b.shortest.length);
  for (const [i, ending] of sorted.entries()) {
    if (i % 50 === 0) yield { share: i / sorted.length, points: 0 };
    const { standing, leader, beside } = ending.decision;
    const causes = standing === "undetermined" ? [] : [leader, ...beside, ...ending.behind];
    for (const cause of causes.length > 0 ? causes : [-1]) {
      const key = `${standing}|${cause}`;
      if (seen.has(key)) continue;
      seen.add(key);
      check(ending, [cause], everywhere);
    }
    check(ending, causes, extremes);
  }
  const [any] = endings;
  if (any && flow.looks) {
    // New signs at a later look can join any condition with any other.
    for (const standing of ["leaning", "suspected"] as const) {
      const reached: Ending = { ...any, decision: { ...any.decision, standing } };
      flow.edition.conditions.forEach((_, cause) => {
        if (!seen.has(`${standing}|${cause}`)) check(reached, [cause], everywhere);
        flow.edition.conditions.forEach((__, other) => {
          if (other !== cause) check(reached, [cause, other], extremes);
        });
      });
    }
  }
  return [...violations.values()];
}

type Household = Partial<Record<Fact, "yes" | "no">>;

/** A kind of plant in a household. */
interface Home {
  group: HostTraits;
  states: Household;
  knowledge: Knowledge;
}

/** Of these households, those that differ for this kind of plant: what the plant settles is not what anyone says. */
function differentHouseholds(flow: Flow, group: HostTraits, households: readonly Household[]): Home[] {
  const different = new Map<string, Home>();
  for (const states of households) {
    const knowledge = knowledgeOf(flow, group, states);
    const key = householdKey(knowledge, group);
    if (!different.has(key)) different.set(key, { group, states, knowledge });
  }
  return [...different.values()];
}

/** All that a plan looks at besides the plant and the causes. */
export function householdKey(knowledge: Knowledge, group: HostTraits): string {
  return facts.map((fact) => factState(fact, knowledge, group.example)).join();
}

function allRuledOut(): Household {
  return Object.fromEntries(facts.map((fact) => [fact, "no"]));
}

/** Every fact yes, no or unknown. */
function allHouseholds(): Household[] {
  return facts.reduce<Household[]>(
    (all, fact) =>
      all.flatMap((states) => [states, { ...states, [fact]: "yes" }, { ...states, [fact]: "no" }]),
    [{}],
  );
}

function describe(
  flow: Flow,
  { invariant, remedy }: PlanFault,
  ending: Ending,
  classes: readonly HostClass[],
  { group, states }: Home,
): Violation {
  const hosts = classes[ending.shortestClass]?.hosts ?? [];
  const host = hosts.find((id) => group.hosts.has(id)) ?? hosts[0] ?? null;
  const told = Object.entries(states).map(([fact, is]) => `${fact}: ${is}`);
  const [opening, ...rest] = ending.shortest;
  const hostAnswer = flow.hostQuestion ? [{ to: flow.hostQuestion.id, is: host ?? NOT_SURE }] : [];
  const answers = [...(opening ? [opening] : []), ...hostAnswer, ...rest];
  return {
    invariant,
    sentence: `${remedy ? `Step “${remedy}”` : "The plan"} breaks ${invariant} (${told.join(", ") || "household unknown"}; plant like ${group.example?.id ?? "unknown"}).`,
    conversation: writeLink(flow, { edition: flow.edition.number, answers }),
  };
}
