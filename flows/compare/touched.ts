import type { Weighed } from "../assess.ts";
import { applies } from "../case.ts";
import { UNKNOWN } from "../finding-table.ts";
import type { Flow, Prompt } from "../flow.ts";
import type { Editions, SharedPrompt, SideName } from "./merge.ts";

/** Tells whether anything that differs between the editions can play a part at a point of the live one. */
export type IsTouched = (weighed: Weighed, answered: ReadonlySet<number>) => boolean;

/**
 * Most edits change a few entries, and at most points of a conversation none of them is in play: then both editions decide the
 * same, and deciding once is enough. Undefined where the editions differ in what every point rests on: the weights, the
 * order, the list of findings or conditions. `starts`: of the host classes, which must be the same plants under both.
 */
export function findTouched(
  editions: Editions,
  shared: readonly SharedPrompt[],
  starts: Readonly<Record<SideName, readonly Int16Array[]>>,
): IsTouched | undefined {
  const { live, draft } = editions;
  if (!restsOnSame(editions)) return undefined;
  const findings = live.edition.findings.map((_, f) => findingKey(live, f) !== findingKey(draft, f));
  const conditions = live.edition.conditions.map(
    (_, c) =>
      isConditionChanged(editions, c) || starts.live.some((start, k) => start[c] !== starts.draft[k]?.[c]),
  );
  const bears = (f: number) =>
    findings[f] === true ||
    [...(live.evidence.present[f] ?? []), ...(live.evidence.absent[f] ?? [])].some(
      ({ condition }) => conditions[condition] === true,
    );
  const prompts = shared.filter(
    (prompt) =>
      promptKey(prompt.live) !== promptKey(prompt.draft) ||
      prompt.live?.replies.some(({ present, absent }) => present.some(bears) || absent.some(bears)) === true,
  );
  const places = prompts.map((prompt) => (prompt.live ? live.prompts.indexOf(prompt.live) : -1));
  return ({ known, contenders }, answered) => {
    for (let f = 0; f < known.length; f++) if (known[f] !== UNKNOWN && findings[f]) return true;
    for (const c of contenders) if (conditions[c]) return true;
    return prompts.some((prompt, i) => {
      if (answered.has(places[i] ?? -1)) return false;
      return (
        (prompt.live !== undefined && applies(prompt.live, known)) ||
        (prompt.draft !== undefined && applies(prompt.draft, known))
      );
    });
  };
}

function restsOnSame({ live, draft }: Editions): boolean {
  return JSON.stringify(groundOf(live, draft)) === JSON.stringify(groundOf(draft, live));
}

function groundOf({ edition }: Flow, other: Flow): unknown {
  const { weights, conversation, findings, conditions } = edition;
  return [
    weights,
    conversation.opening,
    conversation.mostQuestions,
    conversation.order.filter((id) => other.edition.conversation.order.includes(id)),
    findings.map(({ id, combines }) => [id, combines]),
    conditions.map(({ id }) => id),
  ];
}

/** All that one finding means, to others and to the conditions. */
function findingKey({ findings, evidence, edition }: Flow, f: number): string {
  return JSON.stringify([
    findings.vaguer[f],
    findings.sharper[f],
    findings.isCircumstance[f],
    findings.isState[f],
    edition.findings[f]?.vague,
    evidence.present[f],
    evidence.absent[f],
  ]);
}

function isConditionChanged({ live, draft }: Editions, c: number): boolean {
  const key = ({ evidence, edition }: Flow) =>
    JSON.stringify([
      evidence.baseRate[c],
      evidence.kindRank[c],
      [...(evidence.linked[c] ?? [])],
      [...(evidence.alike[c] ?? [])],
      evidence.broughtOnBy[c],
      edition.conditions[c]?.needsSample,
    ]);
  return key(live) !== key(draft);
}

function promptKey(prompt: Prompt | undefined): string {
  if (!prompt) return "";
  const { gateAny, gateNone, whenUnsure, replies } = prompt;
  return JSON.stringify([gateAny, gateNone, whenUnsure, replies]);
}
