/** An exact amount, in minor units and parts of one: in lowest terms, the denominator above 0. */
export interface Fraction {
  readonly numerator: bigint;
  readonly denominator: bigint;
}

/** Nothing. */
export const ZERO: Fraction = { numerator: 0n, denominator: 1n };

/**
 * `numerator / denominator` in lowest terms.
 *
 * @throws RangeError when the denominator is 0 (the caller's mistake)
 */
export function makeFraction(numerator: bigint, denominator = 1n): Fraction {
  if (denominator === 0n) throw new RangeError('a fraction has no denominator of 0');
  const divisor = greatestDivisor(numerator, denominator) * (denominator < 0n ? -1n : 1n);
  return { numerator: numerator / divisor, denominator: denominator / divisor };
}

/** The exact sum. */
export function addFractions(fractions: readonly Fraction[]): Fraction {
  return fractions.reduce(
    (sum, { numerator, denominator }) =>
      makeFraction(sum.numerator * denominator + numerator * sum.denominator, sum.denominator * denominator),
    ZERO,
  );
}

/** The same amount with the other sign. */
export function negateFraction({ numerator, denominator }: Fraction): Fraction {
  return { numerator: -numerator, denominator };
}

/** `1/3`, `-5/2`, `4`, `0`. */
export function writeFraction({ numerator, denominator }: Fraction): string {
  return denominator === 1n ? String(numerator) : `${numerator}/${denominator}`;
}

/** Euclid's algorithm; above 0 unless both are 0. */
function greatestDivisor(a: bigint, b: bigint): bigint {
  let [larger, smaller] = [a < 0n ? -a : a, b < 0n ? -b : b];
  while (smaller !== 0n) [larger, smaller] = [smaller, larger % smaller];
  return larger;
}
