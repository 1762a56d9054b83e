/** The shape of lexicon.yaml, in the words the editor writes. */
import * as z from "zod";
import { askIds, facts } from "../edition.ts";

const text = z.string().refine((value) => value.trim() !== "", "must not be empty");
const id = z
  .string()
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, "must be small letters and digits, joined by single dashes");
const ids = z.array(id);

const way = z
  .string()
  .refine(
    (value) =>
      value.trim() !== "" && value.split(/[ |]/).every((choice) => /^(\{[a-z_]+\}|[^{}\s]+)$/.test(choice)),
    "must be words, {sets} and | between them, with single spaces",
  );
const ways = z.array(way).default([]);
const words = z.array(text).default([]);

export const lexiconSchema = z.strictObject({
  words: z.record(z.string().regex(/^[a-z_]+$/, "must be small letters"), z.array(text)),
  parts: words,
  things: words,
  findings: z.array(
    z.strictObject({
      id,
      ways,
      when_denied: ways,
      unless: ways,
      deniable: z.boolean().default(true),
      across: z.boolean().default(false),
    }),
  ),
  facts: z
    .array(z.strictObject({ fact: z.enum(facts), is: z.enum(["yes", "no"]), ways, unless: ways }))
    .default([]),
  hosts: z.array(z.strictObject({ host: id, names: words })).default([]),
  not_hosts: words,
  theories: z.array(z.strictObject({ conditions: ids, ways })).default([]),
  asks: z.array(z.strictObject({ id: z.enum(askIds), ways })).default([]),
  turns: z.strictObject({
    deny: words,
    deny_after: words,
    absence: words,
    no_denial: words,
    suppose: words,
    past: words,
    turn: words,
    statement: words,
    hedge: words,
    unsure: words,
    small: words,
  }),
  plain: words,
  whole: words,
});
export type LexiconFile = z.output<typeof lexiconSchema>;
