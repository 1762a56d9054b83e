/** The normal deviate that leaves 2.5 % on either side. */
const Z_95 = 1.959963984540054;

export interface Interval {
  low: number;
  high: number;
}

/**
 * The score interval of E. B. Wilson (J. Amer. Statist. Assoc. 22, 1927, 209–212) for a share seen in a sample, without
 * continuity correction: honest for small numbers, never below 0 or above 1. Without a sample it is everything.
 */
export function wilsonInterval(successes: number, trials: number, z = Z_95): Interval {
  if (trials === 0) return { low: 0, high: 1 };
  const share = successes / trials;
  const z2 = z * z;
  const middle = (2 * trials * share + z2) / (2 * (trials + z2));
  const reach = (z * Math.sqrt(z2 + 4 * trials * share * (1 - share))) / (2 * (trials + z2));
  return {
    low: successes === 0 ? 0 : Math.max(0, middle - reach),
    high: successes === trials ? 1 : Math.min(1, middle + reach),
  };
}
