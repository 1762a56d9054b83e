import type { Desk } from "../../flows/desk/desk.ts";
import { keepPlaces, type Place } from "../../flows/desk/places.ts";

export type ListName = "questions" | "rows";

/** The lists that hold still while they are pointed at. */
export class StillLists {
  readonly #places: Record<ListName, Place[]> = { questions: [], rows: [] };
  readonly #held: Record<ListName, boolean> = { questions: false, rows: false };

  get questions(): readonly Place[] {
    return this.#places.questions;
  }

  get rows(): readonly Place[] {
    return this.#places.rows;
  }

  place(desk: Desk): void {
    const open = desk.open.flatMap(({ questions }) => questions.map(({ id }) => id));
    const { questions, rows } = this.#places;
    this.#places.questions = keepPlaces(questions, open, this.#held.questions);
    const ids = desk.rows.map(({ condition }) => condition);
    this.#places.rows = keepPlaces(rows, ids, this.#held.rows);
  }

  /** True when a list was let go, so that it may order itself. */
  hold(list: ListName, isHeld: boolean): boolean {
    const isFreed = this.#held[list] && !isHeld;
    this.#held[list] = isHeld;
    return isFreed;
  }

  /** Who types does not point: the lists are free to order themselves with the next change. */
  free(): void {
    this.#held.questions = false;
    this.#held.rows = false;
  }
}
