import type {
  Condition,
  Conversation,
  Fact,
  Finding,
  Host,
  Inline,
  Option,
  Pacing,
  PictureUse,
  PotTable,
  Product,
  Question,
  Remedy,
  Shop,
  Source,
  Weights,
} from "../edition.ts";

/**
 * An edition in two parcels for the browser: what the conversation needs up to the verdict, and the prose that explains
 * it. Entries travel as columns and references as places in them, because that is what compresses well.
 */
export type Columns<T> = { [K in keyof T]: T[K][] };

/** A paragraph that is nothing but text is a string. */
export type SmallBlock =
  | string
  | { t: "p"; of: Inline[] }
  | { t: "list"; ordered: boolean; items: SmallBlock[][] };
export type SmallProse = SmallBlock[];

export interface SmallFinding extends Pick<Finding, "id" | "kind" | "vague" | "circumstance"> {
  implies: number[];
  combines: number[];
}

/** `options` to `absent`: ids, labels and findings of the options, in their order. */
export interface SmallQuestion extends Pick<Question, "id" | "kind" | "prompt" | "why"> {
  pictures: PictureUse[];
  howToCheck: SmallProse;
  any: number[];
  none: number[];
  options: string[];
  labels: string[];
  present: number[][];
  absent: number[][];
  /** Place of the "none of these" option, or -1. */
  noneAt: number;
  /** What the options say about the household; empty where they say nothing. */
  facts: Option["facts"][];
}

/** Letters for a finding on a condition: one row when its absence says nothing, is against, or excludes. */
export const evidenceLetters = "hsae.HSAE:1234;";

/** `evidence` holds one letter for each finding; the checks against look-alikes come with the prose. */
export interface SmallCondition
  extends Pick<
    Condition,
    "id" | "name" | "kind" | "howCommon" | "prone" | "immune" | "onlyOn" | "needsSample"
  > {
  evidence: string;
  looksLike: number[];
  broughtOnBy: number[];
  brings: number[];
  plan: number[];
}

export const hostKeys = [
  "id",
  "name",
  "botanical",
  "alsoCalled",
  "groups",
  "eaten",
  "harmedBy",
  "keepDry",
] as const;
export type SmallHost = Pick<Host, (typeof hostKeys)[number]>;

export const remedyKeys = [
  "id",
  "method",
  "toxicity",
  "lastResort",
  "product",
  "forFoodPlants",
  "phase",
  "neverWhen",
  "needsStanding",
] as const;
/** `cautioned`: the facts that have cautions; their words come with the prose. */
export type SmallRemedy = Pick<Remedy, (typeof remedyKeys)[number]> & { cautioned: Fact[] };

/** All that is needed to ask, to judge, and to choose the steps of the plan. */
export interface FirstParcel {
  number: number;
  hash: string;
  /** Without the words for handing over, which only the desk needs. */
  shop: Omit<Shop, "handOver">;
  weights: Weights;
  conversation: Omit<Conversation, "howToBring">;
  findings: Columns<SmallFinding>;
  questions: Columns<SmallQuestion>;
  conditions: Columns<SmallCondition>;
  hosts: Columns<SmallHost>;
  remedies: Columns<SmallRemedy>;
}

export const topics = [
  "whatItIs",
  "whatBringsItOn",
  "willItLive",
  "doesItSpread",
  "prevention",
  "whenToGiveUp",
  "whenToBringIn",
] as const;
export type ConditionProse = Pick<Condition, "alsoCalled" | "spreads" | "sources"> &
  Record<(typeof topics)[number], SmallProse> & { checks: SmallProse[] };

export const remedyProseKeys = ["name", "minutes", "amount", "repeat", "needs", "cautions"] as const;
export type RemedyProse = Pick<Remedy, (typeof remedyProseKeys)[number]> & { steps: SmallProse };

/** The words that explain a verdict and its plan, as far as the views show them, and what days and amounts come from. */
export interface ProseParcel {
  hash: string;
  handOver?: Shop["handOver"];
  findings: Columns<Pick<Finding, "name" | "absent">>;
  howToBring: SmallProse;
  conditions: Columns<ConditionProse>;
  remedies: Columns<RemedyProse>;
  poisonous: Host["poisonous"][];
  humidity: Host["humidity"][];
  sources: Columns<Source>;
  /** Places of the product types that each remedy uses. */
  uses: number[][];
  products: Columns<Product>;
  pots: PotTable | null;
  pacing: Pacing | null;
}
