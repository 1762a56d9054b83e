/**
 * The edition: one published, immutable state of the content, as plain JSON.
 * Everything at run time (server, browser, walker) works from this shape alone.
 */

export const findingKinds = ["symptom", "sign", "site", "care"] as const;
export type FindingKind = (typeof findingKinds)[number];

export const conditionKinds = ["pest", "pathogen", "abiotic", "harmless"] as const;
export type ConditionKind = (typeof conditionKinds)[number];

/** `everyday` is kept for the one or two causes behind most sick plants. */
export const frequencies = ["everyday", "common", "occasional", "rare"] as const;
export type Frequency = (typeof frequencies)[number];

/** In the order of integrated pest management: the gentlest method comes first. */
export const methods = ["cultural", "mechanical", "biological", "chemical"] as const;
export type Method = (typeof methods)[number];

export const phases = ["today", "next-days", "prevent"] as const;
export type Phase = (typeof phases)[number];

export const standings = ["undetermined", "leaning", "suspected"] as const;
export type Standing = (typeof standings)[number];

/** Facts about the household that only the plan needs. Unknown counts as the dangerous one. */
export const facts = ["eaten", "pets", "children", "flowering-or-outdoors"] as const;
export type Fact = (typeof facts)[number];

/** What a spray can do to a host plant. */
export const harms = ["soap", "oil", "alcohol", "wet-leaves"] as const;
export type Harm = (typeof harms)[number];

export const spreadings = ["yes-fast", "yes-slow", "no"] as const;
export type Spreading = (typeof spreadings)[number];

/** Prose is a small closed tree; nobody ever handles an HTML string. */
export type Inline =
  | { t: "text"; text: string }
  | { t: "em"; of: Inline[] }
  | { t: "strong"; of: Inline[] }
  | { t: "code"; text: string }
  | { t: "link"; to: string; of: Inline[] }
  | { t: "break" };

export type Block = { t: "p"; of: Inline[] } | { t: "list"; ordered: boolean; items: Block[][] };

export interface Finding {
  id: string;
  kind: FindingKind;
  /** Reads after "You saw:". */
  name: string;
  /** Reads after "You looked and found:". */
  absent: string;
  vague: boolean;
  /**
   * Tells how it came or where, not what there is to see. Circumstances (all of `site` and `care` among them) add their
   * weight to a condition, but never make it a contender alone.
   */
  circumstance: boolean;
  /** Vaguer findings that hold whenever this one does. */
  implies: string[];
  /** Findings that together amount to this one. */
  combines: string[];
}

export interface Option {
  id: string;
  label: string;
  /** Finding ids that this answer establishes, and those it excludes. */
  present: string[];
  absent: string[];
  /** The "none of these" answer: excludes what every other option would establish. */
  none: boolean;
  /** What this answer says about the household; only in questions of kind "fact" (YAML: `facts: { pets: yes, children: no }`). */
  facts: Partial<Record<Fact, "yes" | "no">>;
}

export const questionKinds = ["finding", "host", "fact"] as const;
export type QuestionKind = (typeof questionKinds)[number];

export interface Question {
  id: string;
  kind: QuestionKind;
  prompt: string;
  /** Why we ask, one or two sentences. */
  why: string;
  howToCheck: Block[];
  askWhen: { any: string[]; none: string[] };
  /** Without "not sure", which every question has. Empty for the host question. */
  options: Option[];
}

export interface Evidence {
  hallmark: string[];
  supports: string[];
  against: string[];
  excludes: string[];
}

export interface LookAlike {
  other: string;
  check: Block[];
}

export interface Condition {
  id: string;
  name: string;
  alsoCalled: string[];
  kind: ConditionKind;
  eppo: string | null;
  howCommon: Frequency;
  /** Host or group ids. */
  prone: string[];
  immune: string[];
  onlyOn: string[];
  evidence: Evidence;
  whenAbsent: { against: string[]; excludes: string[] };
  looksLike: LookAlike[];
  broughtOnBy: string[];
  brings: string[];
  plan: string[];
  spreads: Spreading;
  needsSample: boolean;
  whatItIs: Block[];
  whatBringsItOn: Block[];
  willItLive: Block[];
  doesItSpread: Block[];
  prevention: Block[];
  whenToGiveUp: Block[];
  whenToBringIn: Block[];
  sources: string[];
}

export const eatenTraits = ["never", "sometimes", "always"] as const;
export type EatenTrait = (typeof eatenTraits)[number];

export const poisonLevels = ["no", "mild", "yes", "deadly", "unknown", "lists-differ"] as const;
export type PoisonLevel = (typeof poisonLevels)[number];

export interface Host {
  id: string;
  name: string;
  botanical: string | null;
  alsoCalled: string[];
  groups: string[];
  eaten: EatenTrait;
  poisonous: { people: PoisonLevel; pets: PoisonLevel; note: string | null };
  harmedBy: Harm[];
  keepDry: boolean;
  light: "low" | "medium" | "high";
  water: "dry" | "between" | "moist";
  humidity: "low" | "medium" | "high";
  sources: string[];
}

/** What makes a step forbidden: a household fact, a harm to the host, or a host that must stay dry. */
export const neverWhens = [
  ...facts,
  "harmed-by-soap",
  "harmed-by-oil",
  "harmed-by-alcohol",
  "harmed-by-wet-leaves",
  "succulent-kept-dry",
] as const;
export type NeverWhen = (typeof neverWhens)[number];

export interface Repeat {
  /** Shortest and longest interval in days. */
  everyDays: [number, number];
  /** Fewest and most rounds. */
  times: [number, number];
  until: string | null;
}

export interface Remedy {
  id: string;
  name: string;
  method: Method;
  /** 0 none; 1 soap, oil, alcohol, biologicals; 2 contact pesticides; 3 systemic insecticides. */
  toxicity: 0 | 1 | 2 | 3;
  /** A bought pesticide: "the label is the law" is shown. */
  product: boolean;
  forFoodPlants: boolean;
  phase: Phase;
  minutes: number | null;
  amount: string | null;
  repeat: Repeat | null;
  needs: string[];
  neverWhen: NeverWhen[];
  cautions: { always: string[] } & Record<Fact, string[]>;
  needsStanding: "leaning" | "suspected";
  steps: Block[];
  sources: string[];
}

export interface Source {
  id: string;
  tier: "A" | "B" | "none";
  publisher: string;
  title: string;
  date: string | null;
  url: string | null;
}

export interface Branch {
  id: string;
  name: string;
  address: string;
  hours: string;
  phone: string;
}

export interface Shop {
  name: string;
  strapline: string;
  branches: Branch[];
  poisonHelp: string;
}

/** All the numbers of the evidence, in whole decibans (tenths of a base-ten logarithm of the likelihood ratio). */
export interface Weights {
  present: { hallmark: number; supports: number; against: number; excludes: number };
  absent: { hallmark: number; supports: number; against: number; excludes: number };
  howCommon: Record<Frequency, number>;
  host: { prone: number; immune: number; elsewhere: number; unknown: number };
  /** The rival "something not on our list". */
  silentRival: number;
  lead: { suspected: number; leaning: number };
  /** How far behind a rival may be and still be worth a question. */
  reach: number;
}

export interface Conversation {
  opening: string;
  order: string[];
  mostQuestions: number;
  /** Questions asked when nothing at all is known to be present, whatever their own conditions say. */
  whenUnsure: string[];
  /** Remedy ids that are safe while nothing is certain. */
  firstAid: string[];
  /** What to bring, how to pack it: shown with every sample request. */
  howToBring: Block[];
}

export interface Edition {
  number: number;
  hash: string;
  shop: Shop;
  weights: Weights;
  conversation: Conversation;
  findings: Finding[];
  questions: Question[];
  conditions: Condition[];
  hosts: Host[];
  remedies: Remedy[];
  sources: Source[];
}
