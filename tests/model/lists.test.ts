import { describe, expect, it } from 'vitest';
import { addAll, largestOf, pushAll, smallestOf } from '../../src/model/index.js';

/** More arguments than the stack of any call has room for. */
const MANY = 1_000_000;

describe('lists of any length', () => {
  const numbers = Array.from({ length: MANY }, (_, i) => i);

  it('have a largest, a smallest and a sum', () => {
    expect(() => Math.max(...numbers)).toThrow(RangeError);
    expect(largestOf(numbers)).toBe(MANY - 1);
    expect(smallestOf(numbers)).toBe(0);
    expect(addAll(numbers)).toBe((MANY * (MANY - 1)) / 2);
  });

  it('are added to each other, in order', () => {
    const list = [-1];
    pushAll(list, numbers);
    expect(list.length).toBe(MANY + 1);
    expect(list.slice(0, 3)).toEqual([-1, 0, 1]);
  });

  it('give what Math gives for none, and no less than a floor', () => {
    expect(largestOf([])).toBe(Number.NEGATIVE_INFINITY);
    expect(smallestOf([])).toBe(Number.POSITIVE_INFINITY);
    expect(largestOf([], 1)).toBe(1);
    expect(largestOf([-3, 5, 2], 1)).toBe(5);
    expect(addAll([])).toBe(0);
    expect(addAll([1, null])).toBeNull();
  });
});
