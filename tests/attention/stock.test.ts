import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { measureStock } from '../../src/attention/index.js';
import type { TakenRead } from '../../src/interval/index.js';
import { Roster } from '../../src/sheets/index.js';
import { arbitraryHistory, type History } from '../support/arbitraries/history.js';
import { machineRow } from '../support/check-cases.js';
import { type TakenOptions, takeOne, takeSegments } from '../support/taken.js';
import { NO_HISTORY, planRow, read, service, stockOf, visit } from './stock-reads.js';

describe('measureStock', () => {
  it('counts what was vended since the last service visit', () => {
    const stock = stockOf([
      read(1, { vends: { 11: 100, 12: 50 } }, service),
      read(2, { vends: { 11: 102, 12: 50 } }),
      read(3, { vends: { 11: 107, 12: 51 } }),
    ]);
    expect(stock).toMatchObject({ fill: { file: '1.dex' }, fillBasis: 'service-read', until: { file: '3.dex' } });
    expect(stock.columns).toMatchObject([
      { column: '11', sold: 7, test: 0, free: 0, par: 10, capacity: 12, left: 3, toFill: 7, doubts: [], soldOut: null },
      { column: '12', sold: 1, left: 9, toFill: 1, doubts: [] },
    ]);
  });

  it('needs nothing right after the visit', () => {
    const stock = stockOf([read(1, { vends: { 11: 100 } }), read(2, { vends: { 11: 107 } }, service)]);
    expect(stock.columns).toMatchObject([{ sold: 0, left: 10, toFill: 0, doubts: [] }]);
  });

  it('counts test and free vends, which take a product out as well', () => {
    const groups = (test: number, free: number) => ({ 11: [`PA3*${test}*0`, `PA4*${free}*0`] });
    const stock = stockOf([
      read(1, { vends: { 11: 100 }, groups: groups(4, 0) }, service),
      read(2, { vends: { 11: 103 }, groups: groups(5, 2) }),
    ]);
    expect(stock.columns).toMatchObject([{ sold: 3, test: 1, free: 2, left: 4, toFill: 6 }]);
  });

  it('takes par from the plan before the machine, and minds that it was changed since the fill', () => {
    const machine = machineRow();
    const plan = [
      planRow({ par: 8, capacity: 9, product: 'Oat bar' }),
      planRow({ par: 6, capacity: 9, product: 'Nut mix', from: '2026-11-02' }),
    ];
    const roster = new Roster({ machines: [machine], plan });
    const stock = stockOf(
      [read(1, { vends: { 11: 100 } }, { ...service, roster }), read(3, { vends: { 11: 103 } }, { roster })],
      { roster },
    );
    // 8 after the fill, 5 now; 1 to the new par.
    expect(stock.columns).toMatchObject([{ product: 'Nut mix', par: 6, capacity: 9, left: 5, toFill: 1 }]);
  });

  it('fills up to what it held where nothing says par', () => {
    const bare = (day: number, count: number, options: TakenOptions = {}) =>
      takeSegments(['ID1*S1*M****A1', `ID5*26110${day}*1000`, 'PA1*11*150', `PA2*${count}*${count * 150}`], {
        file: `${day}.dex`,
        ...options,
      });
    const stock = stockOf([bare(1, 100, service), bare(2, 104)]);
    expect(stock.columns).toMatchObject([{ par: null, left: null, toFill: 4, doubts: ['no-par'] }]);
  });

  it('says nothing of a machine without a usable read', () => {
    expect(measureStock({ ...NO_HISTORY, faulty: [], visits: [], roster: new Roster() })).toBeNull();
  });

  it('does not know what is needed where no visit is known', () => {
    const stock = stockOf([read(1, { vends: { 11: 100 } }), read(2, { vends: { 11: 104 } })]);
    expect(stock.fill).toBeNull();
    expect(stock.columns).toMatchObject([
      { sold: null, test: null, free: null, left: null, toFill: null, doubts: ['no-fill-known'] },
    ]);
  });

  it('says that a column vended more than it held', () => {
    const stock = stockOf([read(1, { vends: { 11: 100 } }, service), read(2, { vends: { 11: 113 } })]);
    expect(stock.columns).toMatchObject([{ sold: 13, left: 0, toFill: 10, doubts: ['more-than-par'], soldOut: null }]);
  });

  it('says that counters began again: the least it can have been', () => {
    const stock = stockOf([
      read(1, { vends: { 11: 1000, 12: 800 }, segments: ['VA1*270000*1800'] }, service),
      read(2, { vends: { 11: 3, 12: 1 }, segments: ['VA1*600*4'] }),
    ]);
    expect(stock.columns).toMatchObject([{ sold: 3, toFill: 3, doubts: ['restart'] }, { sold: 1 }]);
  });

  it('says that a counter is missing, or a column new', () => {
    const without = takeSegments(
      ['ID1*S1*MODEL-A****A1', 'ID5*261102*1000', 'CB1*B1', 'PA1*11*150', 'PA1*12*150', 'PA2*52*7800'],
      { file: '2.dex' },
    );
    const stock = stockOf([read(1, { vends: { 11: 100, 12: 50 } }, service), without]);
    expect(stock.columns).toMatchObject([
      { column: '11', sold: null, toFill: null, doubts: ['absent', 'no-par'] },
      { column: '12', sold: 2, toFill: 2 },
    ]);
    const grown = stockOf([read(1, { vends: { 11: 100 } }, service), read(2, { vends: { 11: 101, 14: 2 } })]);
    expect(grown.columns).toMatchObject([
      { column: '11', doubts: [] },
      { column: '14', sold: 2, doubts: ['new-column'] },
    ]);
  });

  it('sets the two ends against each other where a read in between leaves a counter out', () => {
    const between = takeSegments(
      ['ID1*S1*MODEL-A****A1', 'ID5*261102*1000', 'CB1*B1', 'PA1*11*150', 'PA1*12*150', 'PA2*52*7800'],
      { file: '2.dex' },
    );
    const stock = stockOf([
      read(1, { vends: { 11: 100, 12: 50 } }, service),
      between,
      read(3, { vends: { 11: 106, 12: 53 } }),
    ]);
    expect(stock.columns).toMatchObject([{ sold: 6, toFill: 6, doubts: [] }, { sold: 3 }]);
  });

  it('takes nothing of another machine that stands there now', () => {
    const roster = new Roster({ machines: [machineRow({ asset: 'A9' })] });
    const other = takeSegments(
      ['ID1*S9*MODEL-A****A2', 'ID5*261102*1000', 'CB1*B9', 'PA1*11*150**12*10', 'PA2*9*1350'],
      {
        file: '2.dex',
        machine: machineRow(),
      } as TakenOptions,
    );
    const first = read(1, { vends: { 11: 100 } }, { ...service, machine: machineRow() } as TakenOptions);
    const stock = stockOf([first, other], { roster });
    expect(stock.columns).toMatchObject([{ sold: null, toFill: null, doubts: ['absent'] }]);
  });

  it('says that it was visited since without a usable capture: at most what was vended since the read before that', () => {
    const reads = [
      read(1, { vends: { 11: 100 } }, service),
      read(3, { vends: { 11: 104 } }),
      read(5, { vends: { 11: 106 } }),
    ];
    const stock = stockOf(reads, { visits: [visit('2026-11-04', null)] });
    expect(stock).toMatchObject({ fill: { file: '1.dex' }, unreadVisitAt: '2026-11-04T12:00:00' });
    expect(stock.columns).toMatchObject([{ sold: 2, left: 8, toFill: 2, doubts: ['visit-unread'] }]);
    // Without a read between fill and visit the fill itself is what is counted from.
    const sooner = stockOf(reads, { visits: [visit('2026-11-02T09:00:00', 'gone.dex')] });
    expect(sooner.columns).toMatchObject([{ sold: 6, doubts: ['visit-unread'] }]);
    const faulty = [read(4, { vends: { 11: 1 } }, { ...service, file: 'bad.dex' })];
    expect(stockOf(reads, { faulty }).columns).toMatchObject([{ sold: 2, doubts: ['visit-unread'] }]);
  });
});

/** The reads of a random history as an office has them: the captures list says which were service reads. */
function takeHistory({ reads }: History): TakenRead[] {
  return reads.map(({ bytes, bag, snapshot }, place) =>
    takeOne(bytes, {
      file: `${String(place).padStart(2, '0')}.dex`,
      receivedAt: snapshot.at,
      reason: bag === null ? 'scheduled' : 'service',
    }),
  );
}

describe('refill and the truth (random histories of a simulated machine)', () => {
  it('is what was truly vended since the last visit, where no counter began again', () => {
    fc.assert(
      fc.property(arbitraryHistory({ maxReads: 6, maxSteps: 40, unseenResets: true }), (history) => {
        const last = history.reads.length - 1;
        const truth = history.truthBetween(history.visits.at(-1)!, last);
        for (const { column, sold, test, free, par, toFill, doubts } of stockOf(takeHistory(history)).columns) {
          const truly = truth.columns.find((one) => one.column === column)!;
          // Where a machine leaves segments out at zero, and nothing shows that it does, absent is not zero.
          if (history.config.maker.zeroSegments === 'left-out' && doubts.some((doubt) => doubt !== 'more-than-par')) {
            expect(['absent', 'floor']).toContain(doubts[0]);
            expect(sold ?? 0).toBeLessThanOrEqual(truly.sold);
            continue;
          }
          expect([column, sold, test, free]).toEqual([column, truly.sold, truly.test, truly.free]);
          const vended = truly.sold + truly.test + truly.free;
          expect(toFill).toBe(Math.min(par!, vended));
          expect(doubts).toEqual(vended > par! ? ['more-than-par'] : []);
        }
      }),
      { numRuns: 60, seed: 11 },
    );
  });

  it('is never more than that, and said to be doubtful, where they did', () => {
    const choice = { restarts: ['board-changed', 'memory-cleared'] as const, maxReads: 6, maxSteps: 30 };
    fc.assert(
      fc.property(arbitraryHistory(choice), (history) => {
        const last = history.reads.length - 1;
        const truth = history.truthBetween(history.visits.at(-1)!, last);
        for (const { column, sold, doubts } of stockOf(takeHistory(history)).columns) {
          const truly = truth.columns.find((one) => one.column === column)!;
          if (sold !== truly.sold) {
            expect(doubts.length).toBeGreaterThan(0);
            expect(sold ?? 0).toBeLessThanOrEqual(truly.sold);
          }
        }
      }),
      { numRuns: 60, seed: 12 },
    );
  });
});
