import { type Block, type Condition, type Edition, facts, type Question, type Source } from "../edition.ts";
import { evidenceWords } from "../evidence-table.ts";
import {
  type Columns,
  type ConditionProse,
  evidenceLetters,
  type FirstParcel,
  hostKeys,
  type ProseParcel,
  remedyKeys,
  remedyProseKeys,
  type SmallBlock,
  type SmallCondition,
  type SmallQuestion,
  topics,
} from "./shape.ts";

type Places = (ids: readonly string[]) => number[];

/** The part of an edition that the conversation needs. */
export function packFirst(edition: Edition): FirstParcel {
  const { howToBring: _, ...conversation } = edition.conversation;
  const { number, hash, weights, findings } = edition;
  const { handOver: _handOver, ...shop } = edition.shop;
  const places = placesIn(findings);
  return {
    number,
    hash,
    shop,
    weights,
    conversation,
    findings: toColumns(
      findings.map(({ id, kind, vague, circumstance, implies, combines }) => ({
        ...{ id, kind, vague, circumstance },
        implies: places(implies),
        combines: places(combines),
      })),
    ),
    questions: toColumns(edition.questions.map((question) => packQuestion(question, places))),
    conditions: toColumns(edition.conditions.map((condition) => packCondition(edition, condition))),
    hosts: toColumns(edition.hosts.map((host) => pick(host, hostKeys))),
    remedies: toColumns(
      edition.remedies.map((remedy) => ({
        ...pick(remedy, remedyKeys),
        cautioned: facts.filter((fact) => remedy.cautions[fact].length > 0),
      })),
    ),
  };
}

/** The rest, as far as the views show it: papers that nothing cites there stay on the server. */
export function packProse(edition: Edition): ProseParcel {
  const cited = new Set(edition.conditions.flatMap(({ sources }) => sources));
  const sources: Source[] = edition.sources.filter(({ id, tier }) => cited.has(id) && tier !== "none");
  const shown = new Set(sources.map(({ id }) => id));
  return {
    hash: edition.hash,
    ...(edition.shop.handOver && { handOver: edition.shop.handOver }),
    findings: toColumns(edition.findings.map(({ name, absent }) => ({ name, absent }))),
    howToBring: edition.conversation.howToBring.map(packBlock),
    conditions: toColumns(edition.conditions.map((condition) => packTopics(condition, shown))),
    remedies: toColumns(
      edition.remedies.map((remedy) => ({
        ...pick(remedy, remedyProseKeys),
        steps: remedy.steps.map(packBlock),
      })),
    ),
    poisonous: edition.hosts.map(({ poisonous }) => poisonous),
    humidity: edition.hosts.map(({ humidity }) => humidity),
    sources: toColumns(sources),
    uses: edition.remedies.map(({ uses }) => placesIn(edition.products ?? [])(uses ?? [])),
    products: toColumns(edition.products ?? []),
    pots: edition.pots ?? null,
    pacing: edition.pacing ?? null,
  };
}

function packQuestion(question: Question, places: Places): SmallQuestion {
  const { id, kind, prompt, why, howToCheck, askWhen, options, pictures = [] } = question;
  return {
    id,
    kind,
    prompt,
    why,
    pictures,
    howToCheck: howToCheck.map(packBlock),
    any: places(askWhen.any),
    none: places(askWhen.none),
    options: options.map((option) => option.id),
    labels: options.map(({ label }) => label),
    present: options.map(({ present }) => places(present)),
    absent: options.map(({ absent }) => places(absent)),
    noneAt: options.findIndex(({ none }) => none),
    facts: kind === "fact" ? options.map(({ facts: said }) => said) : [],
  };
}

function packCondition(edition: Edition, condition: Condition): SmallCondition {
  const { id, name, kind, howCommon, prone, immune, onlyOn, needsSample, evidence, whenAbsent } = condition;
  const places = placesIn(edition.conditions);
  const letters = edition.findings.map((finding) => {
    const said = [...evidenceWords, null].findIndex((word) => !word || evidence[word].includes(finding.id));
    const absent = whenAbsent.against.includes(finding.id)
      ? 1
      : whenAbsent.excludes.includes(finding.id)
        ? 2
        : 0;
    return evidenceLetters.charAt(absent * (evidenceWords.length + 1) + said);
  });
  return {
    ...{ id, name, kind, howCommon, prone, immune, onlyOn, needsSample },
    evidence: letters.join(""),
    looksLike: places(condition.looksLike.map(({ other }) => other)),
    broughtOnBy: places(condition.broughtOnBy),
    brings: places(condition.brings),
    plan: placesIn(edition.remedies)(condition.plan),
  };
}

function packTopics(condition: Condition, shown: ReadonlySet<string>): ConditionProse {
  const { alsoCalled, spreads, sources, looksLike } = condition;
  const prose = Object.fromEntries(topics.map((topic) => [topic, condition[topic].map(packBlock)])) as Pick<
    ConditionProse,
    (typeof topics)[number]
  >;
  return {
    ...prose,
    alsoCalled,
    spreads,
    sources: sources.filter((id) => shown.has(id)),
    checks: looksLike.map(({ check }) => check.map(packBlock)),
  };
}

function packBlock(block: Block): SmallBlock {
  if (block.t === "list") return { ...block, items: block.items.map((item) => item.map(packBlock)) };
  const [only, ...others] = block.of;
  return only?.t === "text" && others.length === 0 ? only.text : block;
}

function placesIn(entries: readonly { id: string }[]): Places {
  const place = new Map(entries.map(({ id }, at) => [id, at]));
  return (ids) => ids.map((id) => place.get(id) ?? -1);
}

function pick<T, K extends keyof T>(entry: T, keys: readonly K[]): Pick<T, K> {
  return Object.fromEntries(keys.map((key) => [key, entry[key]])) as Pick<T, K>;
}

/** The columns of a table. An empty table has none. */
function toColumns<T extends object>(rows: readonly T[]): Columns<T> {
  const names = Object.keys(rows[0] ?? {}) as (keyof T)[];
  return Object.fromEntries(names.map((name) => [name, rows.map((row) => row[name])])) as Columns<T>;
}
