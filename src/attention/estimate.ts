import type { Minor } from '../model/index.js';

/** Minutes of a day. */
export const DAY_MINUTES = 1440;

/**
 * A part of an amount, `amount × numerator / denominator`, rounded half up, worked out in whole numbers so that nothing is
 * lost on the way.
 *
 * @param numerator - 0 or more
 * @param denominator - 1 or more
 * @returns null when the amount is not known or the result is no safe integer
 */
export function scaleAmount(amount: Minor | null, numerator: number, denominator: number): Minor | null {
  if (amount === null) return null;
  const product = BigInt(Math.abs(amount)) * BigInt(numerator);
  const rounded = Number((product * 2n + BigInt(denominator)) / (BigInt(denominator) * 2n));
  if (!Number.isSafeInteger(rounded)) return null;
  return amount < 0 && rounded > 0 ? -rounded : rounded;
}

const KEPT_DIGITS = 2;

/**
 * An estimate as it may be shown: two significant digits, since more would seem to be known. `1237` → `1200`.
 *
 * @returns null when the amount is not known
 */
export function roundEstimate(amount: Minor | null): Minor | null {
  if (amount === null) return null;
  const digits = String(Math.abs(amount)).length;
  const unit = 10 ** Math.max(0, digits - KEPT_DIGITS);
  // No more than 90 units of the largest kind: a safe integer stays one.
  return scaleAmount(amount, 1, unit)! * unit;
}
