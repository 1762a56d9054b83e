/**
 * The shape of every content file, in the words the editor writes. Strict: an unknown key is a problem.
 * Whether the ids lead anywhere is not a matter of shape: see cross-checks.ts.
 */
import * as z from "zod";
import {
  conditionKinds,
  eatenTraits,
  findingKinds,
  frequencies,
  harms,
  methods,
  neverWhens,
  packUnits,
  phases,
  poisonLevels,
  productKinds,
  questionKinds,
  rateUnits,
  spreadings,
  unitSystems,
} from "../edition.ts";
import { isLocale, isTimeZone } from "../place.ts";
import { entryKinds } from "./content.ts";

const text = z.string().refine((value) => value.trim() !== "", "must not be empty");
const id = z
  .string()
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, "must be small letters and digits, joined by single dashes");
/** Sources keep the ids of the papers they come from. */
const sourceId = z
  .string()
  .regex(/^[A-Za-z0-9]+(-[a-z0-9]+)*$/, "must be letters and digits, joined by single dashes");
const ids = z.array(id);
const someIds = ids.default([]);
const texts = z.array(text).default([]);
/** One text, or a list of them. */
const textOrTexts = z
  .union([text, z.array(text)], "must be a text or a list of texts")
  .transform((value) => (typeof value === "string" ? [value] : value))
  .default([]);

const notNegative = z.int().min(0, "must not be below 0");
const notPositive = z.int().max(0, "must not be above 0");
const range = z
  .tuple(
    [z.int().min(1, "must be at least 1"), z.int().min(1, "must be at least 1")],
    "must be two whole numbers",
  )
  .refine(([least, most]) => least <= most, "must give the smaller number first");

const tells = z.strictObject({
  hallmark: notNegative,
  supports: notNegative,
  against: notPositive,
  excludes: notPositive,
});

export const weightsSchema = z.strictObject({
  present: tells,
  absent: z.strictObject({
    hallmark: notPositive,
    supports: notPositive,
    against: notPositive,
    excludes: notPositive,
  }),
  how_common: z.record(z.enum(frequencies), z.int()),
  host: z.strictObject({
    prone: notNegative,
    immune: notPositive,
    elsewhere: notPositive,
    unknown: notPositive,
  }),
  silent_rival: z.int(),
  lead: z.strictObject({ suspected: notNegative, leaning: notNegative }),
  reach: notNegative,
});
export type WeightsFile = z.output<typeof weightsSchema>;

const locale = text.refine(isLocale, "must be a language and country, such as en-US");
const timeZone = text.refine(
  isTimeZone,
  "must be a time zone such as America/New_York, from the tz database",
);

export const shopSchema = z.strictObject({
  name: text,
  strapline: text,
  branches: z
    .array(
      z.strictObject({
        id,
        name: text,
        address: text,
        hours: text,
        phone: text,
        units: z.enum(unitSystems).exactOptional(),
        locale: locale.exactOptional(),
        time_zone: timeZone.exactOptional(),
      }),
    )
    .min(1, "must not be empty"),
  poison_help: text,
  locale: locale.exactOptional(),
  shelves: z.record(id, text).exactOptional(),
  hand_over: z
    .strictObject({
      subject: text,
      message: text.refine((message) => message.includes("{link}"), "must hold {link}"),
    })
    .exactOptional(),
  count_visits: z.boolean().exactOptional(),
  time_zone: timeZone.exactOptional(),
});
export type ShopFile = z.output<typeof shopSchema>;

export const conversationSchema = z.strictObject({
  opening: id,
  order: ids,
  most_questions: z.int().min(1, "must be at least 1"),
  when_unsure: someIds,
  first_aid: ids,
  /** Markdown. */
  how_to_bring: text,
});
export type ConversationFile = z.output<typeof conversationSchema>;

export const findingSchema = z.strictObject({
  id,
  kind: z.enum(findingKinds),
  name: text,
  absent: text,
  vague: z.boolean().default(false),
  circumstance: z.boolean().default(false),
  implies: someIds,
  combines: someIds,
});
export type FindingItem = z.output<typeof findingSchema>;

export const hostSchema = z.strictObject({
  id,
  name: text,
  botanical: text.optional(),
  also_called: texts,
  groups: someIds,
  eaten: z.enum(eatenTraits),
  poisonous: z.strictObject({
    people: z.enum(poisonLevels),
    pets: z.enum(poisonLevels),
    note: text.optional(),
  }),
  harmed_by: z.array(z.enum(harms)).default([]),
  keep_dry: z.boolean().default(false),
  light: z.enum(["low", "medium", "high"]),
  water: z.enum(["dry", "between", "moist"]),
  humidity: z.enum(["low", "medium", "high"]),
  sources: z.array(sourceId).default([]),
});
export type HostItem = z.output<typeof hostSchema>;

export const sourceSchema = z.strictObject({
  id: sourceId,
  tier: z.enum(["A", "B", "none"]),
  publisher: text,
  title: text,
  date: text.optional(),
  url: z
    .string()
    .regex(/^https?:\/\/\S+$/, "must be a web address")
    .optional(),
});
export type SourceItem = z.output<typeof sourceSchema>;

const heatNeed = {
  threshold: z.number().min(-5, "must not be below -5").max(20, "must not be above 20"),
  degree_days: z.number().min(10, "must be at least 10").max(2000, "must not be above 2000"),
};

export const lifeCyclesSchema = z.strictObject({
  cycles: z.array(
    z.strictObject({
      condition: id,
      spared: text,
      ...heatNeed,
      open: z.strictObject(heatNeed).optional(),
      holds: range,
      sources: z.array(sourceId).min(1, "must not be empty"),
    }),
  ),
  paced: ids,
  intervals: z
    .array(
      z.strictObject({
        condition: id,
        remedies: ids,
        every_days: range,
        times: range,
        sources: z.array(sourceId).min(1, "must not be empty"),
      }),
    )
    .default([]),
});
export type LifeCyclesFile = z.output<typeof lifeCyclesSchema>;

export const retiredSchema = z.strictObject({
  id: sourceId,
  kind: z.enum(entryKinds),
  why: text,
});
export type RetiredItem = z.output<typeof retiredSchema>;

export const tradeWordsSchema = z.array(text);

const yesOrNo = z.enum(["yes", "no"]).exactOptional();

const option = z.strictObject({
  id,
  label: text,
  present: someIds,
  absent: someIds,
  none: z.boolean().default(false),
  /** A group of the question's picture. Goes into the drawing, not into the answer. */
  region: id.optional(),
  facts: z
    .strictObject({ eaten: yesOrNo, pets: yesOrNo, children: yesOrNo, "flowering-or-outdoors": yesOrNo })
    .default({}),
});

export const questionSchema = z.strictObject({
  id,
  kind: z.enum(questionKinds).default("finding"),
  prompt: text,
  why: text,
  ask_when: z.strictObject({ any: someIds, none: someIds }).prefault({}),
  /** A drawing whose regions can be pressed. */
  picture: id.optional(),
  options: z.array(option).default([]),
});
export type QuestionFront = z.output<typeof questionSchema>;

export const conditionSchema = z.strictObject({
  id,
  name: text,
  also_called: texts,
  kind: z.enum(conditionKinds),
  eppo: z
    .string()
    .regex(/^[0-9A-Z]{5,6}$/, "must be five or six capital letters or digits")
    .optional(),
  /** For the editor: what a missing or shared code covers. Not part of the edition. */
  eppo_note: text.optional(),
  how_common: z.enum(frequencies),
  prone: someIds,
  immune: someIds,
  only_on: someIds,
  evidence: z.strictObject({ hallmark: someIds, supports: someIds, against: someIds, excludes: someIds }),
  when_absent: z.strictObject({ against: someIds, excludes: someIds }).prefault({}),
  /** `check` is Markdown. */
  looks_like: z.array(z.strictObject({ other: id, check: text })).default([]),
  brought_on_by: someIds,
  brings: someIds,
  plan: someIds,
  spreads: z.enum(spreadings),
  needs_sample: z.boolean().default(false),
  sources: z.array(sourceId).default([]),
});
export type ConditionFront = z.output<typeof conditionSchema>;

const cautions = z
  .strictObject({
    always: textOrTexts,
    eaten: textOrTexts,
    pets: textOrTexts,
    children: textOrTexts,
    "flowering-or-outdoors": textOrTexts,
  })
  .prefault({});

export const remedySchema = z.strictObject({
  id,
  name: text,
  method: z.enum(methods),
  toxicity: z.literal([0, 1, 2, 3]),
  product: z.boolean().default(false),
  for_food_plants: z.boolean(),
  phase: z.enum(phases),
  minutes: z.int().min(1, "must be at least 1").optional(),
  amount: text.optional(),
  repeat: z.strictObject({ every_days: range, times: range, until: text.optional() }).optional(),
  needs: texts,
  uses: someIds,
  never_when: z.array(z.enum(neverWhens)).default([]),
  cautions,
  needs_standing: z.enum(["leaning", "suspected"]).default("leaning"),
  last_resort: z.boolean().default(false),
  sources: z.array(sourceId).default([]),
});
export type RemedyFront = z.output<typeof remedySchema>;

const aboveZero = z.number().positive("must be above 0");
const upTo = (most: number) => aboveZero.max(most, `must not be above ${most}`);
const sources = z.array(sourceId).min(1, "must not be empty");
const span = (most: number) =>
  z
    .tuple([upTo(most), upTo(most)], "must be two numbers")
    .refine(([least, greatest]) => least <= greatest, "must give the smaller number first");

const rateQuantity = z.strictObject({ amount: aboveZero, unit: z.enum(rateUnits) });

const rate = z
  .strictObject({
    id,
    use: text,
    percent: upTo(50).optional(),
    measure: rateQuantity.optional(),
    water: rateQuantity.optional(),
    sources,
  })
  .refine(
    ({ percent, measure, water }) =>
      (percent !== undefined) !== (measure !== undefined && water !== undefined),
    "must have either percent, or measure and water",
  )
  .refine(
    ({ measure, water }) => (measure?.unit === "part") === (water?.unit === "part"),
    "must give parts on both sides or on none",
  );

export const productSchema = z
  .strictObject({
    id,
    name: text,
    kind: z.enum(productKinds),
    at_home: z.boolean().default(false),
    made_from: id.optional(),
    instead_of: id.optional(),
    rates: z.array(rate).default([]),
    label: text.optional(),
    sizes: z.array(z.strictObject({ amount: aboveZero, unit: z.enum(packUnits) })).default([]),
    shelf: text.optional(),
    sources: z.array(sourceId).default([]),
  })
  .refine(
    ({ kind, rates }) => rates.length === 0 || kind === "concentrate" || kind === "homemade",
    "must have no rates: what is ready to use is never diluted",
  )
  .refine(
    ({ kind, label }) => label !== undefined || kind === "supply" || kind === "homemade",
    "must have the sentence that its label comes first (label)",
  )
  .refine(
    ({ kind, made_from: from, rates }) => (kind === "homemade") === (from !== undefined && rates.length > 0),
    "must say made_from and rates if it is homemade, and has no made_from otherwise",
  );
export type ProductItem = z.output<typeof productSchema>;

export const drawingSchema = z.strictObject({
  id,
  shows: text,
  findings: someIds,
  checks: someIds,
  conditions: someIds,
  answers: z.array(z.strictObject({ to: id, is: id })).default([]),
});
export type DrawingItem = z.output<typeof drawingSchema>;

const widths = z.array(upTo(100)).min(1, "must not be empty");
export const potsSchema = z.strictObject({
  nominal: z.array(z.strictObject({ cm: upTo(100), litres: span(500), sources })).min(1, "must not be empty"),
  sold: z.strictObject({ cm: widths, inches: widths, sources }),
  wider: z.strictObject({ below: upTo(100), small: span(50), large: span(50), sources }),
  settling: z.strictObject({ percent: span(100), sources }),
  leaching: z.strictObject({ pot_volumes: span(10), sources }),
  new_start_from: z.strictObject({ percent: upTo(100), sources }),
});
export type PotsFile = z.output<typeof potsSchema>;
