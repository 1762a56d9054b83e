/** How far a long piece of work is: from 0 to 1, and how many points of the conversations were visited. */
export interface Progress {
  share: number;
  points: number;
}

/** Runs a piece of work to its end at once. Whoever wants to show how far it is, or to stop, steps through it instead. */
export function runToEnd<T>(work: Generator<Progress, T>): T {
  for (;;) {
    const step = work.next();
    if (step.done) return step.value;
  }
}
