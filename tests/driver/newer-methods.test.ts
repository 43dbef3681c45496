import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addNewerMethods } from '../../src/driver/newer-methods.js';

describe('addNewerMethods', () => {
  it('gives old browsers what new ones have: the same results as those of this one', () => {
    const old = Object.create(null) as unknown[];
    addNewerMethods(old);
    const on = (
      items: number[],
      name: 'toSorted' | 'toReversed' | 'toSpliced' | 'findLast' | 'findLastIndex',
      ...given: unknown[]
    ) => (old[name as never] as (...given: unknown[]) => unknown).call(items, ...given);
    const byValue = (a: number, b: number): number => a - b;
    const isEven = (item: number): boolean => item % 2 === 0;
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -20, max: 20 })), (items) => {
        const before = [...items];
        expect(on(items, 'toSorted', byValue)).toEqual(items.toSorted(byValue));
        expect(on(items, 'toSorted')).toEqual(items.toSorted());
        expect(on(items, 'toReversed')).toEqual(items.toReversed());
        expect(on(items, 'toSpliced', 1, 2, 99)).toEqual(items.toSpliced(1, 2, 99));
        expect(on(items, 'findLastIndex', isEven)).toBe(items.findLastIndex(isEven));
        expect(on(items, 'findLast', isEven)).toBe(items.findLast(isEven));
        expect(items).toEqual(before);
      }),
      { numRuns: 50 },
    );
  });

  it('leaves what a browser has', () => {
    const own = (): number => 7;
    const prototype = Object.assign(Object.create(null) as unknown[], { toSorted: own });
    addNewerMethods(prototype);
    expect(prototype.toSorted).toBe(own);
    const { toSorted } = Array.prototype;
    addNewerMethods();
    expect(Array.prototype.toSorted).toBe(toSorted);
  });
});
