import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addFractions, makeFraction, writeFraction } from '../../src/accounts/fraction.js';
import { describeRemainder, roundAmount, roundHalfEven } from '../../src/accounts/round-half-even.js';

describe('roundHalfEven', () => {
  // ISO 80000-1:2009, annex B, B.2 and rule A of B.3, in the range of ten (from memory).
  it.each([
    [12_223n, 10n, 1222n],
    [12_251n, 10n, 1225n],
    [12_275n, 10n, 1228n],
    [12_250n, 100n, 122n],
    [12_350n, 100n, 124n],
    [12_250n, 1000n, 12n],
  ])('rounds %s / %s to %s', (numerator, denominator, rounded) => {
    expect(roundHalfEven(makeFraction(numerator, denominator))).toBe(rounded);
    expect(roundHalfEven(makeFraction(-numerator, denominator))).toBe(-rounded);
  });

  // IEEE 754-2019, 4.3.1: with two nearest numbers equally near, the one with an even least significant digit.
  it('takes the even one of two equally near', () => {
    const halves = [-5n, -3n, -1n, 1n, 3n, 5n, 7n].map((odd) => roundHalfEven(makeFraction(odd, 2n)));
    expect(halves).toEqual([-2n, -2n, 0n, 0n, 2n, 2n, 4n]);
  });

  it('rounds as the arithmetic of IEEE 754 does', () => {
    // At 2 to the power of 52 a double has no place for a fraction, so adding and taking it away rounds by the hardware.
    const SHIFT = 2 ** 52;
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 2 ** 40 }), fc.integer({ min: 0, max: 12 }), (numerator, bits) => {
        const byHardware = numerator / 2 ** bits + SHIFT - SHIFT;
        expect(roundHalfEven(makeFraction(BigInt(numerator), 2n ** BigInt(bits)))).toBe(BigInt(byHardware));
      }),
    );
  });

  it('is never more than half away, and even where it is half', () => {
    fc.assert(
      fc.property(fc.bigInt(-(10n ** 20n), 10n ** 20n), fc.bigInt(1n, 10n ** 6n), (numerator, denominator) => {
        const rounded = roundHalfEven(makeFraction(numerator, denominator));
        const twiceOff = 2n * (numerator - rounded * denominator);
        expect(twiceOff <= denominator && twiceOff >= -denominator).toBe(true);
        if (twiceOff === denominator || twiceOff === -denominator) expect(rounded % 2n).toBe(0n);
      }),
    );
  });
});

describe('roundAmount', () => {
  it('says what rounding left out', () => {
    const thirds = roundAmount(makeFraction(100n, 3n))!;
    expect([thirds.amount, writeFraction(thirds.remainder)]).toEqual([33, '1/3']);
    const up = roundAmount(makeFraction(200n, 3n))!;
    expect([up.amount, writeFraction(up.remainder)]).toEqual([67, '-1/3']);
    expect(writeFraction(roundAmount(makeFraction(4n))!.remainder)).toBe('0');
  });

  it('is amount and remainder together, exactly', () => {
    fc.assert(
      fc.property(fc.bigInt(-(10n ** 15n), 10n ** 15n), fc.bigInt(1n, 10n ** 9n), (numerator, denominator) => {
        const exact = makeFraction(numerator, denominator);
        const { amount, remainder } = roundAmount(exact)!;
        expect(addFractions([makeFraction(BigInt(amount)), remainder])).toEqual(exact);
      }),
    );
  });

  it('is not known beyond the safe integers', () => {
    expect(roundAmount(makeFraction(2n ** 53n))).toBeNull();
    expect(roundAmount(makeFraction(2n ** 53n - 1n))!.amount).toBe(Number.MAX_SAFE_INTEGER);
  });
});

describe('describeRemainder', () => {
  it.each([
    [100n, 3n, '1/3 of a minor unit more'],
    [200n, 3n, '1/3 of a minor unit less'],
    [5n, 2n, '1/2 of a minor unit more'],
    [7n, 2n, '1/2 of a minor unit less'],
    [4n, 1n, null],
  ])('of %s / %s: %s', (numerator, denominator, words) => {
    expect(describeRemainder(roundAmount(makeFraction(numerator, denominator))!)).toBe(words);
  });
});
