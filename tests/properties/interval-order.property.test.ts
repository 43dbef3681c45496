import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buildInterval, buildIntervals, type Interval } from '../../src/interval/index.js';
import { Roster } from '../../src/sheets/index.js';
import { arbitraryHistory, type History, type HistoryChoice } from '../support/arbitraries/history.js';
import { arbitraryRound } from '../support/arbitraries/round.js';
import { buildCapture } from '../support/build-capture.js';
import { takeHistory } from '../support/interval-truth.js';
import { takeOne } from '../support/taken.js';

const LIFE: HistoryChoice = {
  discounts: true,
  revalues: true,
  unseenResets: true,
  machine: { minPastVends: 400, maker: { discounts: true } },
};

/** What an interval says in figures, whatever its files are called. */
function figuresOf({ columns, totals, cash, basis, floor }: Interval): unknown {
  const plain = columns.map(
    ({ soldDifference: _a, valueDifference: _b, testDifference: _c, freeDifference: _d, ...rest }) => rest,
  );
  return { columns: plain, totals, cash, basis, floor };
}

const ENDINGS = ['\r\n', '\n', '\r'] as const;
const NONE = new Roster();

describe('interval: order and duplicates', () => {
  it('gives the same figures in whatever order reads come, as often as they come, and however they were carried', () => {
    const copies = fc.array(fc.record({ of: fc.nat(), ending: fc.constantFrom(...ENDINGS), padding: fc.nat(3) }), {
      maxLength: 6,
    });
    const property = fc.property(
      arbitraryHistory(LIFE),
      copies,
      fc.infiniteStream(fc.double()),
      (history, more, keys) => {
        const { reads } = takeHistory(history);
        const copied = more.map(({ of, ending, padding }, i) => {
          const { segments } = history.reads[of % history.reads.length]!;
          const capture = { eol: ending, envelope: false, padding: new Uint8Array(padding) };
          return takeOne(buildCapture(segments, capture), { file: `copy-${i}.txt` });
        });
        const shuffled = [...reads, ...copied]
          .map((taken) => ({ taken, key: keys.next().value as number }))
          .sort((a, b) => a.key - b.key)
          .map(({ taken }) => taken);
        const plain = buildIntervals(reads, NONE);
        const mixed = buildIntervals(shuffled, NONE);
        expect(mixed.intervals.map(figuresOf)).toEqual(plain.intervals.map(figuresOf));
        expect(mixed.findings.map(({ code }) => code)).toEqual(copied.map(() => 'duplicate-read'));
      },
    );
    fc.assert(property, { numRuns: 120, seed: 401 });
  });

  it('gives the same figures when clocks are set wrong, with or without read counters', () => {
    let contradicted = 0;
    const check = (history: History): void => {
      const { reads } = takeHistory(history);
      const { intervals } = buildIntervals([...reads].reverse(), NONE);
      expect(intervals).toHaveLength(reads.length - 1);
      for (const [i, interval] of intervals.entries()) {
        const truth = history.truthBetween(i, i + 1);
        expect([interval.totals.sold, interval.totals.value]).toEqual([truth.totals.sold, truth.totals.value]);
        if (interval.findings.some(({ code }) => code === 'out-of-order')) contradicted++;
      }
    };
    const choice = {
      ...LIFE,
      clockChanges: true,
      machine: { ...LIFE.machine, maker: { zeroSegments: 'written' as const } },
    };
    fc.assert(fc.property(arbitraryHistory(choice), check), { numRuns: 200, seed: 402 });
    expect(contradicted).toBeGreaterThan(20);
  });

  it('keeps machines apart', () => {
    const property = fc.property(
      arbitraryRound({ ...LIFE, maxReads: 3 }),
      fc.infiniteStream(fc.double()),
      (round, keys) => {
        const all = round.flatMap(({ history }, machine) =>
          history.reads.map((read, i) => takeOne(read.bytes, { file: `${machine}-${i}.dex` })),
        );
        const shuffled = all
          .map((taken) => ({ taken, key: keys.next().value as number }))
          .sort((a, b) => a.key - b.key)
          .map(({ taken }) => taken);
        const { intervals, machines } = buildIntervals(shuffled, NONE);
        expect([...machines.keys()].sort()).toEqual(round.map(({ asset }) => `asset ${asset}`).sort());
        for (const [machine, { history, asset }] of round.entries()) {
          const own = intervals.filter(({ to }) => to.read.machine.asset === asset);
          expect(own.map(({ from, to }) => `${from.file} ${to.file}`)).toEqual(
            history.reads.slice(1).map((_, i) => `${machine}-${i}.dex ${machine}-${i + 1}.dex`),
          );
        }
      },
    );
    fc.assert(property, { numRuns: 60, seed: 403 });
  });

  it('adds up: consecutive intervals come to the interval from the first read to the last', () => {
    const check = (history: History): void => {
      const { reads } = takeHistory(history);
      const { intervals } = buildIntervals(reads, NONE);
      const whole = buildInterval(reads[0]!, reads.at(-1)!, NONE);
      const sum = (of: (interval: Interval) => number | null): number =>
        intervals.reduce((total, interval) => total + of(interval)!, 0);
      for (const [i, { column }] of whole.columns.entries()) {
        expect(whole.columns[i]!.sold).toBe(sum(({ columns }) => columns[i]!.sold));
        expect(whole.columns[i]!.value).toBe(sum(({ columns }) => columns[i]!.value));
        expect(intervals.every(({ columns }) => columns[i]!.column === column)).toBe(true);
      }
      for (const total of ['sold', 'value', 'test', 'free'] as const) {
        expect(whole.totals[total]).toBe(sum(({ totals }) => totals[total]));
      }
      for (const flow of [
        'cashIn',
        'toCashBox',
        'toTubes',
        'bills',
        'dispensed',
        'byHand',
        'filled',
        'overpaid',
        'cashSales',
        'tubeDifference',
      ] as const) {
        expect(whole.cash[flow]).toBe(sum(({ cash }) => cash[flow]));
      }
    };
    const choice: HistoryChoice = {
      ...LIFE,
      tubeFaults: true,
      minReads: 2,
      machine: { ...LIFE.machine, maker: { discounts: true, zeroSegments: 'written' } },
    };
    fc.assert(fc.property(arbitraryHistory(choice), check), { numRuns: 150, seed: 404 });
  });
});
