import { describe, expect, it } from 'vitest';
import {
  coversSameTime,
  type Difference,
  findRollOver,
  valueOrNothing,
  valueToSubtract,
} from '../../src/interval/difference.js';
import { pairOf } from '../support/interval-cases.js';

describe('findRollOver', () => {
  // Domain rule: the earlier value within 10 % of 10^k (k = 4…9), the later one below 10 % of it.
  const cases: readonly (readonly [before: number, after: number, known: number | null, modulus: number | null])[] = [
    [9_999, 3, null, 10_000],
    [9_000, 999, null, 10_000],
    [8_999, 3, null, null],
    [9_000, 1_000, null, null],
    [99_998, 12, null, 100_000],
    [999_999_999, 0, null, 1_000_000_000],
    [9_999_999_999, 0, null, null],
    [999, 3, null, null],
    [10_000, 3, null, null],
    [9_999, 9_999, null, null],
    [9_999, 10_001, null, null],
    [9_999, -1, null, null],
    // A profile that gives the digits decides: any small step across the end, and no other modulus.
    [999, 3, 1_000, 1_000],
    [700, 100, 1_000, 1_000],
    [500, 400, 1_000, null],
    [9_999, 3, 1_000_000, null],
    [1_200, 3, 1_000, null],
  ];
  for (const [before, after, known, modulus] of cases) {
    it(`from ${before} to ${after}${known === null ? '' : ` at ${known}`}: ${modulus ?? 'none'}`, () => {
      expect(findRollOver(before, after, known)).toBe(modulus);
    });
  }
});

const DIFFERENCE = pairOf(['VA1*1*1'], ['VA1*1*1']).difference('CA404', 'CA402');

describe('valueOrNothing', () => {
  it('takes a counter that neither read has for no part, in a floor neither', () => {
    expect(valueOrNothing(DIFFERENCE)).toBe(0);
    expect(valueOrNothing({ ...DIFFERENCE, value: 7, why: null })).toBe(7);
    expect(valueOrNothing({ ...DIFFERENCE, why: 'absent-now' })).toBeNull();
    expect(valueOrNothing({ why: 'absent', value: null })).toBe(0);
  });
});

describe('valueToSubtract', () => {
  it('takes nothing away where more may have been counted and cleared', () => {
    expect(valueToSubtract(DIFFERENCE)).toBe(0);
    expect(valueToSubtract({ ...DIFFERENCE, floor: true })).toBeNull();
    expect(valueToSubtract({ ...DIFFERENCE, floor: true, basis: 'restart' })).toBe(0);
  });
});

describe('coversSameTime', () => {
  it('holds a whole against a whole, and what was counted since a reset against the same', () => {
    const whole = { ...DIFFERENCE, basis: 'interval', floor: false, from: 5 } as const satisfies Difference;
    const since = { ...whole, floor: true, from: null } as const;
    expect(coversSameTime(whole, { ...whole, from: null })).toBe(true);
    expect(coversSameTime(whole, since)).toBe(false);
    expect(coversSameTime(since, { ...since, from: 5 })).toBe(false);
    expect(coversSameTime(since, since)).toBe(true);
  });
});
