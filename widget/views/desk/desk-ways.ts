import type { Answer } from "../../../flows/case.ts";
import type { RemarkName } from "../../../flows/case-link.ts";
import type { Piece } from "../../../flows/desk/pieces.ts";
import type { Place } from "../../../flows/desk/places.ts";
import type { Pair } from "../ways.ts";

/** How the desk reaches the world around it: by links and forms, and by a script where one runs. */
export interface DeskWays {
  /** Where forms go; their method is GET. */
  action: string;
  /** The case, for forms that carry it along. */
  carried: readonly Pair[];
  hrefWithout(to: string): string;
  hrefWithoutRemark(name: RemarkName, id: string): string;
  /** Where the caller's own words go when no script reads them. */
  hrefToSay: string;
  /** The case in hand. */
  hrefToKeep: string;
  hrefBack: string | null;
  hrefToCode(code: string): string;
  hrefToCheck: string;
  hrefToSlip: string;
  live?: LiveDesk | undefined;
}

export type Panel = "keys" | "hand-over" | "take-over";

/** What a running script adds. */
export interface LiveDesk {
  panel: Panel | null;
  show(panel: Panel | null): void;
  answer(to: string, is: string): void;
  takeBack(to: string): void;
  takeBackRemark(name: RemarkName, id: string): void;
  /** Puts the beginning of the caller's words into the field. */
  beginWords(): void;
  /** Takes a piece of what was understood, or leaves it out, as its box now says. */
  onPiece(piece: Piece, event: Event): void;
  leaveOut(piece: Piece): void;
  /** The form with all that was understood. */
  onTake(event: Event): void;
  backToWords(): void;
  undo(): void;
  /** The question that was chosen by its letter. */
  chosen: string | null;
  /** What was found for the words or the name typed, and which of it Enter takes. */
  found: readonly Answer[];
  at: number;
  /** What the field says about what is typed. */
  hint: string;
  /** The last thing that happened, for the one live region. */
  said: string;
  onType(event: Event): void;
  onKey(event: Event): void;
  /** Open questions and candidates in places that hold still. */
  questions: readonly Place[];
  rows: readonly Place[];
  hold(list: "questions" | "rows", isHeld: boolean): void;
  /** Forms with the plant's name and with a code. */
  onPlant(event: Event): void;
  onCode(event: Event): void;
  openCode(code: string): void;
  /** The caller's number as typed. */
  phone: string;
  onPhone(event: Event): void;
  copy?: ((text: string) => void) | undefined;
  share?: (() => void) | undefined;
}

/** A press that is the second of a double click is meant for what was there before. */
export function onPress(act: () => void) {
  return { onClick: (event: Event & { detail?: number }) => ((event.detail ?? 0) > 1 ? undefined : act()) };
}
