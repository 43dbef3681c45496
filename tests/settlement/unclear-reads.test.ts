import { describe, expect, it } from 'vitest';
import { countUnclearReads } from '../../src/settlement/unclear-reads.js';
import { readsOf, type Shown } from './scenario.js';

const at = (day: number, time = '10:00', more: Partial<Shown> = {}): Shown => ({
  at: `2026-11-${day}T${time}`,
  box: day * 100,
  ...more,
});

describe('countUnclearReads', () => {
  const countOf = (captures: Record<string, Shown>, opening = 0): number => {
    const reads = readsOf({ captures });
    return countUnclearReads(reads.usable.all.at(-1)!, opening, reads, 60);
  };

  it('counts captures that may have been visits', () => {
    expect(countOf({ a: at(20), b: at(21), c: at(22), d: at(24) })).toBe(2);
    expect(countOf({ a: at(20), d: at(24) })).toBe(0);
  });

  it('leaves out those beside either visit', () => {
    expect(countOf({ a: at(20), b: at(20, '10:10'), c: at(24, '09:50'), d: at(24) })).toBe(0);
  });

  it('counts none of which it is known why it was taken, and none where there is no opening', () => {
    expect(countOf({ a: at(20), b: at(21, '10:00', { reason: 'scheduled' }), d: at(24) })).toBe(0);
    expect(countOf({ a: at(20), b: at(21, '10:00', { reason: 'scheduled' }), c: at(22), d: at(24) })).toBe(1);
    expect(countOf({ a: at(20), b: at(21), d: at(24) }, -1)).toBe(0);
  });
});
