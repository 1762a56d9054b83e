import type { Condition, Edition, Fact, Finding, Host, Question, Remedy, Source } from "./edition.ts";
import { type EvidenceTable, tabulateEvidence } from "./evidence-table.ts";
import { type FindingTable, tabulateFindings } from "./finding-table.ts";

export const NOT_SURE = "not-sure";

/** One possible answer to a question, in index form. The last reply of every finding question is "not sure". */
export interface Reply {
  id: string;
  /** Finding indexes that the reply asserts. */
  present: readonly number[];
  absent: readonly number[];
  facts: Partial<Record<Fact, "yes" | "no">>;
}

/** A question with its replies resolved to finding indexes. */
export interface Prompt {
  question: Question;
  replies: readonly Reply[];
  gateAny: readonly number[];
  gateNone: readonly number[];
  whenUnsure: boolean;
}

/** The looks that one case can hold. */
export const MOST_LOOKS = 3;
export const lookQuestionIds = { again: "look-again", tried: "tried", technique: "technique" } as const;

/** What is asked when a case is opened again. Each look asks the same, under an id of its own. */
export interface Looks {
  /** Better, same, worse or something new: `look-again`, `look-again-2` … */
  again: readonly Prompt[];
  /** What is new: the opening once more, under the ids `what-you-see-2` … */
  reopenings: readonly Prompt[];
  tried: Prompt;
  technique: Prompt;
}

/**
 * An edition made ready to run: the same content, with ids resolved to indexes and evidence to columns of numbers.
 * It is derived from the edition alone, so every machine derives the same one.
 */
export interface Flow {
  edition: Edition;
  findings: FindingTable;
  evidence: EvidenceTable;
  /** Finding questions in the editor's order, the opening first. */
  prompts: readonly Prompt[];
  hostQuestion: Question | undefined;
  factPrompts: readonly Prompt[];
  /** Undefined where the edition has no questions of kind "look". */
  looks: Looks | undefined;
  promptById: ReadonlyMap<string, Prompt>;
  question(id: string): Question | undefined;
  condition(id: string): Condition | undefined;
  host(id: string): Host | undefined;
  remedy(id: string): Remedy | undefined;
  finding(id: string): Finding | undefined;
  source(id: string): Source | undefined;
}

/** Makes an edition ready to run. Throws only on an edition whose cross-references are broken, which reading refuses. */
export function openFlow(edition: Edition): Flow {
  const findings = tabulateFindings(edition.findings);
  const evidence = tabulateEvidence(edition, findings);
  const questions = byId(edition.questions);
  const prompts = [edition.conversation.opening, ...edition.conversation.order].map((id) =>
    resolvePrompt(need(questions, id), findings, edition.conversation.whenUnsure.includes(id)),
  );
  const factPrompts = edition.questions
    .filter((question) => question.kind === "fact")
    .map((question) => resolvePrompt(question, findings, false));
  const looks = resolveLooks(questions, findings, prompts[0]);
  const lookPrompts = looks ? [...looks.again, ...looks.reopenings, looks.tried, looks.technique] : [];
  for (const { question } of lookPrompts) questions.set(question.id, question);
  const conditions = byId(edition.conditions);
  const hosts = byId(edition.hosts);
  const remedies = byId(edition.remedies);
  const sources = byId(edition.sources);
  return {
    edition,
    findings,
    evidence,
    prompts,
    factPrompts,
    hostQuestion: edition.questions.find((question) => question.kind === "host"),
    looks,
    promptById: new Map(
      [...prompts, ...factPrompts, ...lookPrompts].map((prompt) => [prompt.question.id, prompt]),
    ),
    question: (id) => questions.get(id),
    condition: (id) => conditions.get(id),
    host: (id) => hosts.get(id),
    remedy: (id) => remedies.get(id),
    finding: (id) => edition.findings[findings.index.get(id) ?? -1],
    source: (id) => sources.get(id),
  };
}

function resolveLooks(
  questions: ReadonlyMap<string, Question>,
  findings: FindingTable,
  opening: Prompt | undefined,
): Looks | undefined {
  const [again, tried, technique] = Object.values(lookQuestionIds).map((id) => {
    const question = questions.get(id);
    return question?.kind === "look" ? resolvePrompt(question, findings, false) : undefined;
  });
  if (!again || !tried || !technique || !opening) return undefined;
  const numbers = Array.from({ length: MOST_LOOKS }, (_, i) => i + 1);
  return {
    again: numbers.map((n) => repeatPrompt(again, n)),
    reopenings: numbers.map((n) => repeatPrompt(opening, n + 1)),
    tried,
    technique,
  };
}

/** The same question for the n-th time. */
function repeatPrompt(prompt: Prompt, n: number): Prompt {
  const { id } = prompt.question;
  return n === 1 ? prompt : { ...prompt, question: { ...prompt.question, id: nameRepeat(id, n) } };
}

/** The id of a question that is asked for the n-th time. */
export function nameRepeat(id: string, n: number): string {
  return n === 1 ? id : `${id}-${n}`;
}

function byId<T extends { id: string }>(entries: readonly T[]): Map<string, T> {
  return new Map(entries.map((entry) => [entry.id, entry]));
}

function need<T>(map: ReadonlyMap<string, T>, id: string): T {
  const entry = map.get(id);
  if (entry === undefined) throw new Error(`The edition names "${id}" but does not hold it.`);
  return entry;
}

function resolvePrompt(question: Question, findings: FindingTable, whenUnsure: boolean): Prompt {
  const indexes = (ids: readonly string[]) => ids.map((id) => findings.at(id));
  const named = [...new Set(question.options.flatMap((option) => indexes(option.present)))];
  const replies: Reply[] = question.options.map((option) => ({
    id: option.id,
    present: indexes(option.present),
    absent: option.none ? named : indexes(option.absent),
    facts: option.facts,
  }));
  replies.push({ id: NOT_SURE, present: [], absent: [], facts: {} });
  return {
    question,
    replies,
    gateAny: indexes(question.askWhen.any),
    gateNone: indexes(question.askWhen.none),
    whenUnsure,
  };
}
