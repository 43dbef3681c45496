import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { add, formatMinor, multiply, subtract } from '../../src/model/index.js';

const MAX = Number.MAX_SAFE_INTEGER;
const safe = fc.maxSafeInteger();

/** The same sum without any bound: integers of the language that never round. */
const fits = (exact: bigint): number | null => (exact >= -BigInt(MAX) && exact <= BigInt(MAX) ? Number(exact) : null);

describe('add', () => {
  it('adds amounts, and nothing to 0', () => {
    expect(add(150, 25, -5)).toBe(170);
    expect(add()).toBe(0);
  });

  it('does not know a sum with something not known in it', () => {
    expect(add(150, null)).toBeNull();
    expect(add(null)).toBeNull();
  });

  it('gives no rounded sum', () => {
    expect(add(MAX, 1)).toBeNull();
    expect(add(MAX, 1, 1)).toBeNull();
    fc.assert(
      fc.property(safe, safe, (a, b) => {
        expect(add(a, b)).toBe(fits(BigInt(a) + BigInt(b)));
      }),
    );
  });
});

describe('subtract', () => {
  it('knows no difference with something not known in it', () => {
    expect(subtract(null, 1)).toBeNull();
    expect(subtract(1, null)).toBeNull();
    expect(subtract(5, 7)).toBe(-2);
  });

  it('gives no rounded difference', () => {
    expect(subtract(-MAX, 1)).toBeNull();
    fc.assert(
      fc.property(safe, safe, (a, b) => {
        expect(subtract(a, b)).toBe(fits(BigInt(a) - BigInt(b)));
      }),
    );
  });
});

describe('multiply', () => {
  it('knows no product with something not known in it', () => {
    expect(multiply(null, 150)).toBeNull();
    expect(multiply(12, null)).toBeNull();
    expect(multiply(12, 150)).toBe(1800);
  });

  it('has one zero only', () => {
    expect(Object.is(multiply(0, -5), 0)).toBe(true);
  });

  it('gives no rounded product', () => {
    expect(multiply(2 ** 30, 2 ** 30)).toBeNull();
    const any = fc.oneof(safe, fc.integer({ min: -1e8, max: 1e8 }));
    fc.assert(
      fc.property(any, any, (a, b) => {
        expect(multiply(a, b)).toBe(fits(BigInt(a) * BigInt(b)));
      }),
    );
  });
});

describe('formatMinor', () => {
  it.each([
    [1234, 2, '12.34'],
    [5, 2, '0.05'],
    [0, 2, '0.00'],
    [-5, 2, '-0.05'],
    [-1234, 3, '-1.234'],
    [1234, 0, '1234'],
    [-7, 0, '-7'],
    [7, 4, '0.0007'],
  ])('writes %d with %d decimals as %s', (amount, decimals, text) => {
    expect(formatMinor(amount, decimals)).toBe(text);
  });
});
