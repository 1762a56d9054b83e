import type { Block, Condition, Edition, Evidence, Fact, Option, Remedy } from "../edition.ts";
import { evidenceWords } from "../evidence-table.ts";
import {
  type Columns,
  evidenceLetters,
  type FirstParcel,
  type ProseParcel,
  type SmallBlock,
  topics,
} from "./shape.ts";

/**
 * The edition as far as the first parcel tells it: it asks, judges and chooses steps like the whole one. What is
 * missing is empty, and a step that has cautions has them without words.
 */
export function unpackFirst(parcel: FirstParcel): Edition {
  const findings = toRows(parcel.findings);
  const conditions = toRows(parcel.conditions);
  const remedies = toRows(parcel.remedies);
  const findingIds = namesAt(findings);
  const conditionIds = namesAt(conditions);
  return {
    ...parcel,
    conversation: { ...parcel.conversation, howToBring: [] },
    findings: findings.map((finding) => ({
      ...finding,
      ...nameById(finding.id),
      implies: findingIds(finding.implies),
      combines: findingIds(finding.combines),
    })),
    questions: toRows(parcel.questions).map((row) => {
      const { any, none, options, labels, present, absent, noneAt, facts, ...question } = row;
      return {
        ...question,
        howToCheck: question.howToCheck.map(unpackBlock),
        askWhen: { any: findingIds(any), none: findingIds(none) },
        options: options.map(
          (id, at): Option => ({
            id,
            label: labels[at] ?? id,
            none: at === noneAt,
            facts: facts[at] ?? {},
            present: findingIds(present[at] ?? []),
            absent: findingIds(absent[at] ?? []),
          }),
        ),
      };
    }),
    conditions: conditions.map((condition) => ({
      ...withoutProse(),
      ...condition,
      ...readLetters(findings, condition.evidence),
      looksLike: conditionIds(condition.looksLike).map((other) => ({ other, check: [] })),
      broughtOnBy: conditionIds(condition.broughtOnBy),
      brings: conditionIds(condition.brings),
      plan: namesAt(remedies)(condition.plan),
    })),
    hosts: toRows(parcel.hosts).map((host) => ({
      ...host,
      poisonous: { people: "unknown", pets: "unknown", note: null },
      ...{ light: "medium", water: "between", humidity: "medium", sources: [] },
    })),
    remedies: remedies.map(({ cautioned, ...remedy }) => ({
      ...remedy,
      cautions: holdPlaces(cautioned),
      ...{ name: remedy.id, minutes: null, amount: null, repeat: null },
      ...{ needs: [], steps: [], sources: [] },
    })),
    sources: [],
  };
}

/** Adds the prose to an edition that was unpacked from the first parcel of the same edition. */
export function addProse(edition: Edition, prose: ProseParcel): Edition {
  const topicRows = toRows(prose.conditions);
  const remedyRows = toRows(prose.remedies);
  const names = toRows(prose.findings);
  const products = toRows(prose.products);
  const { pots, pacing } = prose;
  return {
    ...edition,
    shop: { ...edition.shop, ...(prose.handOver && { handOver: prose.handOver }) },
    findings: edition.findings.map((finding, at) => ({ ...finding, ...names[at] })),
    conversation: { ...edition.conversation, howToBring: prose.howToBring.map(unpackBlock) },
    conditions: edition.conditions.map((condition, at) => {
      const row = topicRows[at];
      if (!row) return condition;
      const { checks, alsoCalled, spreads, sources } = row;
      const looksLike = condition.looksLike.map(({ other }, i) => ({
        other,
        check: (checks[i] ?? []).map(unpackBlock),
      }));
      const read = Object.fromEntries(topics.map((topic) => [topic, row[topic].map(unpackBlock)]));
      return { ...condition, ...read, looksLike, alsoCalled, spreads, sources };
    }),
    remedies: edition.remedies.map((remedy, at) => {
      const row = remedyRows[at];
      const uses = namesAt(products)(prose.uses[at] ?? []);
      return row ? { ...remedy, ...row, uses, steps: row.steps.map(unpackBlock) } : remedy;
    }),
    hosts: edition.hosts.map((host, at) => ({
      ...host,
      poisonous: prose.poisonous[at] ?? host.poisonous,
      humidity: prose.humidity[at] ?? host.humidity,
    })),
    sources: toRows(prose.sources),
    products,
    ...(pots ? { pots } : {}),
    ...(pacing ? { pacing } : {}),
  };
}

/** Stands in for a name that is still on its way: an id is made of plain words. */
function nameById(id: string) {
  const name = id.replaceAll("-", " ");
  return { name, absent: `no ${name}` };
}

function withoutProse() {
  const empty: Pick<Condition, (typeof topics)[number]> = {
    ...{ whatItIs: [], whatBringsItOn: [], willItLive: [], doesItSpread: [] },
    ...{ prevention: [], whenToGiveUp: [], whenToBringIn: [] },
  };
  return { ...empty, alsoCalled: [], eppo: null, spreads: "no" as const, sources: [] };
}

function holdPlaces(cautioned: readonly Fact[]): Remedy["cautions"] {
  const words = (fact: Fact) => (cautioned.includes(fact) ? [""] : []);
  return {
    always: [],
    eaten: words("eaten"),
    pets: words("pets"),
    children: words("children"),
    "flowering-or-outdoors": words("flowering-or-outdoors"),
  };
}

function readLetters(findings: readonly { id: string }[], letters: string) {
  const evidence: Evidence = { hallmark: [], supports: [], against: [], excludes: [] };
  const whenAbsent: Condition["whenAbsent"] = { against: [], excludes: [] };
  findings.forEach(({ id }, at) => {
    const letter = evidenceLetters.indexOf(letters.charAt(at));
    const words = evidenceWords.length + 1;
    const word = evidenceWords[letter % words];
    if (word) evidence[word].push(id);
    if (letter >= words) whenAbsent[letter < 2 * words ? "against" : "excludes"].push(id);
  });
  return { evidence, whenAbsent };
}

function unpackBlock(block: SmallBlock): Block {
  if (typeof block === "string") return { t: "p", of: [{ t: "text", text: block }] };
  if (block.t === "p") return block;
  return { ...block, items: block.items.map((item) => item.map(unpackBlock)) };
}

function namesAt(rows: readonly { id: string }[]): (places: readonly number[]) => string[] {
  return (places) => places.flatMap((at) => rows[at]?.id ?? []);
}

function toRows<T extends object>(columns: Columns<T>): T[] {
  const names = Object.keys(columns) as (keyof T)[];
  const length = names[0] === undefined ? 0 : columns[names[0]].length;
  return Array.from(
    { length },
    (_, at) => Object.fromEntries(names.map((name) => [name, columns[name][at]])) as T,
  );
}
