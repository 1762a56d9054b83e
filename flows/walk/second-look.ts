import type { Knowledge } from "../case.ts";
import { type Fact, methods } from "../edition.ts";
import { type Flow, MOST_LOOKS, NOT_SURE } from "../flow.ts";
import { factPromptsFor, planOf, remediesFor, wantedRemedies } from "../plan.ts";
import {
  allDoneOption,
  decideLook,
  groundOf,
  type LookAnswers,
  type LookGround,
  type LookOutcome,
  type LookWord,
  lookWords,
} from "../second-look.ts";
import type { HostClass } from "./classes.ts";
import { householdKey, knowledgeOf, verdictOf } from "./household.ts";
import { groupByTraits, type HostTraits } from "./traits.ts";
import type { Ending } from "./traverse.ts";
import type { Violation } from "./walk.ts";

/** The longest that the looks of one case may be, in questions, without those that new signs reopen. */
export const LONGEST_LOOKS = 5;

export interface LookReport {
  /**
   * Every way to go on after every conversation, up to the last look that can be taken: exactly. New signs end the
   * count, for they lead back into the questions about the plant.
   */
  conversations: bigint;
  byOutcome: Record<LookOutcome["kind"], bigint>;
  longest: number;
}

interface Tree {
  leaves: Record<string, number>;
  total: number;
  longest: number;
  faults: string[];
}

/**
 * The looks after every ending. They depend on the way there only through what a look stands on: whether anything was
 * determined, and which methods the plan has. So each ground is walked once and counted as often as it occurs.
 *
 * New signs add findings, hence causes. Their plans need no walk of their own: every step of a joint plan is a step of the
 * plan of one of its causes, and its first step is the first of the plan of the leader with one other. So it has no fault
 * that neither a cause alone nor a pair has: those are checked for every condition at every standing, reached or not.
 */
export function walkLooks(
  flow: Flow,
  endings: readonly Ending[],
  classes: readonly HostClass[],
): { report: LookReport; violations: Violation[] } {
  const byOutcome = { none: 0n, finish: 0n, continue: 0n, "step-up": 0n, reopen: 0n, sample: 0n };
  const report: LookReport = { conversations: 0n, byOutcome, longest: 0 };
  if (!flow.looks) return { report, violations: [] };
  const faults = new Set<string>();
  for (const [key, ways] of countGrounds(flow, endings, classes)) {
    const tree = walkGround(flow, readGround(key));
    report.conversations += ways * BigInt(tree.total);
    report.longest = Math.max(report.longest, tree.longest);
    for (const [kind, leaves] of Object.entries(tree.leaves)) {
      byOutcome[kind as LookOutcome["kind"]] += ways * BigInt(leaves);
    }
    for (const fault of tree.faults) faults.add(fault);
  }
  if (report.longest > LONGEST_LOOKS)
    faults.add("LONGEST_LOOKS: The looks of a case ask too many questions.");
  return { report, violations: [...faults].map(readFault) };
}

function readFault(text: string): Violation {
  const [invariant = "", sentence = ""] = text.split(": ");
  return { invariant, sentence, conversation: "" };
}

/** How often each ground occurs, over all conversations, host plants and households. */
function countGrounds(
  flow: Flow,
  endings: readonly Ending[],
  classes: readonly HostClass[],
): Map<number, bigint> {
  const groups = groupByTraits(flow);
  const maskOf = memoizeMasks(flow);
  const grounds = new Map<number, bigint>();
  // Plants of one class differ in what a plan may do with them, and only in that.
  const sizes = classes.map(({ hosts }) =>
    groups.map((group) => hosts.filter((host) => group.hosts.has(host)).length),
  );
  for (const ending of endings) {
    const { standing, leader, beside } = ending.decision;
    const causes = standing === "undetermined" ? [-1] : [leader, ...beside, ...ending.behind];
    const undetermined = standing === "undetermined" ? UNDETERMINED : 0;
    groups.forEach((group, g) => {
      const count = ending.counts.reduce((sum, ways, i) => sum + ways * (sizes[i]?.[g] ?? 0), 0);
      if (count === 0) return;
      for (const { mask, ways } of maskOf(group, standing, causes)) {
        const ground = mask | undetermined;
        grounds.set(ground, (grounds.get(ground) ?? 0n) + BigInt(count) * BigInt(ways));
      }
    });
  }
  return grounds;
}

const UNDETERMINED = 1 << methods.length;

function readGround(mask: number): LookGround {
  return {
    undetermined: (mask & UNDETERMINED) > 0,
    ladder: methods.filter((_, i) => (mask & (1 << i)) > 0),
  };
}

type Standing = Ending["decision"]["standing"];

interface MaskWays {
  mask: number;
  ways: number;
}

/** What one cause gives a plan: the facts it asks for, as bits, and its methods for each household. */
interface Part {
  asks: number;
  masks: number[];
}

/** The methods of a plan as bits, for each way of answering the facts it asks for. A joint plan has those of its parts. */
function memoizeMasks(flow: Flow) {
  const households = listHouseholds(flow);
  const parts = new Map<HostTraits, Map<string, Part>>();
  const homes = new Map<HostTraits, { key: string; knowledge: Knowledge }[]>();
  const homesOf = (group: HostTraits) => {
    const made =
      homes.get(group) ??
      households.map(({ states }) => {
        const knowledge = knowledgeOf(flow, group, states);
        return { key: householdKey(knowledge, group), knowledge };
      });
    homes.set(group, made);
    return made;
  };
  const partOf = (group: HostTraits, standing: Standing, cause: number, leads: boolean) =>
    remember(parts, group, `${standing}|${cause}|${leads}`, () => {
      const own = remediesFor(flow, standing, flow.edition.conditions[cause]?.id ?? null, leads);
      const added = new Set(own.map(({ id }) => id));
      const asked = factPromptsFor(flow, knowledgeOf(flow, group, {}), own);
      const wanted = wantedRemedies(flow, verdictOf(flow, standing, [cause]));
      const known = new Map<string, number>();
      const masks = homesOf(group).map(({ key, knowledge }) => {
        let mask = known.get(key);
        if (mask === undefined) {
          const plan = planOf(flow, knowledge, wanted);
          const steps = plan.steps.filter(({ remedy }) => added.has(remedy));
          const { ladder } = groundOf(flow, { standing }, { ...plan, steps });
          mask = ladder.reduce((bits, method) => bits | (1 << methods.indexOf(method)), 0);
          known.set(key, mask);
        }
        return mask;
      });
      return {
        asks: asked.reduce((bits, prompt) => bits | (1 << flow.factPrompts.indexOf(prompt)), 0),
        masks,
      };
    });
  return (group: HostTraits, standing: Standing, causes: readonly number[]): MaskWays[] => {
    const joined = causes.map((cause, i) => partOf(group, standing, cause, i === 0));
    const asks = joined.reduce((bits, part) => bits | part.asks, 0);
    const counted = new Array<number>(1 << methods.length).fill(0);
    households.forEach(({ told }, h) => {
      // What is not asked for is not told.
      if ((told & ~asks) !== 0) return;
      let mask = 0;
      for (const { masks } of joined) mask |= masks[h] ?? 0;
      counted[mask] = (counted[mask] ?? 0) + 1;
    });
    return counted.flatMap((ways, mask) => (ways > 0 ? [{ mask, ways }] : []));
  };
}

/** Every way of answering all fact questions. `told`: bits of those not answered with "not sure". */
function listHouseholds(flow: Flow): { states: Household; told: number }[] {
  return flow.factPrompts.reduce<{ states: Household; told: number }[]>(
    (all, { replies }, i) =>
      all.flatMap(({ states, told }) =>
        replies.map((reply) => ({
          states: { ...states, ...reply.facts },
          told: reply.id === NOT_SURE ? told : told | (1 << i),
        })),
      ),
    [{ states: {}, told: 0 }],
  );
}

function remember<K, V>(memory: Map<K, Map<string, V>>, of: K, key: string, work: () => V): V {
  const known = memory.get(of) ?? new Map<string, V>();
  memory.set(of, known);
  const value = known.get(key);
  if (value !== undefined) return value;
  const made = work();
  known.set(key, made);
  return made;
}

type Household = Partial<Record<Fact, "yes" | "no">>;

/** Every way to answer the looks that stand on this ground. */
export function walkGround(flow: Flow, ground: LookGround): Tree {
  const tree: Tree = { leaves: {}, total: 0, longest: 0, faults: [] };
  const options = {
    tried: [...methods, NOT_SURE],
    technique: [...(flow.looks?.technique.question.options.map(({ id }) => id) ?? []), NOT_SURE],
  };
  const visit = (answers: LookAnswers, asked: number) => {
    const decision = decideLook(ground, answers);
    if ("ask" in decision) {
      for (const is of options[decision.ask]) visit({ ...answers, [decision.ask]: is }, asked + 1);
      return;
    }
    tree.faults.push(...findLookFaults(ground, answers, decision));
    const isLast = answers.looks.length >= MOST_LOOKS;
    if (isLast || decision.kind === "sample" || decision.kind === "reopen") {
      tree.total++;
      tree.leaves[decision.kind] = (tree.leaves[decision.kind] ?? 0) + 1;
      tree.longest = Math.max(tree.longest, asked);
      return;
    }
    for (const word of [...lookWords, NOT_SURE] as LookWord[]) {
      visit({ ...answers, looks: [...answers.looks, word] }, asked + 1);
    }
  };
  visit({ looks: [], tried: undefined, technique: undefined, allDone: allDoneOption(flow) }, 0);
  return tree;
}

/** What must hold of every look. Written apart from the rules themselves. */
export function findLookFaults(ground: LookGround, answers: LookAnswers, outcome: LookOutcome): string[] {
  const { looks, tried } = answers;
  const faults: string[] = [];
  const last = looks.at(-1);
  const improved = (word: LookWord | undefined) => word === "better" || word === "new";
  const stuck = looks.length >= 2 && !improved(last) && !improved(looks.at(-2));
  if (stuck && outcome.kind !== "sample") {
    faults.push("SAMPLE_AFTER_TWO_ROUNDS: Two rounds without improvement do not end in a sample request.");
  }
  const used = ground.ladder.length === 1 ? ground.ladder[0] : tried;
  if (last === "worse" && used === "chemical" && outcome.kind !== "sample") {
    faults.push("SAMPLE_WHEN_WORSE: Worse under a chemical does not end in a sample request.");
  }
  if (last === "better" && outcome.kind !== "finish") {
    faults.push("BETTER_FINISHES: Better does not end in finishing the rounds.");
  }
  if (ground.undetermined && (outcome.kind === "step-up" || outcome.kind === "continue")) {
    faults.push("NO_STEP_WHEN_UNDETERMINED: A look goes on treating what was never determined.");
  }
  if (outcome.kind === "step-up") {
    const [from, to] = [methods.indexOf(outcome.from), methods.indexOf(outcome.to)];
    const between = ground.ladder.filter(
      (method) => methods.indexOf(method) > from && methods.indexOf(method) < to,
    );
    if (to <= from || between.length > 0 || !ground.ladder.includes(outcome.to)) {
      faults.push("ONE_STEP_UP: A look steps up by more than one method of the plan.");
    }
  }
  return faults;
}
