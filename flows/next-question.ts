import { type Decision, decide, type Weighed, weigh } from "./assess.ts";
import { applies, type Case, type Knowledge, know } from "./case.ts";
import type { Question } from "./edition.ts";
import { PRESENT, UNKNOWN } from "./finding-table.ts";
import type { Flow, Prompt, Reply } from "./flow.ts";
import { openFactPrompts } from "./plan.ts";
import { countReopened, dueLookPrompt, dueReopening, readLooks } from "./second-look.ts";
import { judge } from "./verdict.ts";

/** Cases whose next question is kept, for each edition at hand: 4,000 characters each at most. */
const MOST_KEPT = 1_000;
const kept = new WeakMap<Flow, Map<string, Question | null>>();

/** The question to ask next, or null when the verdict is due. */
export function nextQuestion(flow: Flow, kase: Case): Question | null {
  // One page asks several times about its case, and its code about every case on the way to it.
  let known = kept.get(flow);
  if (!known || known.size >= MOST_KEPT) {
    known = new Map();
    kept.set(flow, known);
  }
  const key = JSON.stringify(kase.answers);
  const found = known.get(key);
  if (found !== undefined) return found;
  const next = findNext(flow, kase);
  known.set(key, next);
  return next;
}

function findNext(flow: Flow, kase: Case): Question | null {
  const knowledge = know(flow, kase);
  const [opening] = flow.prompts;
  if (opening && !knowledge.answered.has(opening.question.id) && isBlank(flow, knowledge)) {
    return opening.question;
  }
  const look = readLooks(flow, kase).at(-1);
  const prompt = dueReopening(flow, kase) ?? dueLookPrompt(flow, kase);
  if (prompt) return prompt.question;
  // Whoever looks again has a plan already. Only new signs lead back into the questions about the plant.
  if (look !== undefined && look !== "new") return null;
  if (flow.hostQuestion && knowledge.host === undefined) return flow.hostQuestion;
  const next = nextPrompt(flow, knowledge) ?? openFactPrompts(flow, knowledge, judge(flow, kase))[0];
  return next?.question ?? null;
}

/** Every question that could still be asked, the next one first: for a screen that shows them all at once. */
export function openQuestions(flow: Flow, kase: Case): Question[] {
  const knowledge = know(flow, kase);
  const next = nextQuestion(flow, kase);
  const open = offers(flow, knowledge.known, (id) => knowledge.answered.has(id)).map(
    ({ prompt }) => prompt.question,
  );
  if (flow.hostQuestion && knowledge.host === undefined) open.unshift(flow.hostQuestion);
  return next ? [next, ...open.filter((question) => question.id !== next.id)] : open;
}

/** Nothing has been said yet of what there is to see, so the opening is still worth asking. */
function isBlank({ findings }: Flow, { known }: Knowledge): boolean {
  return !known.some((state, finding) => state === PRESENT && findings.isCircumstance[finding] !== true);
}

/** The next question about the plant itself, without the opening and the host plant. */
export function nextPrompt(flow: Flow, { known, host, answered }: Knowledge): Prompt | undefined {
  const { opening, mostQuestions } = flow.edition.conversation;
  let asked = 0;
  for (const { question } of flow.prompts) {
    if (question.id !== opening && answered.has(question.id)) asked++;
  }
  // New signs at a later look open the questions as far again.
  if (asked >= mostQuestions * (1 + countReopened(flow, answered))) return undefined;
  const weighed = weigh(flow, known);
  const start = flow.evidence.start(host ?? null);
  const decision = decide(flow, weighed, start);
  const open = offers(flow, known, (id) => answered.has(id));
  return open.find((offer) => matters(flow, weighed, start, decision, offer))?.prompt;
}

/** A question that may be asked now, and what each of its replies would add to each condition. */
export interface Offer {
  prompt: Prompt;
  gains: readonly Gains[];
}

/** What a reply adds: parallel lists of conditions and decibans. */
interface Gains {
  conditions: readonly number[];
  decibans: readonly number[];
}

/** The questions that are open and whose condition for asking holds, in the editor's order. */
export function offers(flow: Flow, known: Uint8Array, isAnswered: (question: string) => boolean): Offer[] {
  const open: Offer[] = [];
  for (const prompt of flow.prompts) {
    if (prompt === flow.prompts[0] || isAnswered(prompt.question.id)) continue;
    const offer = offerOf(flow, known, prompt);
    if (offer) open.push(offer);
  }
  return open;
}

/** A question as it may be asked now; undefined while its condition for asking does not hold, or nothing can come of it. */
export function offerOf(flow: Flow, known: Uint8Array, prompt: Prompt): Offer | undefined {
  if (!applies(prompt, known) || isToldAlready(prompt, known)) return undefined;
  const gains = prompt.replies.map((reply) => gainsOf(flow, known, reply));
  return gains.some(({ conditions }) => conditions.length > 0) ? { prompt, gains } : undefined;
}

/** Whether what was said elsewhere amounts to one of the replies: then the question has been answered early. */
function isToldAlready({ replies }: Prompt, known: Uint8Array): boolean {
  return replies.some(
    ({ present }) => present.length > 0 && present.every((finding) => known[finding] === PRESENT),
  );
}

/** What a reply would add to each condition, from findings not known yet. */
function gainsOf(flow: Flow, known: Uint8Array, reply: Reply): Gains {
  const conditions: number[] = [];
  const decibans: number[] = [];
  const add = (bearings: Flow["evidence"]["present"][number] | undefined) => {
    for (const { condition, weight } of bearings ?? []) {
      const at = conditions.indexOf(condition);
      if (at < 0) {
        conditions.push(condition);
        decibans.push(weight);
      } else decibans[at] = (decibans[at] ?? 0) + weight;
    }
  };
  for (const finding of reply.present) {
    if (known[finding] === UNKNOWN) add(flow.evidence.present[finding]);
  }
  for (const finding of reply.absent) {
    if (known[finding] === UNKNOWN) add(flow.evidence.absent[finding]);
  }
  return { conditions, decibans };
}

/**
 * Whether an answer to the question can still change the verdict or the plan.
 * While the lead is open: an answer that strengthens the leader, or brings another condition within reach of it.
 * Once a condition is suspected: only an answer that could unseat it in favor of a look-alike, or that tells what
 * brought it on.
 */
export function matters(
  flow: Flow,
  { sums }: Weighed,
  start: Int16Array,
  decision: Decision,
  offer: Offer,
): boolean {
  const { leader, standing, lead } = decision;
  if (leader < 0) return true;
  const { reach, lead: leads } = flow.edition.weights;
  const settled = standing === "suspected";
  const alike = flow.evidence.alike[leader];
  const behind = flow.evidence.broughtOnBy[leader] ?? [];
  const top = (sums[leader] ?? 0) + (start[leader] ?? 0);
  for (const { conditions, decibans } of offer.gains) {
    const own = decibans[conditions.indexOf(leader)] ?? 0;
    if (settled ? own < 0 && lead + own < leads.suspected : own > 0) return true;
    const mark = top + own - (settled ? leads.suspected - 1 : reach);
    for (let i = 0; i < conditions.length; i++) {
      const c = conditions[i] ?? 0;
      const gain = decibans[i] ?? 0;
      if (c === leader) continue;
      if (settled && gain > 0 && behind.includes(c)) return true;
      if (gain <= own || (settled && alike?.[c] !== 1)) continue;
      if ((sums[c] ?? 0) + (start[c] ?? 0) + gain >= mark) return true;
    }
  }
  return false;
}
