import type { Minor } from '../model/index.js';
import { addFractions, type Fraction, makeFraction, negateFraction, writeFraction } from './fraction.js';

/** An exact amount rounded to the minor unit, with what rounding left out: exact = amount + remainder. */
export interface RoundedAmount {
  readonly amount: Minor;
  /** From −1/2 to 1/2 of a minor unit. */
  readonly remainder: Fraction;
}

/**
 * The nearest whole number; of two equally near ones the even one, so that halves do not add up in one direction
 * (roundTiesToEven of IEEE 754-2019, 4.3.1; rule A of ISO 80000-1:2009, annex B, from memory).
 *
 * @example roundHalfEven(makeFraction(5n, 2n)) // 2n
 */
export function roundHalfEven({ numerator, denominator }: Fraction): bigint {
  const truncated = numerator / denominator;
  const rest = numerator % denominator;
  const twice = 2n * (rest < 0n ? -rest : rest);
  const isUp = twice > denominator || (twice === denominator && truncated % 2n !== 0n);
  if (!isUp) return truncated;
  return numerator < 0n ? truncated - 1n : truncated + 1n;
}

/** Round an exact amount, once, at the end; null where the result is outside the safe integers. */
export function roundAmount(exact: Fraction): RoundedAmount | null {
  const rounded = roundHalfEven(exact);
  const amount = Number(rounded);
  if (!Number.isSafeInteger(amount)) return null;
  return { amount, remainder: addFractions([exact, makeFraction(-rounded)]) };
}

/** What rounding left out, in words: the exact amount is `1/3 of a minor unit more`; null where nothing was left out. */
export function describeRemainder({ remainder }: RoundedAmount): string | null {
  if (remainder.numerator === 0n) return null;
  const isLess = remainder.numerator < 0n;
  const parts = writeFraction(isLess ? negateFraction(remainder) : remainder);
  return `${parts} of a minor unit ${isLess ? 'less' : 'more'}`;
}
