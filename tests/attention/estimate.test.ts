import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { roundEstimate, scaleAmount } from '../../src/attention/estimate.js';

const amount = fc.integer({ min: -Number.MAX_SAFE_INTEGER, max: Number.MAX_SAFE_INTEGER });

describe('scaleAmount', () => {
  it.each([
    [100, 1, 3, 33],
    [100, 2, 3, 67],
    [1, 1, 2, 1],
    [-1, 1, 2, -1],
    [-1, 1, 3, 0],
    [0, 5, 7, 0],
    [Number.MAX_SAFE_INTEGER, 1, 1, Number.MAX_SAFE_INTEGER],
  ])('%i × %i / %i is %i', (of, numerator, denominator, result) => {
    expect(scaleAmount(of, numerator, denominator)).toBe(result);
  });

  it('is not known where the amount is not, or the result is too large to be exact', () => {
    expect(scaleAmount(null, 1, 2)).toBeNull();
    expect(scaleAmount(Number.MAX_SAFE_INTEGER, 2, 1)).toBeNull();
  });

  it('is off by half a unit at most (arithmetic in whole numbers of any size)', () => {
    fc.assert(
      fc.property(amount, fc.nat(100_000), fc.integer({ min: 1, max: 100_000 }), (of, numerator, denominator) => {
        const result = scaleAmount(of, numerator, denominator);
        fc.pre(result !== null);
        const error = BigInt(result!) * BigInt(denominator) - BigInt(of) * BigInt(numerator);
        expect(2n * (error < 0n ? -error : error)).toBeLessThanOrEqual(BigInt(denominator));
        expect(Object.is(result, -0)).toBe(false);
      }),
    );
  });
});

describe('roundEstimate', () => {
  it.each([
    [0, 0],
    [87, 87],
    [100, 100],
    [1237, 1200],
    [1250, 1300],
    [-1237, -1200],
    [995, 1000],
    [999_999, 1_000_000],
  ])('shows %i as %i', (of, shown) => {
    expect(roundEstimate(of)).toBe(shown);
  });

  it('keeps what is not known so', () => {
    expect(roundEstimate(null)).toBeNull();
  });

  it('is within a twentieth of the amount', () => {
    fc.assert(
      fc.property(amount, (of) => {
        const rounded = roundEstimate(of)!;
        expect(Number.isSafeInteger(rounded)).toBe(true);
        expect(Math.abs(rounded - of)).toBeLessThanOrEqual(Math.abs(of) / 20);
      }),
    );
  });
});
