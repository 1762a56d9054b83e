import { answerTo, type Case, know } from "../case.ts";
import type { Question, Standing } from "../edition.ts";
import type { Flow } from "../flow.ts";
import { openQuestions } from "../next-question.ts";
import { openFactPrompts } from "../plan.ts";
import type { Candidate, Verdict } from "../verdict.ts";
import { type BestQuestion, bestQuestion, type Separation, separateTop } from "./best-question.ts";
import { type DeskGroup, deskGroups, groupOf } from "./groups.ts";
import { type DeskKeys, keysNow } from "./keys.ts";

/** All questions of the desk at one moment of a call. */
export interface Desk {
  best: BestQuestion | null;
  /** Open questions without the best one, by group. */
  open: QuestionGroup[];
  /** Questions that nothing asks for yet: a caller may tell their answers all the same. */
  others: QuestionGroup[];
  keys: DeskKeys;
  rows: DifferentialRow[];
  separation: Separation | null;
}

export interface QuestionGroup {
  group: DeskGroup;
  questions: Question[];
}

/** A candidate in the list of what it could be. */
export interface DifferentialRow {
  condition: string;
  /** 1 for the leader. */
  rank: number;
  /** Of the leader only; the others merely stand behind it. */
  standing: Standing | null;
  isBeside: boolean;
  /** Decibans. */
  weight: number;
  /** Decibans behind the leader. */
  behind: number;
  candidate: Candidate;
}

const MOST_ROWS = 6;

/** Works out what the desk shows of a case. */
export function layDesk(flow: Flow, kase: Case, verdict: Verdict): Desk {
  const best = bestQuestion(flow, kase);
  const isOpen = (question: Question) => question.id !== best?.question.id;
  const open = allOpen(flow, kase, verdict).filter(isOpen);
  const ids = new Set([...open.map(({ id }) => id), ...(best ? [best.question.id] : [])]);
  const others = flow.prompts
    .concat(flow.factPrompts)
    .map(({ question }) => question)
    .filter(({ id }) => !ids.has(id) && answerTo(kase, id) === undefined);
  return {
    best,
    open: sortIntoGroups(flow, open),
    others: sortIntoGroups(flow, others),
    keys: keysNow(flow, ids),
    rows: listRows(verdict),
    separation: separateTop(flow, kase, verdict),
  };
}

function allOpen(flow: Flow, kase: Case, verdict: Verdict): Question[] {
  const facts = openFactPrompts(flow, know(flow, kase), verdict).map(({ question }) => question);
  const open = openQuestions(flow, kase);
  return [...open, ...facts.filter((question) => !open.includes(question))];
}

function sortIntoGroups(flow: Flow, questions: readonly Question[]): QuestionGroup[] {
  return deskGroups.flatMap((group) => {
    const some = questions.filter(({ id }) => groupOf(flow, id) === group);
    return some.length > 0 ? [{ group, questions: some }] : [];
  });
}

function listRows(verdict: Verdict): DifferentialRow[] {
  const standing = verdict.candidates.filter(({ speaks }) => speaks).slice(0, MOST_ROWS);
  const top = standing[0]?.weight ?? 0;
  return standing.map((candidate, i) => ({
    condition: candidate.condition,
    rank: i + 1,
    standing: candidate.condition === verdict.leader ? verdict.standing : null,
    isBeside: verdict.beside.includes(candidate.condition),
    weight: candidate.weight,
    behind: top - candidate.weight,
    candidate,
  }));
}
