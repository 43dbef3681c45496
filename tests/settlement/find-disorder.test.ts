import { describe, expect, it } from 'vitest';
import { findDisorder } from '../../src/settlement/find-disorder.js';

/** Collections by the day of their two witnesses. */
const find = (...days: readonly (readonly [moment: number | null, clock: number | null])[]): number[] => {
  const write = (day: number | null): string | null => (day === null ? null : `2026-11-0${day}T10:00:00`);
  return [...findDisorder(days.map(([moment, clock]) => ({ moment: write(moment), clock: write(clock) })))];
};

describe('findDisorder', () => {
  it('finds nothing where times rise', () => {
    expect(find([1, 1], [2, 2], [2, 2], [3, 3])).toEqual([]);
    expect(find()).toEqual([]);
  });

  it('finds both sides of a place that neither witness bears out', () => {
    expect(find([1, 1], [4, 4], [2, 2], [5, 5])).toEqual([1, 2]);
    expect(find([1, 1], [3, 3], [4, 4], [2, 2])).toEqual([1, 2, 3]);
  });

  it('takes a capture that came late for no disorder, its clock being right', () => {
    expect(find([1, 1], [9, 2], [3, 3])).toEqual([]);
  });

  it('takes a clock that was set back for none, the captures having come in order', () => {
    expect(find([1, 8], [2, 1], [3, 2])).toEqual([]);
  });

  it('goes by one witness where there is only one', () => {
    expect(find([2, null], [1, null])).toEqual([0, 1]);
    expect(find([null, 2], [null, 1])).toEqual([]);
  });
});
