import { type Assessment, assess } from "./assess.ts";
import { applies, type Case, type Knowledge, know } from "./case.ts";
import type { Question } from "./edition.ts";
import { UNKNOWN } from "./finding-table.ts";
import type { Flow, Prompt, Reply } from "./flow.ts";
import { openFactPrompts } from "./plan.ts";
import { judge } from "./verdict.ts";

/** The question to ask next, or null when the verdict is due. */
export function nextQuestion(flow: Flow, kase: Case): Question | null {
  const knowledge = know(flow, kase);
  const [opening] = flow.prompts;
  if (opening && !knowledge.answered.has(opening.question.id) && isBlank(flow, kase)) {
    return opening.question;
  }
  if (flow.hostQuestion && knowledge.host === undefined) return flow.hostQuestion;
  const prompt = nextPrompt(flow, knowledge);
  if (prompt) return prompt.question;
  return openFactPrompts(flow, knowledge, judge(flow, kase))[0]?.question ?? null;
}

/** Every question that could still be asked, the next one first: for a screen that shows them all at once. */
export function openQuestions(flow: Flow, kase: Case): Question[] {
  const knowledge = know(flow, kase);
  const next = nextQuestion(flow, kase);
  const open = flow.prompts
    .filter((prompt) => isOpen(prompt, knowledge) && applies(prompt, knowledge.known))
    .map((prompt) => prompt.question);
  if (flow.hostQuestion && knowledge.host === undefined) open.unshift(flow.hostQuestion);
  return next ? [next, ...open.filter((question) => question.id !== next.id)] : open;
}

/** Nothing about the plant has been said yet, so the opening is still worth asking. */
function isBlank(flow: Flow, kase: Case): boolean {
  return !kase.answers.some(
    ({ to, is }) => is === "yes" && flow.findings.index.has(to) && !flow.promptById.has(to),
  );
}

/** The next question about the plant itself, without the opening and the host plant. */
export function nextPrompt(flow: Flow, knowledge: Knowledge): Prompt | undefined {
  const opening = flow.edition.conversation.opening;
  let asked = 0;
  for (const { question } of flow.prompts) {
    if (question.id !== opening && knowledge.answered.has(question.id)) asked++;
  }
  if (asked >= flow.edition.conversation.mostQuestions) return undefined;
  const assessment = assess(flow, knowledge.known, knowledge.host);
  return flow.prompts.find(
    (prompt) =>
      prompt.question.id !== opening &&
      isOpen(prompt, knowledge) &&
      applies(prompt, knowledge.known) &&
      matters(flow, knowledge.known, assessment, prompt),
  );
}

function isOpen(prompt: Prompt, { answered, known }: Knowledge): boolean {
  if (answered.has(prompt.question.id)) return false;
  return prompt.replies.some((reply) =>
    [...reply.present, ...reply.absent].some((finding) => known[finding] === UNKNOWN),
  );
}

/**
 * Whether an answer to the question can still change the verdict or the plan.
 * While the lead is open: an answer that strengthens the leader, or brings another condition within reach of it.
 * Once a condition is suspected: only an answer that could unseat it in favor of a look-alike, or that tells what
 * brought it on.
 */
export function matters(
  flow: Flow,
  known: Uint8Array,
  assessment: Assessment,
  prompt: Prompt,
): boolean {
  const { leader, standing } = assessment;
  if (leader < 0) return true;
  return prompt.replies.some((reply) => {
    const gains = gainsOf(flow, known, reply);
    return standing === "suspected"
      ? unseats(flow, assessment, gains)
      : moves(flow, assessment, gains);
  });
}

function moves(flow: Flow, { scores, leader }: Assessment, gains: ReadonlyMap<number, number>): boolean {
  const own = gains.get(leader) ?? 0;
  if (own > 0) return true;
  const mark = (scores[leader] ?? 0) + own - flow.edition.weights.reach;
  for (const [c, gain] of gains) {
    if (c !== leader && gain > own && (scores[c] ?? 0) + gain >= mark) return true;
  }
  return false;
}

function unseats(
  flow: Flow,
  { scores, leader, lead }: Assessment,
  gains: ReadonlyMap<number, number>,
): boolean {
  const own = gains.get(leader) ?? 0;
  const need = flow.edition.weights.lead.suspected;
  if (own < 0 && lead + own < need) return true;
  const mark = (scores[leader] ?? 0) + own - need;
  for (const c of flow.evidence.alike[leader] ?? []) {
    const gain = gains.get(c) ?? 0;
    if (gain > own && (scores[c] ?? 0) + gain > mark) return true;
  }
  return (flow.evidence.broughtOnBy[leader] ?? []).some((c) => (gains.get(c) ?? 0) > 0);
}

/** What a reply would add to each condition, from findings not known yet. */
function gainsOf(flow: Flow, known: Uint8Array, reply: Reply): Map<number, number> {
  const gains = new Map<number, number>();
  for (const finding of reply.present) {
    if (known[finding] !== UNKNOWN) continue;
    for (const { condition, weight } of flow.evidence.present[finding] ?? []) {
      gains.set(condition, (gains.get(condition) ?? 0) + weight);
    }
  }
  for (const finding of reply.absent) {
    if (known[finding] !== UNKNOWN) continue;
    for (const { condition, weight } of flow.evidence.absent[finding] ?? []) {
      gains.set(condition, (gains.get(condition) ?? 0) + weight);
    }
  }
  return gains;
}
