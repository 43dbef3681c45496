import { describe, expect, it } from 'vitest';
import { ReadIndex } from '../../src/settlement/read-index.js';
import { makeVisitRead, minuteOf, type VisitRead } from '../../src/settlement/visit-read.js';
import { makeCount, type Shown, takeScenario } from './scenario.js';

function indexOf(captures: Record<string, Shown>): {
  index: ReadIndex;
  files: (reads: readonly VisitRead[]) => string[];
} {
  const reads = takeScenario({ captures }).reads.map((taken, i) => makeVisitRead(taken, i, [], undefined));
  return { index: new ReadIndex(reads), files: (found) => found.map(({ taken }) => taken.file) };
}

const DAY: Record<string, Shown> = {
  'x/c.dex': { at: '2026-11-24T23:59' },
  'a.dex': { at: '2026-11-24T10:00', bag: 'B1' },
  'b.dex': { at: '2026-11-24T11:00' },
  'd.dex': { at: '2026-11-25T00:01' },
  'e.dex': { at: '0000-00-00T99:99', bag: 'B1' },
};

describe('ReadIndex', () => {
  const { index, files } = indexOf(DAY);

  it('finds a read by its file, whatever its folder', () => {
    expect(files(index.named(makeCount('M1', '2026-11-24', { capture: 'C:\\in\\c.dex' })))).toEqual(['x/c.dex']);
  });

  it('finds reads by bag, and each once that is named twice', () => {
    expect(files(index.named(makeCount('M1', '2026-11-24', { bag: 'B1', capture: 'a.dex' })))).toEqual([
      'a.dex',
      'e.dex',
    ]);
  });

  it('finds nothing for a row that names nothing it has', () => {
    expect(index.named(makeCount('M1', '2026-11-24'))).toEqual([]);
    expect(index.named(makeCount('M1', '2026-11-24', { bag: 'B9', capture: 'z.dex' }))).toEqual([]);
  });

  it('finds reads within a window, both ends included, also across midnight', () => {
    expect(files(index.near(minuteOf('2026-11-24T10:30:00'), 30))).toEqual(['a.dex', 'b.dex']);
    expect(files(index.near(minuteOf('2026-11-24T10:30:00'), 29))).toEqual([]);
    expect(files(index.near(minuteOf('2026-11-25T00:00:00'), 1))).toEqual(['x/c.dex', 'd.dex']);
  });

  it('finds the reads of a day', () => {
    expect(files(index.onDate('2026-11-24'))).toEqual(['x/c.dex', 'a.dex', 'b.dex']);
    expect(index.onDate('2026-11-26')).toEqual([]);
  });

  it('lists those with a time, earliest first', () => {
    expect(files(index.earliestFirst)).toEqual(['a.dex', 'b.dex', 'x/c.dex', 'd.dex']);
  });
});
