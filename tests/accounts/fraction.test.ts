import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addFractions, makeFraction, negateFraction, writeFraction, ZERO } from '../../src/accounts/fraction.js';

const big = fc.bigInt({ min: -(10n ** 30n), max: 10n ** 30n });
const divisor = big.filter((value) => value !== 0n);
const fraction = fc.tuple(big, divisor).map(([a, b]) => makeFraction(a, b));

describe('makeFraction', () => {
  it.each([
    [1n, 3n, '1/3'],
    [2n, 6n, '1/3'],
    [-2n, 6n, '-1/3'],
    [2n, -6n, '-1/3'],
    [-5n, -2n, '5/2'],
    [8n, 2n, '4'],
    [0n, -7n, '0'],
  ])('%s / %s is %s', (numerator, denominator, text) => {
    expect(writeFraction(makeFraction(numerator, denominator))).toBe(text);
  });

  it('has no denominator of 0', () => {
    expect(() => makeFraction(1n, 0n)).toThrow(RangeError);
  });

  it('keeps the value (a/b = c/d exactly when ad = bc) and has one form for it', () => {
    fc.assert(
      fc.property(big, divisor, divisor, (a, b, scale) => {
        const made = makeFraction(a, b);
        expect(made.numerator * b).toBe(a * made.denominator);
        expect(made.denominator > 0n).toBe(true);
        expect(makeFraction(a * scale, b * scale)).toEqual(made);
      }),
    );
  });
});

describe('addFractions', () => {
  it('adds exactly, in any order, and a fraction and its negative to nothing', () => {
    expect(writeFraction(addFractions([makeFraction(1n, 3n), makeFraction(1n, 6n)]))).toBe('1/2');
    expect(addFractions([])).toEqual(ZERO);
    fc.assert(
      fc.property(fraction, fraction, fraction, (a, b, c) => {
        expect(addFractions([a, b, c])).toEqual(addFractions([c, addFractions([b, a])]));
        expect(addFractions([a, negateFraction(a)])).toEqual(ZERO);
        const sum = addFractions([a, b]);
        expect(sum.numerator * a.denominator * b.denominator).toBe(
          (a.numerator * b.denominator + b.numerator * a.denominator) * sum.denominator,
        );
      }),
    );
  });
});
