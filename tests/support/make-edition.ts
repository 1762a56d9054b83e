import type {
  Condition,
  Edition,
  Evidence,
  Finding,
  Host,
  Option,
  Question,
  Remedy,
  Weights,
} from "../../flows/edition.ts";
import { type Flow, openFlow } from "../../flows/flow.ts";

/** What a test says of an entry: its id and whatever matters to the test. The rest has harmless defaults. */
type Given<T> = { id: string } & Partial<T>;

export const plainWeights: Weights = {
  present: { hallmark: 13, supports: 5, against: -5, excludes: -30 },
  absent: { hallmark: -4, supports: -1, against: -5, excludes: -30 },
  howCommon: { everyday: 5, common: 3, occasional: 0, rare: -4 },
  host: { prone: 4, immune: -40, elsewhere: -40, unknown: -4 },
  silentRival: 6,
  lead: { suspected: 8, leaning: 3 },
  reach: 5,
};

export function finding(given: Given<Finding>): Finding {
  return {
    kind: "symptom",
    name: given.id,
    absent: `no ${given.id}`,
    vague: false,
    circumstance: false,
    implies: [],
    combines: [],
    ...given,
  };
}

export type GivenCondition = Omit<Given<Condition>, "evidence"> & { evidence?: Partial<Evidence> };

/** A condition that is neither common nor rare, with the evidence given and no plan. */
export function condition({ evidence = {}, ...given }: GivenCondition): Condition {
  return {
    name: given.id,
    alsoCalled: [],
    kind: "pest",
    eppo: null,
    howCommon: "occasional",
    prone: [],
    immune: [],
    onlyOn: [],
    evidence: { hallmark: [], supports: [], against: [], excludes: [], ...evidence },
    whenAbsent: { against: [], excludes: [] },
    looksLike: [],
    broughtOnBy: [],
    brings: [],
    plan: [],
    spreads: "no",
    needsSample: false,
    whatItIs: [],
    whatBringsItOn: [],
    willItLive: [],
    doesItSpread: [],
    prevention: [],
    whenToGiveUp: [],
    whenToBringIn: [],
    sources: [],
    ...given,
  };
}

export function option(given: Given<Option>): Option {
  return { label: given.id, present: [], absent: [], none: false, facts: {}, ...given };
}

export function question({
  options = [],
  ...given
}: Omit<Given<Question>, "options"> & { options?: Given<Option>[] }): Question {
  return {
    kind: "finding",
    prompt: given.id,
    why: "",
    howToCheck: [],
    askWhen: { any: [], none: [] },
    options: options.map(option),
    ...given,
  };
}

export function host(given: Given<Host>): Host {
  return {
    name: given.id,
    botanical: null,
    alsoCalled: [],
    groups: [],
    eaten: "never",
    poisonous: { people: "no", pets: "no", note: null },
    harmedBy: [],
    keepDry: false,
    light: "medium",
    water: "between",
    humidity: "medium",
    sources: [],
    ...given,
  };
}

export type GivenRemedy = Omit<Given<Remedy>, "cautions"> & { cautions?: Partial<Remedy["cautions"]> };

/** A cultural step of today that asks nothing of anyone. */
export function remedy({ cautions = {}, ...given }: GivenRemedy): Remedy {
  return {
    name: given.id,
    method: "cultural",
    toxicity: 0,
    product: false,
    forFoodPlants: true,
    phase: "today",
    minutes: null,
    amount: null,
    repeat: null,
    needs: [],
    neverWhen: [],
    cautions: { always: [], eaten: [], pets: [], children: [], "flowering-or-outdoors": [], ...cautions },
    needsStanding: "leaning",
    steps: [],
    sources: [],
    ...given,
  };
}

type Parts = Partial<Omit<Edition, "conversation" | "findings">> & {
  findings: readonly (Finding | string)[];
  conversation?: Partial<Edition["conversation"]>;
};

/** An edition of a few entries. Without questions of its own it asks for the plant, after an opening that says nothing. */
export function makeEdition({ findings, conversation = {}, ...parts }: Parts): Edition {
  const questions = parts.questions ?? [question({ id: "opening" }), question({ id: "host", kind: "host" })];
  const asked = questions.filter(({ kind }) => kind === "finding").map(({ id }) => id);
  return {
    number: 1,
    hash: "test",
    shop: { name: "", strapline: "", branches: [], poisonHelp: "" },
    weights: plainWeights,
    conditions: [],
    hosts: [],
    remedies: [],
    sources: [],
    ...parts,
    findings: findings.map((entry) => (typeof entry === "string" ? finding({ id: entry }) : entry)),
    questions,
    conversation: {
      opening: asked[0] ?? "",
      order: asked.slice(1),
      mostQuestions: 20,
      whenUnsure: [],
      firstAid: [],
      howToBring: [],
      ...conversation,
    },
  };
}

export function makeFlow(parts: Parts): Flow {
  return openFlow(makeEdition(parts));
}
