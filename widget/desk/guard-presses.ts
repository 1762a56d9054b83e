/** How long, in milliseconds, a press after a change still belongs to what was there before. */
const SETTLING = 400;

/**
 * For changes that come by themselves, after something was fetched: a press of the pointer right behind one was meant
 * for what stood there before, and does nothing but be told. Returns what to call at such a change.
 */
export function guardPresses(root: HTMLElement, refuse: () => void): () => void {
  let until = 0;
  root.addEventListener(
    "click",
    (event) => {
      // A press by keyboard, or by a screen reader, has no count; it goes where the focus is.
      if (event.detail === 0 || event.timeStamp > until) return;
      event.preventDefault();
      event.stopPropagation();
      refuse();
    },
    true,
  );
  return () => {
    until = performance.now() + SETTLING;
  };
}
