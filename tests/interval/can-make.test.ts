import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { canMake } from '../../src/interval/can-make.js';

const EURO = [500, 1000, 2000, 5000, 10_000, 20_000, 50_000];

/** Every choice of n notes, one after the other. */
const isMade = (amount: number, n: number, values: readonly number[]): boolean =>
  n === 0 ? amount === 0 : values.some((value) => value <= amount && isMade(amount - value, n - 1, values));

describe('canMake', () => {
  it('is whether so many notes can be worth that', () => {
    expect(canMake(4000, 3, EURO)).toBe(true);
    expect(canMake(2506, 5, EURO)).toBe(false);
    expect(canMake(2500, 5, EURO)).toBe(true);
    expect(canMake(2400, 5, EURO)).toBe(false);
    expect(canMake(3000, 2, [500, 1000, 5000])).toBe(false);
    expect(canMake(1000, 1, [])).toBe(false);
    expect(canMake(1000, 2, [500])).toBe(true);
    expect(canMake(1500, 2, [500])).toBe(false);
  });

  it('says what trying every choice says', () => {
    const values = fc.uniqueArray(fc.integer({ min: 1, max: 40 }), { minLength: 1, maxLength: 4 });
    const check = (set: number[], n: number, amount: number): void => {
      expect(canMake(amount, n, set)).toBe(isMade(amount, n, set));
    };
    fc.assert(fc.property(values, fc.integer({ min: 1, max: 6 }), fc.integer({ min: 0, max: 240 }), check), {
      numRuns: 1000,
      seed: 501,
    });
  });

  it('takes thousands of notes as well, and no hostile list holds it up', () => {
    expect(canMake(12_345 * 2000, 12_345, EURO)).toBe(true);
    expect(canMake(12_345 * 2000 + 500, 12_345, EURO)).toBe(true);
    expect(canMake(12_345 * 50_000 - 500, 12_345, EURO)).toBe(false);
    expect(canMake(5_000_000_008, 1_000_000, [1, 999_983, 7])).toBe(true);
  });
});
