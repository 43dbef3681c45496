import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { shareFees } from '../../src/accounts/fee-share.js';

describe('shareFees', () => {
  it.each([
    [250, 10_000, '2.50'],
    [0, 500, '0.00'],
    [500, 500, '100.00'],
    [1, 3, '33.33'],
    [2, 3, '66.67'],
    // 1.005 % and 1.015 %: halves of the last digit, rounded to the even one (IEEE 754-2019, 4.3.1, roundTiesToEven).
    [1005, 100_000, '1.00'],
    [1015, 100_000, '1.02'],
    [-250, 10_000, '-2.50'],
    [700, 500, '140.00'],
  ])('of fees %i in a gross of %i is %s %%', (fees, gross, percent) => {
    expect(shareFees(fees, gross)).toEqual({ fees, gross, percent });
  });

  it('is not known without fees or gross', () => {
    expect(shareFees(null, 100)).toBeNull();
    expect(shareFees(1, null)).toBeNull();
    expect(shareFees(1, 0)).toBeNull();
    expect(shareFees(Number.MAX_SAFE_INTEGER, 1)).toBeNull();
  });

  it('is off by half of the last digit at most, by the integers of the language', () => {
    const amount = fc.integer({ min: 0, max: Number.MAX_SAFE_INTEGER });
    fc.assert(
      fc.property(amount, amount, (a, b) => {
        const [fees, gross] = [Math.min(a, b), Math.max(a, b, 1)];
        const hundredths = BigInt(shareFees(fees, gross)!.percent.replace('.', ''));
        const twiceOff = 2n * (hundredths * BigInt(gross) - BigInt(fees) * 10_000n);
        expect(twiceOff <= BigInt(gross) && -twiceOff <= BigInt(gross)).toBe(true);
      }),
    );
  });
});
