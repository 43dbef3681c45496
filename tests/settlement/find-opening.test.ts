import { describe, expect, it } from 'vitest';
import { countUnclearReads, findOpening } from '../../src/settlement/find-opening.js';
import { readsOf, type Shown } from './scenario.js';

const at = (day: number, time = '10:00', more: Partial<Shown> = {}): Shown => ({
  at: `2026-11-${day}T${time}`,
  box: day * 100,
  ...more,
});

function openingOf(captures: Record<string, Shown>, before = -1) {
  const reads = readsOf({ captures });
  return findOpening(reads.usable.all.at(-1)!, before, reads, 60);
}

describe('findOpening', () => {
  it('is the collection before', () => {
    expect(openingOf({ a: at(20), b: at(21), c: at(24) }, 0)).toEqual({ position: 0, isAssumed: false });
  });

  it('is taken to be the capture before where nothing says why captures were taken', () => {
    expect(openingOf({ a: at(20), b: at(21), c: at(24) })).toEqual({ position: 1, isAssumed: true });
  });

  it('is no capture of the same visit', () => {
    expect(openingOf({ a: at(20), b: at(24, '09:40'), c: at(24) })).toEqual({ position: 0, isAssumed: true });
    expect(openingOf({ b: at(24, '09:40'), c: at(24) })).toEqual({ position: -1, isAssumed: false });
  });

  it('is none where it is known why captures were taken, and none is of a collection', () => {
    expect(openingOf({ a: at(20, '10:00', { reason: 'scheduled' }), c: at(24) })).toEqual({
      position: -1,
      isAssumed: false,
    });
  });
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

  it('counts none where it is known why captures were taken, or there is no opening', () => {
    expect(countOf({ a: at(20), b: at(21, '10:00', { reason: 'scheduled' }), d: at(24) })).toBe(0);
    expect(countOf({ a: at(20), b: at(21), d: at(24) }, -1)).toBe(0);
  });
});
