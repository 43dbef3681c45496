import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buildIntervals, type Interval } from '../../src/interval/index.js';
import { arbitraryHistory, type History, type HistoryChoice } from '../support/arbitraries/history.js';
import { findUnknown, findWrong, profileOf, takeHistory } from '../support/interval-truth.js';
import type { Truth } from '../support/simulator/index.js';

/** Every pair of consecutive reads of a history, in its true order, with the truth between them. */
function eachInterval(
  history: History,
  intervals: readonly Interval[],
  look: (interval: Interval, truth: Truth, from: number) => void,
): void {
  expect(intervals).toHaveLength(history.reads.length - 1);
  for (const [from, interval] of intervals.entries()) look(interval, history.truthBetween(from, from + 1), from);
}

const codesOf = (interval: Interval): string[] => interval.findings.map(({ code }) => code);

const EVERYTHING: HistoryChoice = {
  discounts: true,
  revalues: true,
  standingCredit: true,
  unseenResets: true,
  tubeFaults: true,
  billsSettingChanges: true,
  clockChanges: true,
  machine: {
    minPastVends: 400,
    maker: { discounts: true },
    rollOver: ['none', 'column-count', 'column-value', 'total-count', 'total-value'],
    cashSalesBookedAs: ['CA', 'DA', 'DB'],
  },
};

describe('interval: equals the truth of simulated machines', () => {
  it('gives every figure of an ordinary life, and has no doubt about any', () => {
    const choice: HistoryChoice = {
      discounts: true,
      revalues: true,
      machine: { maker: { discounts: true, zeroSegments: 'written' }, devices: { card: true, token: true } },
    };
    const check = (history: History): void => {
      const { reads, roster } = takeHistory(history);
      const { intervals, findings } = buildIntervals(reads, roster);
      expect(findings).toEqual([]);
      eachInterval(history, intervals, (interval, truth) => {
        expect(findWrong(interval, truth)).toEqual([]);
        expect(findUnknown(interval, truth)).toEqual([]);
        expect(interval.findings.filter(({ severity }) => severity !== 'note')).toEqual([]);
        expect([interval.basis, interval.floor, interval.totals.unexplained]).toEqual(['lifetime', false, 0]);
      });
    };
    fc.assert(fc.property(arbitraryHistory(choice), check), { numRuns: 120, seed: 101 });
  });

  it('gives no wrong figure, whatever happens to the machine', () => {
    const check = (history: History): void => {
      const { reads, roster } = takeHistory(history);
      const { intervals } = buildIntervals(reads, roster);
      eachInterval(history, intervals, (interval, truth) => {
        expect(findWrong(interval, truth)).toEqual([]);
        expect(interval.totals.unexplained === null || interval.totals.unexplained === 0).toBe(true);
        expect(interval.findings.filter(({ severity }) => severity === 'fault')).toEqual([]);
      });
    };
    fc.assert(fc.property(arbitraryHistory(EVERYTHING), check), { numRuns: 300, seed: 102 });
  });

  it('knows sales whatever happens, unless a machine leaves zeros out', () => {
    const choice = {
      ...EVERYTHING,
      machine: { ...EVERYTHING.machine, maker: { zeroSegments: 'minor-left-out' as const } },
    };
    const check = (history: History): void => {
      const { reads, roster } = takeHistory(history);
      eachInterval(history, buildIntervals(reads, roster).intervals, (interval, truth) => {
        const unknown = findUnknown(interval, truth);
        expect(unknown.filter((name) => /sold|value|cashIn|toCashBox|toTubes|cashSales/.test(name))).toEqual([]);
        expect(interval.floor).toBe(false);
      });
    };
    fc.assert(fc.property(arbitraryHistory(choice), check), { numRuns: 150, seed: 103 });
  });

  it('shows coins lost from tubes, and fills not entered, as just that difference', () => {
    const choice: HistoryChoice = {
      tubeFaults: true,
      revalues: true,
      machine: { maker: { zeroSegments: 'written', discounts: true } },
    };
    const check = (history: History): void => {
      const { reads, roster } = takeHistory(history);
      eachInterval(history, buildIntervals(reads, roster).intervals, (interval, truth) => {
        expect(interval.cash.tubeDifference).toBe(truth.cash.tubeDifference);
        expect(codesOf(interval).includes('tube-difference')).toBe(truth.cash.tubeDifference !== 0);
        expect(interval.cash.dispensed).toBe(truth.cash.dispensed);
      });
    };
    fc.assert(fc.property(arbitraryHistory(choice), check), { numRuns: 200, seed: 104 });
  });

  it('tells roll-overs, adds just what was lost, and takes none for missing money', () => {
    const choice: HistoryChoice = {
      machine: {
        rollOver: ['column-count', 'column-value', 'total-count', 'total-value'],
        maker: { zeroSegments: 'written', discounts: true },
      },
      maxSteps: 40,
    };
    let rolledOver = 0;
    const check = (history: History): void => {
      const { reads, roster } = takeHistory(history);
      eachInterval(history, buildIntervals(reads, roster).intervals, (interval, truth) => {
        expect(findWrong(interval, truth)).toEqual([]);
        expect(interval.findings.filter(({ severity }) => severity !== 'note')).toEqual([]);
        if (codesOf(interval).includes('counter-rollover')) rolledOver++;
      });
    };
    fc.assert(fc.property(arbitraryHistory(choice), check), { numRuns: 150, seed: 105 });
    expect(rolledOver).toBeGreaterThan(30);
  });

  it('finds a reset by somebody else where anything was counted before it, and claims none where there was none', () => {
    const choice: HistoryChoice = {
      unseenResets: true,
      machine: { minPastVends: 5, maker: { zeroSegments: 'written', readCounters: true } },
    };
    let found = 0;
    const check = (history: History): void => {
      const { reads, roster } = takeHistory(history);
      eachInterval(history, buildIntervals(reads, roster).intervals, (interval, truth, from) => {
        const sinceReset = history.truthSinceReset(from + 1);
        const own = history.reads[from]!.reset ? 1 : 0;
        const isHidden = truth.totals.sold === sinceReset.totals.sold && truth.cash.cashIn === sinceReset.cash.cashIn;
        const claimed = codesOf(interval).includes('unseen-reset');
        if (truth.resets === own) expect(claimed).toBe(false);
        else if (!isHidden && sinceReset.totals.sold < truth.totals.sold) expect(claimed).toBe(true);
        if (claimed) found++;
      });
    };
    fc.assert(fc.property(arbitraryHistory(choice), check), { numRuns: 200, seed: 106 });
    expect(found).toBeGreaterThan(30);
  });

  it('recognises cash booked as card sales, and calls none of it a shortage', () => {
    const choice: HistoryChoice = {
      machine: { cashSalesBookedAs: ['DA', 'DB'], maker: { zeroSegments: 'written', discounts: true } },
    };
    let recognised = 0;
    const check = (history: History): void => {
      const { reads, roster } = takeHistory(history);
      eachInterval(history, buildIntervals(reads, roster).intervals, (interval, truth) => {
        expect(findWrong(interval, truth)).toEqual([]);
        expect(interval.findings.filter(({ severity }) => severity !== 'note')).toEqual([]);
        if (codesOf(interval).includes('cash-as-card')) recognised++;
        expect(interval.cash.isCashBookedAsCard && truth.cash.cashSales === 0).toBe(false);
      });
    };
    fc.assert(fc.property(arbitraryHistory(choice), check), { numRuns: 150, seed: 107 });
    expect(recognised).toBeGreaterThan(100);
  });

  it('explains card prices by lists, in PA7 or LA1, also while prices change and discounts are given', () => {
    const lists = fc.constantFrom('PA7', 'both', 'LA1');
    const property = fc.property(
      lists.chain((priceLists) =>
        arbitraryHistory({
          discounts: true,
          machine: { cardPriceLists: true, devices: { card: true }, maker: { discounts: true, priceLists } },
        }),
      ),
      (history) => {
        const { reads, roster } = takeHistory(history, { books: { profiles: [profileOf(history.config)] } });
        eachInterval(history, buildIntervals(reads, roster).intervals, (interval, truth) => {
          expect(findWrong(interval, truth)).toEqual([]);
          expect(codesOf(interval)).not.toContain('price-mismatch');
          for (const column of interval.columns) {
            if (column.split.length === 0) continue;
            const sum = column.split.reduce((total, share) => total + share.count * share.price, 0);
            expect(sum).toBe(column.value! + (column.discounts ?? 0));
            expect(column.split.reduce((total, share) => total + share.count, 0)).toBe(column.sold);
          }
        });
      },
    );
    fc.assert(property, { numRuns: 200, seed: 108 });
  });

  it('splits by price as the vends truly were, where nothing was discounted', () => {
    const check = (history: History): void => {
      const { reads, roster } = takeHistory(history);
      eachInterval(history, buildIntervals(reads, roster).intervals, (interval, truth) => {
        for (const column of truth.columns) {
          const { split } = interval.columns.find((one) => one.column === column.column)!;
          const plain = split.map(({ count, price }) => ({ count, price })).sort((a, b) => a.price - b.price);
          expect(plain).toEqual(column.split);
        }
      });
    };
    const choice: HistoryChoice = { machine: { maker: { zeroSegments: 'written', priceLists: 'none' } } };
    fc.assert(fc.property(arbitraryHistory(choice), check), { numRuns: 150, seed: 109 });
  });

  it('names discounts that a machine does not count as money that no price explains', () => {
    const choice: HistoryChoice = {
      discounts: true,
      priceChanges: false,
      machine: { maker: { discounts: false, zeroSegments: 'written' } },
    };
    const check = (history: History): void => {
      const { reads, roster } = takeHistory(history);
      eachInterval(history, buildIntervals(reads, roster).intervals, (interval, truth) => {
        for (const { column, discounts } of truth.columns) {
          const sales = interval.columns.find((one) => one.column === column)!;
          expect(sales.unexplained).toBe(discounts === 0 ? 0 : -discounts);
        }
      });
    };
    fc.assert(fc.property(arbitraryHistory(choice), check), { numRuns: 100, seed: 110 });
  });
});
