import { type Assessment, assess, EXPLAINS, SILENT } from "./assess.ts";
import { type Case, type Knowledge, know } from "./case.ts";
import type { Block, Condition, Standing } from "./edition.ts";
import { type EvidenceWord, hostWord } from "./evidence-table.ts";
import { counts, PRESENT, UNKNOWN } from "./finding-table.ts";
import type { Flow } from "./flow.ts";

export type ReasonWord = EvidenceWord | "prone" | "immune" | "elsewhere";

/** Why a condition stands where it stands. `finding` is a finding id, or a host id for the words about hosts. */
export interface Reason {
  finding: string;
  known: "present" | "absent";
  word: ReasonWord;
  /** Decibans. */
  weight: number;
}

export interface Candidate {
  condition: string;
  /** Decibans, base rate included. */
  weight: number;
  hasHallmark: boolean;
  /** True when something that was found speaks for it, be it only a circumstance. */
  speaks: boolean;
  reasonsFor: Reason[];
  reasonsAgainst: Reason[];
}

export interface Verdict {
  standing: Standing;
  /** The leading condition; null when nothing speaks for any. */
  leader: string | null;
  /** Second causes with evidence of their own. */
  beside: string[];
  /** Decibans between the leader and its nearest rival. */
  lead: number;
  /** All conditions, best first. */
  candidates: Candidate[];
  /** The nearest rival and the one check that tells it from the leader. */
  separatingCheck: { from: string; check: Block[] } | null;
  /** True when a person at the bench should look: undetermined, or a condition that only a bench can tell. */
  bringSample: boolean;
}

/** What the evidence of a case amounts to. Depends on the set of answers, never on their order. */
export function judge(flow: Flow, kase: Case): Verdict {
  if (last?.flow === flow && last.kase === kase) return last.verdict;
  const knowledge = know(flow, kase);
  const verdict = judgeKnown(flow, knowledge, assess(flow, knowledge.known, knowledge.host));
  last = { flow, kase, verdict };
  return verdict;
}

// Question, plan, days and code of one page all ask for the verdict of the same case.
let last: { flow: Flow; kase: Case; verdict: Verdict } | undefined;

function judgeKnown(flow: Flow, knowledge: Knowledge, found: Assessment): Verdict {
  const { conditions } = flow.edition;
  const id = (c: number) => conditions[c]?.id ?? "";
  const leader = conditions[found.leader];
  const reasons = reasonsOf(flow, knowledge);
  return {
    standing: found.standing,
    leader: leader?.id ?? null,
    beside: found.beside.map(id),
    lead: found.lead,
    candidates: found.ranking.flatMap((c) => {
      const condition = conditions[c];
      return condition ? [explain(flow, knowledge.host, condition, c, found, reasons[c] ?? [])] : [];
    }),
    separatingCheck: leader ? separate(flow, found, leader) : null,
    bringSample: found.standing === "undetermined" || leader?.needsSample === true,
  };
}

/** What was found, sorted by the condition that it speaks for or against. One list for each condition. */
function reasonsOf(flow: Flow, { known }: Knowledge): Reason[][] {
  const reasons: Reason[][] = flow.edition.conditions.map(() => []);
  known.forEach((state, f) => {
    if (state === UNKNOWN) return;
    const present = state === PRESENT;
    if (present && !counts(flow.findings, known, f)) return;
    const finding = flow.edition.findings[f]?.id ?? "";
    for (const { condition, word, weight } of (present ? flow.evidence.present : flow.evidence.absent)[f] ??
      []) {
      reasons[condition]?.push({ finding, known: present ? "present" : "absent", word, weight });
    }
  });
  return reasons;
}

function explain(
  flow: Flow,
  host: Knowledge["host"],
  condition: Condition,
  c: number,
  found: Assessment,
  reasons: Reason[],
): Candidate {
  const word = hostWord(condition, host ? flow.host(host) : undefined);
  if (host && word !== undefined && word !== "unknown") {
    reasons.push({ finding: host, known: "present", word, weight: flow.edition.weights.host[word] });
  }
  reasons.sort((a, b) => Math.abs(b.weight) - Math.abs(a.weight));
  return {
    condition: condition.id,
    weight: found.scores[c] ?? 0,
    hasHallmark: (found.weighed.hallmarks[c] ?? 0) > 0,
    speaks: found.weighed.speaks[c] !== SILENT,
    reasonsFor: reasons.filter((reason) => reason.weight > 0),
    reasonsAgainst: reasons.filter((reason) => reason.weight < 0),
  };
}

/** The check against the nearest rival that either side names; else against the first look-alike of the leader. */
function separate(flow: Flow, found: Assessment, leader: Condition): Verdict["separatingCheck"] {
  const { conditions } = flow.edition;
  const rivals = found.ranking
    .filter((c) => found.weighed.speaks[c] === EXPLAINS)
    .slice(1)
    .map((c) => conditions[c]);
  for (const rival of rivals) {
    if (!rival) continue;
    const named =
      leader.looksLike.find(({ other }) => other === rival.id) ??
      rival.looksLike.find(({ other }) => other === leader.id);
    if (named) return { from: rival.id, check: named.check };
  }
  const first = leader.looksLike[0];
  return first ? { from: first.other, check: first.check } : null;
}
