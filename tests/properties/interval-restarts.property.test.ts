import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buildIntervals, type Interval } from '../../src/interval/index.js';
import { arbitraryHistory, type History, type HistoryChoice } from '../support/arbitraries/history.js';
import { machineRow } from '../support/check-cases.js';
import { findWrong, listFigures, takeHistory } from '../support/interval-truth.js';

const LIFE: HistoryChoice = {
  discounts: true,
  revalues: true,
  unseenResets: true,
  tubeFaults: true,
  machine: { maker: { discounts: true } },
};

const indexOf = (file: string): number => Number(file.slice(5, 8));
const codesOf = (interval: Interval): string[] => interval.findings.map(({ code }) => code);

/** Figures after a restart that are known, and are not what was counted since. Levels of tubes hold across it. */
function differFromSinceRestart(interval: Interval, history: History): unknown[] {
  const to = indexOf(interval.to.file);
  return listFigures(interval, history.truthSinceRestart(to)).filter(
    ({ name, figure, truth }) => figure !== null && !name.startsWith('tube') && figure !== truth,
  );
}

describe('interval: counters that start again', () => {
  for (const isListed of [false, true]) {
    it(`gives what was counted since as a floor, and the cause (${isListed ? 'arrivals listed' : 'by clocks'})`, () => {
      let seen = 0;
      const check = (history: History): void => {
        const { reads, roster } = takeHistory(history, { isListed });
        const { intervals } = buildIntervals(reads, roster);
        expect(intervals).toHaveLength(reads.length - 1);
        let hadRestart = false;
        for (const interval of intervals) {
          const to = indexOf(interval.to.file);
          expect(indexOf(interval.from.file)).toBe(to - 1);
          const truth = history.truthBetween(to - 1, to);
          expect(findWrong(interval, truth)).toEqual([]);
          const [cause] = truth.restarts;
          if (cause === undefined) {
            // Right after a restart all counters may stand at 0, and then nothing shows that they are kept.
            if (!hadRestart) expect([interval.floor, interval.basis]).toEqual([false, 'lifetime']);
            continue;
          }
          // Where the machine leaves zero segments out and counted nothing since, there is nothing to tell a cause by.
          const isBlank = interval.to.read.line('VA1') < 0 && interval.to.read.line('CA3') < 0;
          if (!isBlank) {
            expect(interval.floor).toBe(true);
            expect(codesOf(interval)).toContain(cause);
          }
          expect([interval.cash.tubesFrom, interval.cash.tubeDifference]).toEqual([truth.cash.tubesFrom, null]);
          // Counters that had only just begun may pass what they were before: then the difference is the floor.
          if (!hadRestart) {
            expect(differFromSinceRestart(interval, history)).toEqual([]);
            if (!isBlank) expect(interval.basis).toBe('restart');
            seen++;
          }
          hadRestart = true;
        }
      };
      const choice: HistoryChoice = { ...LIFE, restarts: ['board-changed', 'memory-cleared'] };
      fc.assert(fc.property(arbitraryHistory(choice), check), { numRuns: 150, seed: 201 });
      expect(seen).toBeGreaterThan(80);
    });
  }

  it('takes nothing from one machine to another that stands in its place', () => {
    let swaps = 0;
    const check = (history: History): void => {
      const machine = machineRow({ machine: 'M1', asset: null });
      const { reads, roster } = takeHistory(history, {
        books: { machines: [machine] },
        known: { listedAs: 'M1' },
        isListed: true,
      });
      const { intervals, findings } = buildIntervals(reads, roster);
      const broken = reads.slice(1).filter((_, i) => history.truthBetween(i, i + 1).restarts.length > 0).length;
      swaps += broken;
      expect(intervals).toHaveLength(reads.length - 1 - broken);
      expect(findings.filter(({ code }) => code === 'other-machine')).toHaveLength(broken);
      for (const interval of intervals) {
        const to = indexOf(interval.to.file);
        expect(findWrong(interval, history.truthBetween(to - 1, to))).toEqual([]);
        expect(interval.floor).toBe(false);
      }
    };
    fc.assert(fc.property(arbitraryHistory({ ...LIFE, restarts: ['other-machine'] }), check), {
      numRuns: 80,
      seed: 202,
    });
    expect(swaps).toBeGreaterThan(30);
  });
});
