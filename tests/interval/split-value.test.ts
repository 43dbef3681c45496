import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { splitValue } from '../../src/interval/split-value.js';

describe('splitValue', () => {
  it('explains all vends by one price', () => {
    expect(splitValue(12, 1800, [150])).toEqual({ shares: [{ count: 12, price: 150 }], unexplained: 0 });
    expect(splitValue(12, 1800, [150, 150])).toEqual({ shares: [{ count: 12, price: 150 }], unexplained: 0 });
    expect(splitValue(0, 0, [150, 160])).toEqual({ shares: [], unexplained: 0 });
  });

  it('finds the one whole solution of two prices', () => {
    // 7 × 150 + 5 × 160 = 1850, as in the contract for programs.
    expect(splitValue(12, 1850, [150, 160])).toEqual({
      shares: [
        { count: 7, price: 150 },
        { count: 5, price: 160 },
      ],
      unexplained: 0,
    });
    expect(splitValue(3, 450, [150, 160])?.shares).toEqual([{ count: 3, price: 150 }]);
    expect(splitValue(3, 480, [150, 160])?.shares).toEqual([{ count: 3, price: 160 }]);
  });

  it('names what the nearest sum leaves, with its sign', () => {
    expect(splitValue(10, 1450, [150])).toEqual({ shares: [], unexplained: -50 });
    expect(splitValue(10, 1553, [150, 160])).toEqual({ shares: [], unexplained: 3 });
    expect(splitValue(10, 1700, [150, 160])).toEqual({ shares: [], unexplained: 100 });
    expect(splitValue(10, 1000, [160, 150])).toEqual({ shares: [], unexplained: -500 });
    expect(splitValue(0, 150, [150])).toEqual({ shares: [], unexplained: 150 });
  });

  it('says nothing without a price, or where a product can not be kept exactly', () => {
    expect(splitValue(3, 450, [])).toBeNull();
    expect(splitValue(Number.MAX_SAFE_INTEGER, 1, [150])).toBeNull();
    expect(splitValue(2, Number.MAX_SAFE_INTEGER, [1, -Number.MAX_SAFE_INTEGER])).toBeNull();
    expect(splitValue(1, -Number.MAX_SAFE_INTEGER, [Number.MAX_SAFE_INTEGER])).toBeNull();
  });

  it('finds what trying every count finds, and there is never more than one', () => {
    const price = fc.integer({ min: 0, max: 300 });
    const property = fc.property(fc.nat(30), fc.nat(9000), price, price, (sold, value, p0, p1) => {
      fc.pre(p0 !== p1);
      const found = Array.from({ length: sold + 1 }, (_, a) => a).filter((a) => a * p0 + (sold - a) * p1 === value);
      const split = splitValue(sold, value, [p0, p1])!;
      expect(found.length <= 1).toBe(true);
      expect(split.unexplained === 0).toBe(found.length === 1);
      const sum = split.shares.reduce((total, share) => total + share.count * share.price, 0);
      if (found.length === 1) expect(sum).toBe(value);
      const nearest = Math.min(
        ...Array.from({ length: sold + 1 }, (_, a) => Math.abs(value - a * p0 - (sold - a) * p1)),
      );
      expect(Math.abs(split.unexplained)).toBe(nearest);
    });
    fc.assert(property, { numRuns: 2000, seed: 601 });
  });
});
