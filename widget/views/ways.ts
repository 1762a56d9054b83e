import type { Child } from "hono/jsx";
import type { Condition, Question } from "../../flows/edition.ts";

/** A name and a value, as a form or a link carries them. */
export type Pair = readonly [name: string, value: string];

/**
 * How a view reaches the world around it. On the server the links and forms do all the work; in the browser
 * `onSubmit` and `onFollow` take the same presses over.
 */
export interface Ways {
  /** Makes an element id that is unique on the page. */
  id(name: string): string;
  /** Where forms go; their method is GET. */
  action: string;
  /** The whole case, for forms that carry it along. */
  carried: readonly Pair[];
  /** Where a form goes whose answer stands in the part of the page of that name. */
  actionAt(name: string): string;
  hrefToChange(to: string): string;
  /** The same case with nothing reopened, and without a look that is due. */
  hrefToKeep: string;
  hrefToStart: string;
  /** The case without its last answer; null when there is none. */
  hrefBack: string | null;
  /** The case with the question of the next look. */
  hrefToLook: string;
  /** The file with the days of the plan. */
  hrefToCalendar: string;
  /** Where words of one's own go when no script reads them. */
  hrefToSay: string;
  /** The sample slip of the case. */
  hrefToSlip: string;
  /** The case on a page of its own, for paper; null where the reader is on that page. */
  hrefToPrint: string | null;
  /** The form's `data-lt` says what it is for: "answer", "change", "plant", "say" or "numbers". */
  onSubmit?: ((event: Event) => void) | undefined;
  /** The link's `data-lt` says what it is for: "change", "keep", "back", "look" or "start"; `data-to` names the question. */
  onFollow?: ((event: Event) => void) | undefined;
  /** Saves what `write` makes at that moment in place of following the link, where the browser can. */
  saveCalendar?: ((event: Event, write: (now: number) => string | null) => void) | undefined;
  /** Prints the check in place of following the link, where the browser can. */
  onPrint?: ((event: Event) => void) | undefined;
  /** Absent in editions without drawings, and in the browser until they are there. */
  pictures?: PictureViews | undefined;
  /** What the browser can do with a link beyond following it. Absent where no script runs. */
  tools?: Tools | undefined;
}

/** The drawings, each null while it is on its way or where there is none. The words beside them say the same. */
export interface PictureViews {
  /** The small one beside an answer. */
  option(question: Question, option: string): Child;
  /** Those of all answers, larger and with words. */
  figures(question: Question): Child;
  check(question: Question): Child;
  /** The picture to press. `idOf` gives the id of the radio button of an answer. */
  press(question: Question, idOf: (option: string) => string): Child;
  /** With its words. */
  condition(condition: Pick<Condition, "id" | "name">): Child;
  /** Whether two conditions have drawings, and different ones. */
  areApart(one: Pick<Condition, "id">, other: Pick<Condition, "id">): boolean;
}

/** Presses on buttons that only a script can serve. */
export interface Tools {
  copy?: ((text: string) => void) | undefined;
  share?: (() => void) | undefined;
  /** A sentence on what the last press did. */
  said: string;
}

/** The form's handler as a property, or none: on the server there is nothing to attach. */
export function submits({ onSubmit }: Ways) {
  return onSubmit ? { onSubmit } : {};
}

/** The link's handler as a property, or none. */
export function follows({ onFollow }: Ways) {
  return onFollow ? { onClick: onFollow } : {};
}

/** Links away from the check open beside it where it sits in a page that is not its own. */
export function leaves({ onFollow }: Ways) {
  return onFollow ? { target: "_blank", rel: "noopener" } : {};
}
