import type { Case } from "../../flows/case.ts";
import { answerTo } from "../../flows/case.ts";
import type { Block, Branch, Condition, Host } from "../../flows/edition.ts";
import type { Flow } from "../../flows/flow.ts";
import type { Plan } from "../../flows/plan.ts";
import type { SecondLook } from "../../flows/second-look.ts";
import type { Candidate, Reason, Verdict } from "../../flows/verdict.ts";
import * as words from "./words.ts";

/** All that the verdict page tells, gathered once. */
export interface Report {
  flow: Flow;
  verdict: Verdict;
  plan: Plan;
  host: Host | null;
  /** The branch the shopper is with; null stands for all of them. */
  branch: Branch | null;
  /** The address of the server, with its last slash. */
  base: string;
  /** The whole address of the case, and its code. */
  link: string;
  code: string;
  /** What the looks so far lead to. */
  look: SecondLook;
  /** Whether the plant can be looked at once more. */
  canLook: boolean;
}

/** Rivals worth naming beside the leader. */
const MOST_RIVALS = 3;

export function hostOf(flow: Flow, kase: Case): Host | null {
  const question = flow.hostQuestion;
  const id = question ? answerTo(kase, question.id) : undefined;
  return id === undefined ? null : (flow.host(id) ?? null);
}

/** The verdict in one sentence, by its standing. */
export function sayVerdict(flow: Flow, { standing, leader }: Verdict): string {
  const name = leader === null ? undefined : flow.condition(leader)?.name;
  if (standing === "undetermined" || name === undefined) return words.undetermined;
  return standing === "suspected" ? words.suspected(name) : words.leaning(name);
}

/** The condition the verdict names; null when it names none. */
export function namedCondition({ flow, verdict }: Report): Condition | null {
  if (verdict.standing === "undetermined" || verdict.leader === null) return null;
  return flow.condition(verdict.leader) ?? null;
}

/** The candidates to show as "what else it could be": those that something speaks for, best first. */
export function rivalsOf(report: Report): Candidate[] {
  const { verdict } = report;
  const named = new Set([namedCondition(report)?.id, ...verdict.beside]);
  return verdict.candidates
    .filter(({ condition, speaks }) => speaks && !named.has(condition))
    .slice(0, MOST_RIVALS);
}

/** The home check that tells two conditions apart, from whichever side names it. */
export function checkBetween(flow: Flow, one: string, other: string): Block[] | null {
  const from = (id: string, to: string) =>
    flow.condition(id)?.looksLike.find((alike) => alike.other === to)?.check;
  return from(one, other) ?? from(other, one) ?? null;
}

export function sayReason(flow: Flow, reason: Reason): string {
  const host = flow.host(reason.finding)?.name ?? reason.finding;
  switch (reason.word) {
    case "prone":
      return words.hostProne(host);
    case "immune":
      return words.hostImmune(host);
    case "elsewhere":
      return words.hostElsewhere(host);
    default: {
      const finding = flow.finding(reason.finding);
      return reason.known === "present"
        ? words.youSaw(finding?.name ?? reason.finding)
        : words.youFound(finding?.absent ?? reason.finding);
    }
  }
}

/** Cautions that hold for the plant itself, whatever the plan. */
export function sayPoison(host: Host | null): string[] {
  if (host === null) return [words.poisonNoHost];
  const { people, pets, note } = host.poisonous;
  const harmful = (level: typeof people) => level !== "no" && level !== "unknown";
  const said: string[] = [];
  if (harmful(people)) said.push(words.poisonPeople(host.name));
  if (harmful(pets)) said.push(words.poisonPets(host.name));
  if (people === "unknown" || pets === "unknown") said.push(words.poisonUnknown(host.name));
  if (note !== null) said.push(note);
  return said;
}
