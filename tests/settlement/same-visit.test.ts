import { describe, expect, it } from 'vitest';
import { isNear, isSameVisit } from '../../src/settlement/same-visit.js';
import { readsOf, type Shown } from './scenario.js';

const FIRST: Shown = { at: '2026-11-24T10:00', box: 500 };

function isSame(second: Shown, between: Record<string, Shown> = {}): boolean {
  const reads = readsOf({ captures: { 'a.dex': FIRST, ...between, 'z.dex': second } });
  const [a, z] = [reads.usable.all[0]!, reads.usable.all.at(-1)!];
  const forwards = isSameVisit(a, z, reads, 60);
  expect(isSameVisit(z, a, reads, 60)).toBe(forwards);
  return forwards;
}

describe('isSameVisit', () => {
  it('is true for reads close together with nothing moved that would be in a bag', () => {
    expect(isSame({ ...FIRST, at: '2026-11-24T11:00' })).toBe(true);
    expect(isSame({ ...FIRST, at: '2026-11-24T10:03', card: 150, sold: 1, cashSales: 500 })).toBe(true);
  });

  it('is false where coins or bills came in, or were moved by hand', () => {
    expect(isSame({ ...FIRST, at: '2026-11-24T10:03', box: 600 })).toBe(false);
    expect(isSame({ ...FIRST, at: '2026-11-24T10:03', bills: 500 })).toBe(false);
    expect(isSame({ ...FIRST, at: '2026-11-24T10:03', filled: 100 })).toBe(false);
  });

  it('is false for reads further apart than the window', () => {
    expect(isSame({ ...FIRST, at: '2026-11-24T11:01' })).toBe(false);
  });

  it('looks at every read in between', () => {
    const still = { 'b.dex': { ...FIRST, at: '2026-11-24T10:01' } };
    expect(isSame({ ...FIRST, at: '2026-11-24T10:03' }, still)).toBe(true);
    const moved = { 'b.dex': { ...FIRST, at: '2026-11-24T10:01', box: 510 } };
    expect(isSame({ ...FIRST, at: '2026-11-24T10:03', box: 510 }, moved)).toBe(false);
  });

  it('is false across another machine, and for a read that cannot be used', () => {
    const machines = { 'a.dex': FIRST, 'z.dex': { ...FIRST, at: '2026-11-24T10:03', damaged: true } };
    const reads = readsOf({ captures: machines });
    expect(isSameVisit(reads.usable.all[0]!, reads.faulty.all[0]!, reads, 60)).toBe(false);
    const other = { ...FIRST, at: '2026-11-24T10:03', asset: 'A9', serial: 'S9', board: 'B9', listedMachine: 'M1' };
    expect(isSame(other)).toBe(false);
  });
});

describe('isNear', () => {
  it('is false where a time is not known', () => {
    const reads = readsOf({ captures: { 'a.dex': FIRST, 'b.dex': { at: '0000-00-00T99:99', box: 600 } } });
    const [a, b] = [...reads.usable.all].sort((x, y) => (x.taken.file < y.taken.file ? -1 : 1)) as [never, never];
    expect(isNear(a, b, 60)).toBe(false);
    expect(isNear(b, a, 60)).toBe(false);
    expect(isNear(a, a, 0)).toBe(true);
  });
});
