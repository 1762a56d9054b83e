/** One place of a list that holds still. */
export interface Place {
  id: string;
  /** What stood here is gone; the place is kept until nobody points at the list any more. */
  isGone: boolean;
}

/**
 * Keeps what is pointed at where it is. While the list is held, every row stays in its place, gone ones included, and
 * new ones come after the last; once it is free, the list is as it should be.
 */
export function keepPlaces(before: readonly Place[], ids: readonly string[], isHeld: boolean): Place[] {
  if (!isHeld) return ids.map((id) => ({ id, isGone: false }));
  const wanted = new Set(ids);
  const known = new Set(before.map(({ id }) => id));
  return [
    ...before.map(({ id }) => ({ id, isGone: !wanted.has(id) })),
    ...ids.filter((id) => !known.has(id)).map((id) => ({ id, isGone: false })),
  ];
}
