import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buildIntervals } from '../../src/interval/index.js';
import { arbitraryHistory, type History, type HistoryChoice } from '../support/arbitraries/history.js';
import { findUnknown, findWrong, profileOf, takeHistory } from '../support/interval-truth.js';

const indexOf = (file: string): number => Number(file.slice(5, 8));

/** Machines without lifetime counters, or with some that stay at 0. */
const LIFE: HistoryChoice = {
  discounts: true,
  revalues: true,
  tubeFaults: true,
  machine: { minPastVends: 40, maker: { discounts: true }, lifetime: ['zero', 'absent'] },
};

describe('interval: machines that count since the last reset only', () => {
  it('gives no wrong figure where nobody says when the machine resets, and others clear it unseen', () => {
    const check = (history: History): void => {
      const { reads, roster } = takeHistory(history);
      for (const interval of buildIntervals(reads, roster).intervals) {
        const [from, to] = [indexOf(interval.from.file), indexOf(interval.to.file)];
        expect(findWrong(interval, history.truthBetween(from, to))).toEqual([]);
        expect(interval.findings.filter(({ severity }) => severity === 'fault')).toEqual([]);
      }
    };
    fc.assert(fc.property(arbitraryHistory({ ...LIFE, unseenResets: true }), check), { numRuns: 250, seed: 301 });
  });

  it('gives no wrong figure on a machine that clears at every read, when others read it', () => {
    const maker = { discounts: true, resetMode: 'every-read' } as const;
    const choice = { ...LIFE, unseenResets: true, machine: { ...LIFE.machine, maker } };
    let floors = 0;
    const check = (history: History): void => {
      const { reads, roster } = takeHistory(history, { books: { profiles: [profileOf(history.config)] } });
      for (const interval of buildIntervals(reads, roster).intervals) {
        const [from, to] = [indexOf(interval.from.file), indexOf(interval.to.file)];
        expect(findWrong(interval, history.truthBetween(from, to))).toEqual([]);
        if (interval.floor) floors++;
      }
    };
    fc.assert(fc.property(arbitraryHistory(choice), check), { numRuns: 150, seed: 302 });
    expect(floors).toBeGreaterThan(20);
  });

  it('gives every sale exactly where a profile and the captures list say when the machine resets', () => {
    const maker = { discounts: true, zeroSegments: 'written' } as const;
    const choice = { ...LIFE, machine: { ...LIFE.machine, maker } };
    const check = (history: History): void => {
      const { reads, roster } = takeHistory(history, {
        isListed: true,
        books: { profiles: [profileOf(history.config)] },
      });
      const { intervals } = buildIntervals(reads, roster);
      expect(intervals).toHaveLength(reads.length - 1);
      for (const [i, interval] of intervals.entries()) {
        const truth = history.truthBetween(i, i + 1);
        expect(findWrong(interval, truth)).toEqual([]);
        expect(findUnknown(interval, truth).filter((name) => /sold|value|cashIn|toTubes/.test(name))).toEqual([]);
        expect(interval.floor).toBe(false);
        if (truth.totals.sold > 0) expect(interval.basis).toBe('interval');
      }
    };
    fc.assert(fc.property(arbitraryHistory(choice), check), { numRuns: 150, seed: 303 });
  });
});
