import type { Answer } from "../../flows/case.ts";
import type { Desk } from "../../flows/desk/desk.ts";
import { findPlants, findReplies } from "../../flows/desk/find-replies.ts";
import { type DeskCommand, readKeys } from "../../flows/desk/keys.ts";
import type { Flow } from "../../flows/flow.ts";
import * as words from "../views/desk/desk-words.ts";

const NONE = -1;

/** What the field shows of what is typed, or what is to be done with it. */
export interface FieldState {
  /** The question that was chosen by its letter. */
  chosen: string | null;
  found: Answer[];
  /** Which of those found Enter takes; NONE before one was chosen. */
  at: number;
  /** The caller's own words, as far as they are typed; null while something else is. */
  words: string | null;
  hint: string;
  /** To be done at once; the field is emptied. */
  act: { answer: Answer } | { command: DeskCommand } | null;
  /** What was typed means nothing: to be said, and the field emptied. */
  isUnknown: boolean;
}

export const emptyField: FieldState = {
  chosen: null,
  found: [],
  at: 0,
  words: null,
  hint: "",
  act: null,
  isUnknown: false,
};

export function readField(flow: Flow, desk: Desk, typed: string): FieldState {
  const best = desk.best?.question.id ?? null;
  const reading = readKeys(flow, desk.keys, best, typed);
  switch (reading.kind) {
    case "empty":
      return emptyField;
    case "answer":
      return { ...emptyField, act: { answer: { to: reading.to, is: reading.is } } };
    case "command":
      return { ...emptyField, act: { command: reading.command } };
    case "unknown":
      return { ...emptyField, isUnknown: true };
    case "question": {
      const question = flow.question(reading.to);
      const hint = question?.kind === "host" ? words.typePlant : words.choosing(question?.prompt ?? "");
      return { ...emptyField, chosen: reading.to, hint };
    }
    case "plant": {
      const found = findPlants(flow, reading.name).map((is) => ({ to: reading.to, is }));
      const picked = reading.pick === null ? undefined : found[reading.pick];
      if (picked) return { ...emptyField, act: { answer: picked } };
      return {
        ...emptyField,
        chosen: reading.to,
        found,
        hint: hintFor(found, reading.name, words.typePlant),
      };
    }
    case "words": {
      const open = new Set(desk.open.flatMap(({ questions }) => questions.map(({ id }) => id)));
      if (best !== null) open.add(best);
      const found = findReplies(flow, open, reading.words);
      // Enter reads the words; an answer that holds them is taken only when it was chosen.
      return {
        ...emptyField,
        found,
        at: NONE,
        words: reading.words,
        hint: found.length > 0 ? words.typeWordsOr : words.typeWords,
      };
    }
  }
}

/** Whether two states of the field look the same on the screen. */
export function looksSame(one: FieldState, other: FieldState): boolean {
  const foundIn = ({ found, at }: FieldState) => `${at} ${found.map(({ to, is }) => `${to}=${is}`).join()}`;
  return one.hint === other.hint && one.chosen === other.chosen && foundIn(one) === foundIn(other);
}

function hintFor(found: readonly Answer[], typed: string, usual: string): string {
  return typed !== "" && found.length === 0 ? words.noMatch : usual;
}
