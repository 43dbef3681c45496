import { largestOf, type Minor, smallestOf } from '../model/index.js';

/** So many steps are counted through at the most; what would take more is judged by what divides it. */
const MOST_STEPS = 2_000_000;

/**
 * Whether exactly `n` notes of these values can be worth `amount`: with s the smallest value, whether at most `n` steps of
 * (value − s) come to amount − n × s.
 *
 * A hostile list of values could ask for any number of steps: past {@link MOST_STEPS} it is enough that the amount is a
 * multiple of what divides every step, and lies between n times the smallest and n times the largest.
 *
 * @param values - above 0, in minor units
 * @example canMake(4000, 3, [500, 1000, 2000]) // true: 20 + 10 + 10
 * @example canMake(2506, 5, [500, 1000, 2000]) // false
 */
export function canMake(amount: Minor, n: number, values: readonly Minor[]): boolean {
  const smallest = smallestOf(values);
  const largest = largestOf(values);
  if (!Number.isSafeInteger(n * largest)) return false;
  const rest = amount - n * smallest;
  if (rest < 0 || amount > n * largest) return false;
  const steps = [...new Set(values.map((value) => value - smallest))].filter((step) => step > 0);
  if (rest === 0) return true;
  const unit = steps.reduce(greatestDivisor);
  if (rest % unit !== 0) return false;
  return fewest(
    rest / unit,
    steps.map((step) => step / unit),
    n,
  );
}

/** Whether at most `most` of the steps come to `rest`. */
function fewest(rest: number, steps: readonly number[], most: number): boolean {
  const largest = largestOf(steps);
  // Of so many smaller steps some come to a multiple of the largest, which then takes fewer: there are never more of them.
  const bound = largest * largest;
  const bulk = rest > bound ? Math.ceil((rest - bound) / largest) : 0;
  const open = rest - bulk * largest;
  if (open > MOST_STEPS) return true;
  const needed = new Float64Array(open + 1).fill(Number.POSITIVE_INFINITY);
  needed[0] = 0;
  for (let sum = 1; sum <= open; sum++) {
    for (const step of steps) {
      if (step <= sum && needed[sum - step]! + 1 < needed[sum]!) needed[sum] = needed[sum - step]! + 1;
    }
  }
  return bulk + needed[open]! <= most;
}

function greatestDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestDivisor(b, a % b);
}
