import type { Answer } from "../case.ts";
import type { Standing } from "../edition.ts";
import type { Cause } from "./causes.ts";

/**
 * What a change does to every conversation.
 *
 * A **pair** is one conversation under each edition that the same shopper could have: to every question that both ask, both
 * get the same answer. An answer that only one edition knows is met by "not sure" under the other. Where both ask the same
 * questions, a pair is simply a conversation; where one asks more, each way of answering that is a pair of its own. A
 * question whose kind changed counts as another question.
 */
export interface Comparison {
  /** Nothing differs that bears on a conversation: told at once, without counting. */
  same: boolean;
  /** All pairs, exactly. 0 when `same`. */
  pairs: number;
  /** Pairs that differ, each under the first that applies: another verdict, another plan, other questions. */
  differ: Record<ChangeKind, number>;
  /** Pairs in which the draft asks more, and fewer, questions. */
  longer: number;
  shorter: number;
  /** Questions in the longest conversation. */
  longest: { live: number; draft: number };
  /** The shortest conversation that became longer by the most questions. */
  longerExample: { by: number; live: CaseView; draft: CaseView } | null;
  /** Most pairs first. */
  groups: ChangeGroup[];
}

export const pairKinds = ["verdict", "plan", "questions"] as const;
export type ChangeKind = (typeof pairKinds)[number];

/** Pairs that differ in the same way. */
export interface ChangeGroup {
  kind: ChangeKind;
  from: EndView;
  to: EndView;
  pairs: number;
  longer: number;
  shorter: number;
  /** Remedy ids. `otherwise`: the same steps in another order or phase, or with other cautions. For `kind` "plan". */
  steps: { added: string[]; dropped: string[]; otherwise: boolean };
  /** Question ids. `order`: the same questions in another order. For `kind` "questions". */
  questions: { added: string[]; dropped: string[]; order: boolean };
  /** The shortest pair, to be clicked through. */
  example: { live: CaseView; draft: CaseView };
  /** Filled in by `explainGroup`. */
  causes: Cause[] | null;
}

/** How a conversation ends. An undetermined one has no leader. */
export interface EndView {
  standing: Standing;
  leader: string | null;
  beside: string[];
  bringSample: boolean;
}

/** One conversation, whole. */
export interface CaseView {
  /** The query of its case link. */
  link: string;
  answers: Answer[];
  /** Remedy ids of the plan, in order. */
  steps: string[];
}
