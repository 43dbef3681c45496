import { describe, expect, it } from 'vitest';
import { reportUnreadable } from '../../src/checks/index.js';
import { countFiles, joinTotals, sumIntervals } from '../../src/day/sum-day.js';
import { makeFinding } from '../../src/findings/index.js';
import { demoInputs } from './demo-day.js';
import { stepsOf } from './with-steps.js';

describe('countFiles', () => {
  it('counts verdicts, reads, copies and what was set aside', () => {
    const { checks, histories } = demoInputs('2026-11-22');
    const all = [...checks, reportUnreadable('x.dex', 'gone')];
    expect(
      countFiles(
        all,
        histories.findings.filter(({ file }) => file!.includes('11-22')),
      ),
    ).toEqual({
      files: 10,
      sound: 7,
      doubtful: 1,
      readAgain: 2,
      setAside: 1,
      reads: 9,
      duplicates: 1,
    });
    expect(countFiles([], [makeFinding('padding', 'x')])).toMatchObject({ files: 0, duplicates: 0 });
  });
});

describe('sumIntervals', () => {
  const intervals = stepsOf(demoInputs('2026-11-22'));

  it('sums what is known, and counts what is not', () => {
    const [first, second] = intervals;
    const open = { ...second!, totals: { ...second!.totals, value: null } };
    expect(sumIntervals([first!, open])).toEqual([
      {
        currency: 'EUR',
        decimals: 2,
        sold: first!.totals.sold,
        value: first!.totals.value,
        intervals: 2,
        openIntervals: 1,
      },
    ]);
    expect(sumIntervals([open])).toMatchObject([{ sold: null, value: null, intervals: 1, openIntervals: 1 }]);
    expect(sumIntervals([])).toEqual([]);
  });

  it('keeps currencies apart, also by their decimals', () => {
    const [first] = intervals;
    const sums = sumIntervals([first!, { ...first!, currency: 'CHF' }, { ...first!, decimals: 3 }]);
    expect(sums.map(({ currency, decimals }) => [currency, decimals])).toEqual([
      ['CHF', 2],
      ['EUR', 2],
      ['EUR', 3],
    ]);
    expect(joinTotals([])).toEqual([]);
  });
});
