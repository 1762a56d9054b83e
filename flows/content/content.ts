import type { Block, DrawingPart } from "../edition.ts";
import type { LexiconFile } from "./lexicon-schema.ts";
import type { Place } from "./problems.ts";
import type { Locate, Path } from "./read-yaml.ts";
import type {
  ConditionFront,
  ConversationFile,
  DrawingItem,
  FindingItem,
  HostItem,
  LifeCyclesFile,
  PotsFile,
  ProductItem,
  QuestionFront,
  RemedyFront,
  RetiredItem,
  ShopFile,
  SourceItem,
  WeightsFile,
} from "./schemas.ts";
import type { Sections } from "./sections.ts";

export const entryKinds = [
  "finding",
  "question",
  "condition",
  "host",
  "remedy",
  "source",
  "product",
] as const;
export type EntryKind = (typeof entryKinds)[number];

/** One thing read from a content file, with the way back to its places. */
export interface Entry<T> {
  file: string;
  /** What leads from the top of the file to the entry: nothing, or its place in a list. */
  base: Path;
  value: T;
  /** The place of the value at a path inside the entry. */
  at(path: Path): Place;
  /** Places inside a text of the entry. */
  inside(path: Path): Locate;
}

export type QuestionEntry = Entry<QuestionFront> & { body: Block[] };
export type RemedyEntry = Entry<RemedyFront> & { body: Block[] };
/** `checks` are those of `looks_like`, in its order. */
export type ConditionEntry = Entry<ConditionFront> & { body: Sections; checks: Block[][] };
export type ConversationEntry = Entry<ConversationFile> & { howToBring: Block[] };

/** Many entries of one kind. */
export interface Shelf<E> {
  entries: E[];
  /** Ids of all entries, of those too that could not be read to the end. */
  ids: ReadonlySet<string>;
  /** Whether every entry could be read. While false, "nobody names this" cannot be said. */
  whole: boolean;
}

/** Everything read, before the ids are followed from file to file. */
export interface Content {
  shop: Entry<ShopFile> | null;
  weights: Entry<WeightsFile> | null;
  conversation: ConversationEntry | null;
  /** Null also where there is no such file: then plans have no dates. */
  lifeCycles: Entry<LifeCyclesFile> | null;
  findings: Shelf<Entry<FindingItem>>;
  hosts: Shelf<Entry<HostItem>>;
  sources: Shelf<Entry<SourceItem>>;
  questions: Shelf<QuestionEntry>;
  conditions: Shelf<ConditionEntry>;
  remedies: Shelf<RemedyEntry>;
  products: Shelf<Entry<ProductItem>>;
  /** Null where the file is missing as well: a content folder may do without. */
  pots: Entry<PotsFile> | null;
  /** Ids that had a meaning once. Old editions and links still hold them, so they are never given again. */
  retired: Shelf<Entry<RetiredItem>>;
  /** Null also where there is no such file: then nothing that is typed is understood. */
  lexicon: Entry<LexiconFile> | null;
  drawings: Shelf<Entry<DrawingItem>>;
  /** What the files hold, by the ids in their names; null where one could not be read. */
  pictures: ReadonlyMap<string, DrawingPart[] | null>;
}
