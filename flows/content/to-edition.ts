import {
  type Condition,
  type Conversation,
  type Drawing,
  type Edition,
  type Finding,
  type Host,
  type Lexicon,
  type Pacing,
  type PictureUse,
  type PotTable,
  type Product,
  pictureUses,
  type Question,
  type Rate,
  type Remedy,
  type Source,
  type Weights,
} from "../edition.ts";
import { openPictures } from "../pictures.ts";
import type { ConditionEntry, Content, ConversationEntry, QuestionEntry, RemedyEntry } from "./content.ts";
import type { LexiconFile } from "./lexicon-schema.ts";
import type {
  DrawingItem,
  FindingItem,
  HostItem,
  LifeCyclesFile,
  PotsFile,
  ProductItem,
  ShopFile,
  SourceItem,
  WeightsFile,
} from "./schemas.ts";

/** Null when one of the single files could not be read. */
export function toEdition(content: Content): Edition | null {
  const { shop, weights, conversation } = content;
  if (shop === null || weights === null || conversation === null) return null;
  const drawings = content.drawings.entries.map(({ value }) => toDrawing(value, content));
  return {
    number: 1,
    hash: "",
    shop: toShop(shop.value),
    weights: toWeights(weights.value),
    conversation: toConversation(conversation),
    findings: content.findings.entries.map(({ value }) => toFinding(value)),
    questions: content.questions.entries.map(toQuestion).map(withPictures(drawings)),
    conditions: content.conditions.entries.map(toCondition),
    hosts: content.hosts.entries.map(({ value }) => toHost(value)),
    remedies: content.remedies.entries.map(toRemedy),
    sources: content.sources.entries.map(({ value }) => toSource(value)),
    products: content.products.entries.map(({ value }) => toProduct(value)),
    ...(content.pots === null ? {} : { pots: toPots(content.pots.value) }),
    drawings,
    ...(content.lifeCycles === null ? {} : { pacing: toPacing(content.lifeCycles.value) }),
    ...(content.lexicon === null ? {} : { lexicon: toLexicon(content.lexicon.value) }),
  };
}

function toShop({ branches, ...file }: ShopFile): Edition["shop"] {
  const { poison_help: poisonHelp, hand_over: handOver, time_zone: timeZone, ...others } = file;
  const { count_visits: countVisits, ...rest } = others;
  return {
    ...rest,
    branches: branches.map(({ time_zone: own, ...branch }) => ({ ...branch, ...(own && { timeZone: own }) })),
    poisonHelp,
    ...(handOver && { handOver }),
    ...(timeZone && { timeZone }),
    // Nothing is said where visits are counted: what goes to every browser stays small.
    ...(countVisits === false && { countVisits }),
  };
}

function toPacing({ cycles, paced, intervals }: LifeCyclesFile): Pacing {
  return {
    cycles: cycles.map(({ degree_days: degreeDays, open, ...cycle }) => ({
      ...cycle,
      degreeDays,
      open: open ? { threshold: open.threshold, degreeDays: open.degree_days } : null,
    })),
    paced,
    intervals: intervals.map(({ every_days: everyDays, ...interval }) => ({ ...interval, everyDays })),
  };
}

function toLexicon({ not_hosts: notHosts, findings, turns, ...rest }: LexiconFile): Lexicon {
  const { deny_after: denyAfter, no_denial: noDenial, ...others } = turns;
  return {
    ...rest,
    notHosts,
    findings: findings.map(({ when_denied: whenDenied, ...finding }) => ({ ...finding, whenDenied })),
    turns: { ...others, "deny-after": denyAfter, "no-denial": noDenial },
  };
}

function toWeights({ how_common: howCommon, silent_rival: silentRival, ...rest }: WeightsFile): Weights {
  return { ...rest, howCommon, silentRival };
}

function toConversation({ value, howToBring }: ConversationEntry): Conversation {
  return {
    opening: value.opening,
    order: value.order,
    mostQuestions: value.most_questions,
    whenUnsure: value.when_unsure,
    firstAid: value.first_aid,
    howToBring,
  };
}

function toFinding(item: FindingItem): Finding {
  return { ...item };
}

function toQuestion({ value, body }: QuestionEntry): Question {
  const { ask_when: askWhen, picture: _, options, ...rest } = value;
  return {
    ...rest,
    options: options.map(({ region: _, ...option }) => option),
    askWhen,
    howToCheck: body,
  };
}

function toDrawing(item: DrawingItem, { pictures, questions }: Content): Drawing {
  const presses = questions.entries
    .filter(({ value }) => value.picture === item.id)
    .map(({ value }) => ({
      question: value.id,
      regions: value.options.flatMap(({ id, region }) =>
        region === undefined ? [] : [{ option: id, region }],
      ),
    }));
  return { ...item, presses, parts: pictures.get(item.id) ?? [] };
}

/** Notes at a question where it is shown with drawings. */
function withPictures(drawings: readonly Drawing[]): (question: Question) => Question {
  const pictures = openPictures(drawings);
  return (question) => {
    const shown: Record<PictureUse, boolean> = {
      options: question.options.some((option) => pictures.ofOption(question, option) !== undefined),
      check: question.howToCheck.length > 0 && pictures.ofCheck(question) !== undefined,
      press: pictures.pressedFor(question) !== undefined,
    };
    return { ...question, pictures: pictureUses.filter((use) => shown[use]) };
  };
}

function toCondition({ value, body, checks }: ConditionEntry): Condition {
  return {
    id: value.id,
    name: value.name,
    alsoCalled: value.also_called,
    kind: value.kind,
    eppo: value.eppo ?? null,
    howCommon: value.how_common,
    prone: value.prone,
    immune: value.immune,
    onlyOn: value.only_on,
    evidence: value.evidence,
    whenAbsent: value.when_absent,
    looksLike: value.looks_like.map(({ other }, index) => ({ other, check: checks[index] ?? [] })),
    broughtOnBy: value.brought_on_by,
    brings: value.brings,
    plan: value.plan,
    spreads: value.spreads,
    needsSample: value.needs_sample,
    ...body,
    sources: value.sources,
  };
}

function toHost(item: HostItem): Host {
  const { also_called: alsoCalled, harmed_by: harmedBy, keep_dry: keepDry, ...rest } = item;
  const { people, pets, note } = item.poisonous;
  return {
    ...rest,
    botanical: item.botanical ?? null,
    alsoCalled,
    poisonous: { people, pets, note: note ?? null },
    harmedBy,
    keepDry,
  };
}

function toRemedy({ value, body }: RemedyEntry): Remedy {
  const { repeat } = value;
  return {
    id: value.id,
    name: value.name,
    method: value.method,
    toxicity: value.toxicity,
    product: value.product,
    forFoodPlants: value.for_food_plants,
    phase: value.phase,
    minutes: value.minutes ?? null,
    amount: value.amount ?? null,
    repeat: repeat
      ? { everyDays: repeat.every_days, times: repeat.times, until: repeat.until ?? null }
      : null,
    needs: value.needs,
    uses: value.uses,
    neverWhen: value.never_when,
    cautions: value.cautions,
    needsStanding: value.needs_standing,
    lastResort: value.last_resort,
    steps: body,
    sources: value.sources,
  };
}

function toSource(item: SourceItem): Source {
  return { ...item, date: item.date ?? null, url: item.url ?? null };
}

function toProduct(item: ProductItem): Product {
  const { at_home: atHome, made_from: madeFrom, instead_of: insteadOf, rates, label, shelf, ...rest } = item;
  return {
    ...rest,
    atHome,
    madeFrom: madeFrom ?? null,
    insteadOf: insteadOf ?? null,
    rates: rates.map(toRate),
    label: label ?? null,
    shelf: shelf ?? null,
  };
}

function toRate({ percent, measure, water, ...rest }: ProductItem["rates"][number]): Rate {
  const strength = measure && water ? { measure, water } : { percent: percent ?? 0 };
  return { ...rest, strength };
}

function toPots({ leaching, new_start_from: newStartFrom, ...rest }: PotsFile): PotTable {
  return {
    ...rest,
    leaching: { potVolumes: leaching.pot_volumes, sources: leaching.sources },
    newStartFrom,
  };
}
