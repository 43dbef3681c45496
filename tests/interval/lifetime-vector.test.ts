import { describe, expect, it } from 'vitest';
import { compareProgress, LIFETIME_TOTALS, LifetimeVectors } from '../../src/interval/lifetime-vector.js';
import { readOf } from '../support/interval-cases.js';

describe('LifetimeVectors', () => {
  it('puts a column in the same place for every read, and takes what is absent for 0', () => {
    const vectors = new LifetimeVectors();
    const first = vectors.of(readOf('from', ['VA1*500*5', 'PA1*11', 'PA2*3', 'PA1*12']).read);
    const second = vectors.of(readOf('to', ['VA1*600*6', 'PA1*12', 'PA2*2', 'PA1*13', 'PA2*1']).read);
    const size = LIFETIME_TOTALS.length;
    expect([first[0], first[1], first[2], ...first.slice(size)]).toEqual([500, 5, 0, 3, 0]);
    expect([...second.slice(size)]).toEqual([undefined, 2, 1]);
  });
});

describe('compareProgress', () => {
  it('is above 0 when the second counted further, by most counters', () => {
    expect(compareProgress([1, 5, 9], [2, 6, 9])).toBe(2);
    expect(compareProgress([2, 6, 9], [1, 5, 9])).toBe(-2);
    expect(compareProgress([1, 1], [1, 1])).toBe(0);
  });

  it('lets those that ran past their last digit be outvoted', () => {
    expect(compareProgress([99_999, 5, 9], [2, 6, 10])).toBe(1);
  });

  it('leaves out what one of the two does not have', () => {
    expect(compareProgress([1, undefined, 3], [2, 1])).toBe(1);
  });
});
