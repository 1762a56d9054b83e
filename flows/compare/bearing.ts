import type { Condition, Edition, Host, Question, Remedy } from "../edition.ts";

/**
 * What of an edition bears on conversations about a plant: which question comes when, what its answers establish, how that is
 * weighed, and which steps a plan has. Names, labels, prose, sources, dates, amounts and the shop's own facts do not.
 */
export function bearingOf(edition: Edition): unknown {
  const { weights, conversation } = edition;
  const { opening, order, mostQuestions, whenUnsure, firstAid } = conversation;
  return {
    weights,
    conversation: { opening, order, mostQuestions, whenUnsure: sorted(whenUnsure), firstAid },
    findings: byId(edition.findings).map(({ id, kind, vague, circumstance, implies, combines }) => [
      id,
      circumstance || kind === "site" || kind === "care",
      vague,
      sorted(implies),
      sorted(combines),
    ]),
    questions: edition.questions.map(bearingOfQuestion),
    conditions: edition.conditions.map(bearingOfCondition),
    hosts: byId(edition.hosts).map(bearingOfHost),
    remedies: byId(edition.remedies).map(bearingOfRemedy),
  };
}

/** Whether every conversation is the same under both editions, because nothing differs that bears on any. */
export function bearsSame(live: Edition, draft: Edition): boolean {
  return JSON.stringify(bearingOf(live)) === JSON.stringify(bearingOf(draft));
}

function bearingOfQuestion({ id, kind, askWhen, options }: Question): unknown {
  const answers = byId(options).map(({ id, present, absent, none, facts }) => [
    id,
    sorted(present),
    sorted(absent),
    none,
    Object.entries(facts).sort(),
  ]);
  return [id, kind, sorted(askWhen.any), sorted(askWhen.none), answers];
}

function bearingOfCondition(condition: Condition): unknown {
  const { id, kind, howCommon, prone, immune, onlyOn, evidence, whenAbsent, looksLike } = condition;
  return [
    id,
    kind,
    howCommon,
    [prone, immune, onlyOn].map(sorted),
    [evidence.hallmark, evidence.supports, evidence.against, evidence.excludes].map(sorted),
    [whenAbsent.against, whenAbsent.excludes].map(sorted),
    sorted(looksLike.map(({ other }) => other)),
    condition.broughtOnBy,
    sorted(condition.brings),
    condition.plan,
    condition.needsSample,
  ];
}

function bearingOfHost({ id, groups, eaten, harmedBy, keepDry }: Host): unknown {
  return [id, sorted(groups), eaten, sorted(harmedBy), keepDry];
}

/** A remedy without its words. Cautions count, for which of them are shown depends on the household. */
export function bearingOfRemedy(remedy: Remedy): unknown {
  const { id, method, toxicity, product, forFoodPlants, phase, neverWhen, cautions, needsStanding } = remedy;
  const shown = [
    cautions.always,
    cautions.eaten,
    cautions.pets,
    cautions.children,
    cautions["flowering-or-outdoors"],
  ];
  return [
    id,
    method,
    toxicity,
    product,
    forFoodPlants,
    phase,
    neverWhen,
    shown.map(({ length }) => length),
    needsStanding,
    remedy.lastResort === true,
  ];
}

function sorted(ids: readonly string[]): string[] {
  return [...ids].sort();
}

function byId<T extends { id: string }>(entries: readonly T[]): T[] {
  return [...entries].sort((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0));
}
