import { binomialAtLeast, poissonAtMost } from './binomial-tail.js';

/** Within what something lies; `high` null: there is no upper end. */
export interface Limits {
  readonly low: number;
  readonly high: number | null;
}

/** What is left outside at either end: limits hold 95 times in 100. */
export const TAIL = 0.025;

/** Above this a count is not looked at: no column vends so much, and sums would take long. */
export const LARGEST_COUNT = 1_000_000;

/**
 * Exact limits of the mean behind a Poisson count, 95 in 100: the lower is the mean that gives so many or more with
 * probability 0.025, the upper the one that gives so many or fewer (Garwood, Biometrika 28, 1936; from memory).
 *
 * @returns null for a count below 0 or too large to be looked at
 * @example limitMean(10) // { low: 4.795, high: 18.390 }
 */
export function limitMean(count: number): Limits | null {
  if (count < 0 || count > LARGEST_COUNT) return null;
  // Chebyshev's bound, far beyond the limits.
  const top = count + 8 * Math.sqrt(count + 1) + 8;
  const high = bisect(0, top, (mean) => poissonAtMost(count, mean) < TAIL);
  const low = count === 0 ? 0 : bisect(0, count, (mean) => 1 - poissonAtMost(count - 1, mean) > TAIL);
  return { low, high };
}

/**
 * How long it may take until `left` more vends, 95 in 100, when `count` came in a known time: as parts of that time.
 *
 * Vends are taken for a Poisson process of one rate. The times T to the next L vends and S to n past ones are gamma
 * distributed, so T / (T + S) is beta distributed with L and n whatever the rate is; the known time lies between the n-th
 * vend and the next one, which gives the two ends: beta with L and n + 1 below, with L and n above. A beta probability of
 * whole parameters is a binomial tail (textbook mathematics). So both are in it, how well the rate is known and how
 * vends fall by chance.
 *
 * @param left - 1 or more
 * @returns `high` null where nothing was sold: then it may take any time; null for counts that are not looked at
 * @example limitWait(10, 10) // { low: 0.374, high: 2.464 }: in two fifths to two and a half times as long
 */
export function limitWait(left: number, count: number): Limits | null {
  if (left < 1 || count < 0 || left > LARGEST_COUNT || count > LARGEST_COUNT) return null;
  const part = (n: number, probability: number): number => {
    const x = bisect(0, 1, (p) => betaAtMost(left, n, p) > probability);
    return x / (1 - x);
  };
  return { low: part(count + 1, TAIL), high: count === 0 ? null : part(count, 1 - TAIL) };
}

/** Probability that a beta variable with whole parameters a and b is at most x. */
function betaAtMost(a: number, b: number, x: number): number {
  return binomialAtLeast(a, a + b - 1, x);
}

const STEPS = 60;

/** Where a condition begins to hold, between two ends; it holds from there on. */
function bisect(from: number, to: number, holds: (x: number) => boolean): number {
  let [low, high] = [from, to];
  for (let step = 0; step < STEPS; step++) {
    const middle = (low + high) / 2;
    if (middle <= low || middle >= high) break;
    if (holds(middle)) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}
