import type { Knowledge } from "../case.ts";
import { type Fact, facts, type Host, type Remedy, type Standing } from "../edition.ts";
import type { Flow } from "../flow.ts";
import { type FactState, factState, type Plan } from "../plan.ts";

export const planInvariants = [
  "FOOD_PLANT_SAFE",
  "HOST_NOT_INJURED",
  "CAUTIONS_SHOWN",
  "LABEL_ON_PRODUCTS",
  "NO_CHEMICAL_WHEN_UNDETERMINED",
  "MOST_TOXIC_NEVER_FIRST",
  "PLAN_NOT_EMPTY",
] as const;
export type PlanInvariant = (typeof planInvariants)[number];

/** A step of a plan that must not be there, or lacks what it needs. */
export interface PlanFault {
  invariant: PlanInvariant;
  /** Remedy id; empty when the plan as a whole is at fault. */
  remedy: string;
}

const SYSTEMIC = 3;

/**
 * Every fault of one plan. Written apart from the code that makes plans, straight from the rules of safety, so that a
 * slip there shows here.
 */
export function findPlanFaults(
  flow: Flow,
  plan: Plan,
  standing: Standing,
  knowledge: Knowledge,
): PlanFault[] {
  const host = knowledge.host ? flow.host(knowledge.host) : undefined;
  const states = new Map(facts.map((fact) => [fact, factState(fact, knowledge, host)]));
  const remedies = plan.steps.flatMap(({ remedy }) => flow.remedy(remedy) ?? []);
  const faults: PlanFault[] = remedies.flatMap((remedy, i) => {
    const broken: PlanInvariant[] = [];
    if (!isFoodSafe(remedy, states)) broken.push("FOOD_PLANT_SAFE");
    if (injures(remedy, host)) broken.push("HOST_NOT_INJURED");
    if (!showsCautions(remedy, plan.steps[i]?.cautions ?? [], states)) broken.push("CAUTIONS_SHOWN");
    if (remedy.product && plan.steps[i]?.labelIsLaw !== true) broken.push("LABEL_ON_PRODUCTS");
    if (standing === "undetermined" && remedy.method === "chemical") {
      broken.push("NO_CHEMICAL_WHEN_UNDETERMINED");
    }
    return broken.map((invariant) => ({ invariant, remedy: remedy.id }));
  });
  const most = Math.max(0, ...remedies.map(({ toxicity }) => toxicity));
  const [first] = remedies;
  if (!first) faults.push({ invariant: "PLAN_NOT_EMPTY", remedy: "" });
  else if (most > 0 && first.toxicity === most) {
    faults.push({ invariant: "MOST_TOXIC_NEVER_FIRST", remedy: first.id });
  }
  return faults;
}

function isFoodSafe(remedy: Remedy, states: ReadonlyMap<Fact, FactState>): boolean {
  if (states.get("eaten") === "no") return true;
  if (remedy.toxicity === SYSTEMIC || remedy.neverWhen.includes("eaten")) return false;
  return !remedy.product || remedy.forFoodPlants;
}

function injures(remedy: Remedy, host: Host | undefined): boolean {
  if (!host) return false;
  const harmful = host.harmedBy.some((harm) => remedy.neverWhen.includes(`harmed-by-${harm}`));
  return harmful || (host.keepDry && remedy.neverWhen.includes("succulent-kept-dry"));
}

function showsCautions(
  remedy: Remedy,
  shown: readonly string[],
  states: ReadonlyMap<Fact, FactState>,
): boolean {
  const due = facts.flatMap((fact) => (states.get(fact) === "no" ? [] : remedy.cautions[fact]));
  return [...remedy.cautions.always, ...due].every((caution) => shown.includes(caution));
}
