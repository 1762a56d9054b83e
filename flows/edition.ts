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

export const questionKinds = ["finding", "host", "fact", "look"] as const;
export type QuestionKind = (typeof questionKinds)[number];

/** Where a question is shown with drawings. The browser keeps their places free before they are there. */
export const pictureUses = ["options", "check", "press"] as const;
export type PictureUse = (typeof pictureUses)[number];

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
  /** Absent in editions from before there were drawings. */
  pictures?: PictureUse[];
}

/** What a drawing may be made of: shapes and groups. Nothing of it loads, links, moves or has a name. */
export const drawingTags = ["g", "path", "circle", "ellipse", "line", "polyline", "polygon", "rect"] as const;
export type DrawingTag = (typeof drawingTags)[number];

/**
 * How a shape is inked; the style sheet turns the roles into colors, so that a drawing works on dark paper, in forced
 * colors and in print. `ink` to `sign` are lines, from the pen's usual stroke to the one accent; `paper` to `mark` are fills.
 */
export const drawingRoles = [
  "ink",
  "fine",
  "faint",
  "sign",
  "sign-fine",
  "paper",
  "wash",
  "shade",
  "dark",
  "mark",
] as const;
export type DrawingRole = (typeof drawingRoles)[number];

export interface DrawingPart {
  tag: DrawingTag;
  roles: DrawingRole[];
  /** Geometry only, as it stands in the file; checked against a closed list when the edition is made. */
  shape: Record<string, string>;
  /** Names a group that can be pressed. */
  region?: string;
  parts?: DrawingPart[];
}

/** A line drawing on a square of `DRAWING_SIDE` units. It carries no evidence. */
export interface Drawing {
  id: string;
  /** What to look for, in words: stands in for the drawing. */
  shows: string;
  /** What it is a picture of: findings, questions' ways to check, conditions, and single answers. */
  findings: string[];
  checks: string[];
  conditions: string[];
  answers: { to: string; is: string }[];
  /** Questions that are asked with it: which of their answers stands for which region. */
  presses: { question: string; regions: { option: string; region: string }[] }[];
  parts: DrawingPart[];
}

export const DRAWING_SIDE = 96;

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
  /** Ids of product types. Absent in editions from before there were any. */
  uses?: string[];
  neverWhen: NeverWhen[];
  cautions: { always: string[] } & Record<Fact, string[]>;
  needsStanding: "leaning" | "suspected";
  /** Ends the treatment rather than being one: never what a later look steps up to. */
  lastResort?: boolean;
  steps: Block[];
  sources: string[];
}

/** Heat that a stage of life needs: none at or below the threshold (°C), then so many degrees times days. */
export interface HeatNeed {
  threshold: number;
  degreeDays: number;
}

/** The life of a pest, as far as it sets the pace of its treatment. */
export interface LifeCycle extends HeatNeed {
  condition: string;
  /** What outlives a round, as a whole sentence: "Eggs survive each round." The next sentence calls it "they". */
  spared: string;
  /** From leaving the spared stage until it lays or hides again; null when only the whole is known. */
  open: HeatNeed | null;
  /** °C between which the rule was seen to hold. Above, the upper end is used. */
  holds: [number, number];
  sources: string[];
}

/** How a product type is repeated against one pest, where tables say more than the remedy itself. */
export interface PestInterval extends Omit<Repeat, "until"> {
  condition: string;
  remedies: string[];
  sources: string[];
}

/** What the dates of a plan come from. */
export interface Pacing {
  cycles: LifeCycle[];
  /** Remedies that kill what they touch and spare the rest: their rounds follow the life of the pest. */
  paced: string[];
  intervals: PestInterval[];
}

export interface Source {
  id: string;
  tier: "A" | "B" | "none";
  publisher: string;
  title: string;
  date: string | null;
  url: string | null;
}

export const unitSystems = ["metric", "us"] as const;
export type UnitSystem = (typeof unitSystems)[number];

/** All US ones are US customary; a dry quart is the quart on a bag of mix. */
export const volumeUnits = [
  "ml",
  "litre",
  "tsp",
  "tbsp",
  "fl-oz",
  "cup",
  "quart",
  "gallon",
  "dry-quart",
] as const;
export type VolumeUnit = (typeof volumeUnits)[number];

export interface Quantity<U extends string> {
  amount: number;
  unit: U;
}

/** `supply`: a thing or a mix that is never diluted nor sprayed, such as gloves, cards or potting mix. */
export const productKinds = ["ready-to-use", "concentrate", "homemade", "supply"] as const;
export type ProductKind = (typeof productKinds)[number];

export const packUnits = [...volumeUnits, "g", "piece"] as const;
export type PackUnit = (typeof packUnits)[number];

/** How strong, as published: a share of the finished mix, or so much in so much water. */
export interface Rate {
  id: string;
  /** Reads after "for". */
  use: string;
  strength: { percent: number } | { measure: Quantity<RateUnit>; water: Quantity<RateUnit> };
  sources: string[];
}

/** `part` stands on both sides of a rate or on none. */
export const rateUnits = [...volumeUnits, "part"] as const;
export type RateUnit = (typeof rateUnits)[number];

/** A type of product, never a brand. */
export interface Product {
  id: string;
  name: string;
  kind: ProductKind;
  /** Probably in the home already. */
  atHome: boolean;
  /** The product a homemade mix is made from. */
  madeFrom: string | null;
  /** The product it can stand in for: a ready-to-use spray for a concentrate. */
  insteadOf: string | null;
  /** The usual one first. Empty: only the label can say, or there is nothing to mix. */
  rates: Rate[];
  /** Said with every amount: the label overrides ours. */
  label: string | null;
  /** Usual pack sizes, small ones first. */
  sizes: Quantity<PackUnit>[];
  /** Where it stands in most shops. */
  shelf: string | null;
  sources: string[];
}

/** Pots as trade names them, and the rules of thumb about them. Lengths in cm, volumes in litres. */
export interface PotTable {
  /** Published volumes of a nominal size: the least and the most found. */
  nominal: { cm: number; litres: [number, number]; sources: string[] }[];
  /** Top widths that are sold: whole cm, whole inches. */
  sold: { cm: number[]; inches: number[]; sources: string[] };
  /** How much wider the next pot may be, for pots below and from a width on. */
  wider: { below: number; small: [number, number]; large: [number, number]; sources: string[] };
  /** Share of mix that settling takes, in percent. */
  settling: { percent: [number, number]; sources: string[] };
  /** Water for leaching, in pot volumes, by those who ask for less and by those who ask for more. */
  leaching: { potVolumes: [number, number]; sources: string[] };
  /** From this loss on a new start is worth a thought, in percent of the roots. */
  newStartFrom: { percent: number; sources: string[] };
}

export interface Branch {
  id: string;
  name: string;
  address: string;
  hours: string;
  phone: string;
  units?: UnitSystem;
  /** BCP 47 and IANA names, where the branch differs from the shop. */
  locale?: string;
  timeZone?: string;
}

export interface Shop {
  name: string;
  strapline: string;
  branches: Branch[];
  poisonHelp: string;
  /** How numbers are written (BCP 47). */
  locale?: string;
  /** Product id → where it stands in the shop. */
  shelves?: Record<string, string>;
  /** What staff send after a call, with `{shop}`, `{link}` and `{code}` to be filled in. */
  handOver?: { subject: string; message: string };
  /** Whether visits are counted; they are when it is absent. */
  countVisits?: boolean;
  /** Where its days begin and end, as the tz database names it; UTC when absent. */
  timeZone?: string;
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
  /** Absent in editions from before there were dates. */
  pacing?: Pacing;
  /** Absent in editions from before there were any, as are the pots. */
  products?: Product[];
  pots?: PotTable;
  /** Absent in editions from before owners could type. */
  lexicon?: Lexicon;
  /** Absent in editions from before there were any. */
  drawings?: Drawing[];
}

export const askIds = [
  "will-it-live",
  "will-it-spread",
  "safe-for-pets",
  "safe-for-people",
  "can-i-eat-it",
  "what-is-it",
] as const;
/** What owners want to know besides the cause. */
export type AskId = (typeof askIds)[number];

/** A few words that stand near each other, in the editor's notation: `{white} {fuzzy}|cotton_wool`. */
export type Way = string;

/** How people say what the edition knows. Everything here proposes; nothing counts before the owner agrees. */
export interface Lexicon {
  /** Sets of words that mean the same, by name. */
  words: Record<string, string[]>;
  /** Names of the sets that stand for a part of the plant, or for the plant. */
  parts: string[];
  /** Names of the sets that stand for something with a place of its own: its words are not the leaf's. */
  things: string[];
  findings: {
    id: string;
    ways: Way[];
    /** Ways that tell this finding when they are denied: "no bugs". */
    whenDenied: Way[];
    /** Ways that make it something else when they stand in the same breath. */
    unless: Way[];
    /** Whether denying the words denies the finding. */
    deniable: boolean;
    /** Whether the words may stand in different pieces of one sentence. */
    across: boolean;
  }[];
  facts: { fact: Fact; is: "yes" | "no"; ways: Way[]; unless: Way[] }[];
  /** More names for host plants than `hosts` has. */
  hosts: { host: string; names: string[] }[];
  /** Names of host plants, and words around them, that mean something else in running text. */
  notHosts: string[];
  theories: { conditions: string[]; ways: Way[] }[];
  asks: { id: AskId; ways: Way[] }[];
  /** Small words that turn the meaning; see content/lexicon.yaml. */
  turns: Record<TurnKind, string[]>;
  /** Everyday words that are never taken for a misspelling. */
  plain: string[];
  /** Words that are not what their stem says: "potted" is no pot. Only a way that writes "=potted" reads them. */
  whole: string[];
}

export const turnKinds = [
  "deny",
  "deny-after",
  "absence",
  "no-denial",
  "suppose",
  "past",
  "turn",
  "statement",
  "hedge",
  "unsure",
  "small",
] as const;
export type TurnKind = (typeof turnKinds)[number];
