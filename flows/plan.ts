import { type Case, type Knowledge, know } from "./case.ts";
import {
  type Fact,
  facts,
  type Host,
  methods,
  type NeverWhen,
  type Phase,
  phases,
  type Remedy,
  type Standing,
} from "./edition.ts";
import type { Flow, Prompt } from "./flow.ts";
import type { Verdict } from "./verdict.ts";

export type FactState = "yes" | "no" | "unknown";

/** One step of the plan, with the cautions that hold in this household. */
export interface PlanStep {
  remedy: string;
  /** Ids of the conditions it treats; empty for first aid. */
  treats: string[];
  phase: Phase;
  cautions: string[];
  /** The step uses a bought pesticide: its label comes before anything we say. */
  labelIsLaw: boolean;
}

export interface Plan {
  /** Ordered by phase, then by method (cultural, mechanical, biological, chemical). */
  steps: PlanStep[];
  /** Steps that would help but are not safe here, and why. */
  leftOut: { remedy: string; because: NeverWhen }[];
  household: { fact: Fact; state: FactState }[];
}

/** The plan for a case and its verdict: only steps that are safe for this plant and this household. */
export function makePlan(flow: Flow, kase: Case, verdict: Verdict): Plan {
  return planFor(flow, know(flow, kase), verdict);
}

export function planFor(flow: Flow, knowledge: Knowledge, verdict: Verdict): Plan {
  return planOf(flow, knowledge, wantedRemedies(flow, verdict));
}

/** The plan that these remedies make where the plant and the household are as they are. */
export function planOf(flow: Flow, knowledge: Knowledge, wanted: readonly WantedRemedy[]): Plan {
  const host = knowledge.host ? flow.host(knowledge.host) : undefined;
  const household = facts.map((fact) => ({ fact, state: factState(fact, knowledge, host) }));
  const states = new Map(household.map(({ fact, state }) => [fact, state]));
  const steps: { step: PlanStep; order: number }[] = [];
  const leftOut: Plan["leftOut"] = [];
  for (const { remedy, treats } of wanted) {
    const because = forbids(remedy, host, states);
    if (because !== undefined) {
      leftOut.push({ remedy: remedy.id, because });
      continue;
    }
    const { id, phase, product } = remedy;
    steps.push({
      step: { remedy: id, treats, phase, cautions: cautionsFor(remedy, states), labelIsLaw: product },
      order: phases.indexOf(remedy.phase) * methods.length + methods.indexOf(remedy.method),
    });
  }
  steps.sort((a, b) => a.order - b.order);
  return { steps: steps.map(({ step }) => step), leftOut, household };
}

/** Fact questions whose answer a step of the plan depends on, in the order of the content. */
export function openFactPrompts(flow: Flow, knowledge: Knowledge, verdict: Verdict): Prompt[] {
  const remedies = wantedRemedies(flow, verdict).map(({ remedy }) => remedy);
  return factPromptsFor(flow, knowledge, remedies);
}

/** Fact questions not answered yet that decide one of these remedies or one of its cautions. */
export function factPromptsFor(flow: Flow, knowledge: Knowledge, remedies: readonly Remedy[]): Prompt[] {
  const host = knowledge.host ? flow.host(knowledge.host) : undefined;
  const wanted = remedies.filter((remedy) => hostForbids(remedy, host) === undefined);
  const open = facts.filter(
    (fact) =>
      factState(fact, knowledge, host) === "unknown" &&
      wanted.some(({ neverWhen, cautions }) => neverWhen.includes(fact) || cautions[fact].length > 0),
  );
  return flow.factPrompts.filter(
    ({ question, replies }) =>
      !knowledge.answered.has(question.id) &&
      replies.some((reply) => open.some((fact) => reply.facts[fact] !== undefined)),
  );
}

/** What is known of a fact: from the host plant where that settles it, else from the answer. */
export function factState(fact: Fact, knowledge: Knowledge, host: Host | undefined): FactState {
  if (fact === "eaten" && host !== undefined) {
    if (host.eaten === "always") return "yes";
    if (host.eaten === "never") return "no";
  }
  return knowledge.facts[fact] ?? "unknown";
}

/** A remedy and the ids of the conditions it treats. */
export interface WantedRemedy {
  remedy: Remedy;
  treats: string[];
}

/** The remedies that the verdict calls for, before safety has its say. */
export function wantedRemedies(flow: Flow, verdict: Verdict): WantedRemedy[] {
  const wanted = new Map<Remedy, string[]>();
  const [leader = null, ...others] = verdict.standing === "undetermined" ? [] : causesToTreat(flow, verdict);
  for (const remedy of remediesFor(flow, verdict.standing, leader, true)) {
    wanted.set(remedy, leader === null ? [] : [leader]);
  }
  for (const cause of others) {
    for (const remedy of remediesFor(flow, verdict.standing, cause, false)) {
      wanted.set(remedy, [...(wanted.get(remedy) ?? []), cause]);
    }
  }
  return [...wanted].map(([remedy, treats]) => ({ remedy, treats }));
}

/** Steps taken over from each cause other than the leader: enough to act on, few enough to be read. */
const MOST_FROM_OTHERS = 4;

/**
 * What one cause adds to a plan: all of its remedies when it leads, the first few otherwise. No cause (`null`) stands
 * for an open verdict, which gets first aid only.
 */
export function remediesFor(
  flow: Flow,
  standing: Standing,
  cause: string | null,
  isLeader: boolean,
): Remedy[] {
  const { firstAid } = flow.edition.conversation;
  const ids = cause === null ? firstAid : (flow.condition(cause)?.plan ?? []);
  const fitting = ids.flatMap((id) => {
    const remedy = flow.remedy(id);
    return remedy && fitsStanding(remedy, standing) ? [remedy] : [];
  });
  return isLeader ? fitting : fitting.slice(0, MOST_FROM_OTHERS);
}

/** The leader, what stands beside it, and what brought it on as far as something speaks for that. */
function causesToTreat(flow: Flow, verdict: Verdict): string[] {
  if (verdict.leader === null) return [];
  const speaking = new Set(
    verdict.candidates.flatMap(({ speaks, condition }) => (speaks ? [condition] : [])),
  );
  const behind = (flow.condition(verdict.leader)?.broughtOnBy ?? []).filter((id) => speaking.has(id));
  return [...new Set([verdict.leader, ...verdict.beside, ...behind])];
}

function fitsStanding(remedy: Remedy, standing: Standing): boolean {
  if (standing === "undetermined") return remedy.method !== "chemical";
  return standing === "suspected" || remedy.needsStanding === "leaning";
}

function hostForbids(remedy: Remedy, host: Host | undefined): NeverWhen | undefined {
  if (host === undefined) return undefined;
  return remedy.neverWhen.find((when) => {
    if (when === "succulent-kept-dry") return host.keepDry;
    return host.harmedBy.some((harm) => when === `harmed-by-${harm}`);
  });
}

/** Why a step must not be in this plan, or undefined. A fact that stays unknown counts as the dangerous one. */
export function forbids(
  remedy: Remedy,
  host: Host | undefined,
  states: ReadonlyMap<Fact, FactState>,
): NeverWhen | undefined {
  const byHost = hostForbids(remedy, host);
  if (byHost !== undefined) return byHost;
  const notRuledOut = (fact: Fact) => states.get(fact) !== "no";
  if (remedy.product && !remedy.forFoodPlants && notRuledOut("eaten")) return "eaten";
  return facts.find((fact) => remedy.neverWhen.includes(fact) && notRuledOut(fact));
}

/** For whom a step shows how many cautions: "always", then each fact that is not ruled out. */
export function cautionKinds({ cautions }: Remedy, states: ReadonlyMap<Fact, FactState>): string {
  const due = facts.map((fact) => (states.get(fact) === "no" ? 0 : cautions[fact].length));
  return [cautions.always.length, ...due].join();
}

function cautionsFor(remedy: Remedy, states: ReadonlyMap<Fact, FactState>): string[] {
  const { cautions } = remedy;
  const shown = [...cautions.always];
  for (const fact of facts) if (states.get(fact) !== "no") shown.push(...cautions[fact]);
  return shown;
}
