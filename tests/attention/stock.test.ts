import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findLastFill, type MachineStock, measureStock } from '../../src/attention/index.js';
import { buildIntervals, type TakenRead } from '../../src/interval/index.js';
import type { CaptureListRow, PlanRow } from '../../src/model/index.js';
import type { Profile } from '../../src/profile/index.js';
import type { Visit } from '../../src/settlement/index.js';
import { Roster } from '../../src/sheets/index.js';
import { arbitraryHistory, type History } from '../support/arbitraries/history.js';
import { machineRow } from '../support/check-cases.js';
import { type TakenOptions, takeOne, takeSegments } from '../support/taken.js';

interface Known {
  readonly roster?: Roster;
  readonly visits?: readonly Visit[];
  readonly faulty?: readonly TakenRead[];
}

function evidenceOf(reads: readonly TakenRead[], { roster = new Roster(), visits = [], faulty = [] }: Known) {
  const { machines, intervals } = buildIntervals(reads, roster);
  const ordered = [...machines.values()].flat();
  const intervalTo = new Map(intervals.map((interval) => [interval.to, interval]));
  return { ordered, intervalTo, faulty, visits, roster };
}

const stockOf = (reads: readonly TakenRead[], known: Known = {}): MachineStock =>
  measureStock(evidenceOf(reads, known))!;

interface Shown {
  /** Paid vends by column, then whatever else its group holds. */
  readonly vends: Readonly<Record<string, number>>;
  readonly groups?: Readonly<Record<string, readonly string[]>>;
  /** Left out: 10:00 on its day. */
  readonly segments?: readonly string[];
}

/** A capture of the machine with asset A1, on a day of November 2026. */
function read(day: number, { vends, groups = {}, segments = [] }: Shown, options: TakenOptions = {}): TakenRead {
  const columns = Object.entries(vends).flatMap(([column, count]) => [
    `PA1*${column}*150**12*10`,
    `PA2*${count}*${count * 150}`,
    ...(groups[column] ?? []),
  ]);
  const date = `2611${String(day).padStart(2, '0')}`;
  const machine = ['ID1*S1*MODEL-A****A1', 'ID4*2*978*EUR', `ID5*${date}*1000`, 'CB1*B1', ...segments];
  return takeSegments([...machine, ...columns], { file: `${day}.dex`, ...options });
}

const service = { reason: 'service' } as const;

function listRow(file: string, filled: boolean | null): CaptureListRow {
  const place = { file: 'list.csv', row: 2 };
  return { file, receivedAt: null, reason: null, signal: null, machine: null, bag: null, filled, place };
}

function planRow(given: Partial<PlanRow>): PlanRow {
  const place = { file: 'plan.csv', row: 2 };
  const prices = { price: 150, cardPrice: null };
  return {
    machine: 'M1',
    column: '11',
    product: null,
    par: null,
    capacity: null,
    from: null,
    ...prices,
    ...given,
    place,
  };
}

/** A visit as far as a fill is concerned. */
function visit(visitedAt: string, capture: string | null): Visit {
  return { visitedAt, capture, counts: [{}] } as unknown as Visit;
}

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
    expect(
      measureStock({ ordered: [], intervalTo: new Map(), faulty: [], visits: [], roster: new Roster() }),
    ).toBeNull();
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

describe('findLastFill', () => {
  const reads = [
    read(1, { vends: { 11: 100 } }, service),
    read(2, { vends: { 11: 104 } }, { reason: 'scheduled' }),
    read(3, { vends: { 11: 105 } }, service),
    read(4, { vends: { 11: 106 } }),
  ];
  const find = (known: Known = {}, of: readonly TakenRead[] = reads) => findLastFill(evidenceOf(of, known));

  it('is the last service read', () => {
    expect(find()).toEqual({ position: 2, basis: 'service-read', unreadVisitAt: null });
  });

  it('is what the captures list says, either way', () => {
    const said = (...rows: CaptureListRow[]) => find({ roster: new Roster({ capturesList: rows }) });
    expect(said(listRow('3.dex', false))).toMatchObject({ position: 0, basis: 'service-read' });
    expect(said(listRow('3.dex', false), listRow('2.dex', true))).toMatchObject({ position: 1, basis: 'list' });
    expect(said(listRow('3.dex', null))).toMatchObject({ position: 2, basis: 'service-read' });
    expect(said(listRow('4.dex', true))).toMatchObject({ position: 3, basis: 'list' });
  });

  it('is a read whose bag was counted', () => {
    expect(find({ visits: [visit('2026-11-04T10:00:00', '4.dex')] })).toMatchObject({ position: 3, basis: 'bag' });
  });

  it('is a read that cleared the counters of a machine which clears on service reads only', () => {
    const profile: Profile = { name: 'p', resets: 'service-read' };
    const shown = (day: number, total: number, since: number, reason: TakenRead['reason'] = null) =>
      read(
        day,
        { vends: { 11: total }, segments: [`VA1*${total * 150}*${total}*${since * 150}*${since}`] },
        { profile, reason },
      );
    const cleared = [shown(1, 100, 7), shown(2, 104, 4), shown(3, 106, 6)];
    expect(find({}, cleared)).toMatchObject({ position: 0, basis: 'service-read' });
    // What the list says of it counts for more than what it did.
    expect(find({}, [shown(1, 100, 7, 'scheduled'), ...cleared.slice(1)])).toMatchObject({ position: -1, basis: null });
    const without = cleared.map((taken) => ({ ...taken, profile: null }));
    expect(find({}, without)).toMatchObject({ position: -1 });
  });

  it('knows of faulty service reads, unless a usable copy came or the list says that nothing was filled', () => {
    const bad = (day: number, file: string, reason: TakenRead['reason'] = 'service') =>
      read(day, { vends: { 11: 1 } }, { file, reason });
    const at = (faulty: readonly TakenRead[], roster = new Roster()) => find({ faulty, roster }).unreadVisitAt;
    expect(at([bad(5, 'bad.dex'), bad(4, 'bad2.dex')])).toBe('2026-11-05T10:00:00');
    expect(at([bad(2, 'old.dex')])).toBeNull();
    expect(at([bad(5, '4.dex')])).toBeNull();
    expect(at([bad(5, 'bad.dex', 'scheduled')])).toBeNull();
    expect(at([bad(5, 'bad.dex')], new Roster({ capturesList: [listRow('bad.dex', false)] }))).toBeNull();
    const timeless = takeSegments(['ID1*S1*M****A1'], { file: 'none.dex', ...service });
    expect(at([timeless])).toBeNull();
  });

  it('does not take a visit without a bag, or a time, for one', () => {
    const uncounted = { visitedAt: '2026-11-05', capture: null, counts: [] } as unknown as Visit;
    const timeless = { visitedAt: null, capture: null, counts: [{}] } as unknown as Visit;
    expect(find({ visits: [uncounted, timeless] }).unreadVisitAt).toBeNull();
  });
});

describe('columns that are sold out', () => {
  const soldOut = (reads: readonly TakenRead[], known: Known = {}) => stockOf(reads, known).columns[0]!.soldOut;
  const says = (...elements: string[]) => ({ 11: [`PA5*${elements.join('*')}`] });
  const fill = read(1, { vends: { 11: 100 } }, service);

  it('say so themselves, with the time since', () => {
    expect(soldOut([fill, read(3, { vends: { 11: 104 }, groups: says('261102', '1800') })])).toEqual({
      by: 'machine',
      at: '2026-11-02T18:00:00',
      minutes: 16 * 60,
    });
    expect(soldOut([fill, read(3, { vends: { 11: 104 }, groups: says('261102') })])).toEqual({
      by: 'machine',
      at: '2026-11-02',
      minutes: null,
    });
  });

  it('are not when they were filled since, by a visit with or without a capture', () => {
    const groups = says('261031', '1800');
    expect(soldOut([fill, read(3, { vends: { 11: 104 }, groups })])).toBeNull();
    // On the day of the fill without a time of day nobody knows which came first.
    expect(soldOut([fill, read(3, { vends: { 11: 104 }, groups: says('261101') })])).toBeNull();
    const later = read(3, { vends: { 11: 104 }, groups: says('261101', '1800') });
    expect(soldOut([fill, later])).not.toBeNull();
    expect(soldOut([fill, later], { visits: [visit('2026-11-02', null)] })).toBeNull();
    expect(soldOut([read(1, { vends: { 11: 1 } }), later], { visits: [visit('2026-11-02', null)] })).toBeNull();
  });

  it('are not when they vended since, or when nobody knows', () => {
    const groups = says('261102', '0800');
    const second = read(2, { vends: { 11: 104 }, groups });
    expect(soldOut([fill, second, read(3, { vends: { 11: 104 }, groups })])).not.toBeNull();
    expect(soldOut([fill, second, read(3, { vends: { 11: 105 }, groups })])).toBeNull();
    const without = takeSegments(['ID1*S1*MODEL-A****A1', 'ID5*261103*1000', 'CB1*B1', 'PA1*11*150', ...groups[11]], {
      file: '3.dex',
    });
    expect(soldOut([fill, second, without])).toBeNull();
  });

  it('are where no visit is known, by what the machine says alone', () => {
    const groups = says('261102', '0800');
    const reads = [read(1, { vends: { 11: 100 } }), read(3, { vends: { 11: 104 }, groups })];
    expect(soldOut(reads)).toMatchObject({ by: 'machine' });
  });

  it('are not by a time in the future, or a machine without a clock', () => {
    expect(soldOut([fill, read(3, { vends: { 11: 104 }, groups: says('261104', '0800') })])).toBeNull();
    const clockless = takeSegments(
      ['ID1*S1*MODEL-A****A1', 'CB1*B1', 'PA1*11*150', 'PA2*104*15600', 'PA5*261102*0800'],
      { file: '3.dex', receivedAt: '2026-11-03T10:00:00' },
    );
    expect(soldOut([fill, clockless])).toBeNull();
  });

  it('are by their counters when exactly par was vended, beyond doubt', () => {
    expect(soldOut([fill, read(3, { vends: { 11: 110 } })])).toEqual({ by: 'counters', at: null, minutes: null });
    expect(soldOut([fill, read(3, { vends: { 11: 109 } })])).toBeNull();
    expect(soldOut([fill, read(3, { vends: { 11: 111 } })])).toBeNull();
    const reads = [fill, read(3, { vends: { 11: 100 } }), read(5, { vends: { 11: 110 } })];
    expect(soldOut(reads, { visits: [visit('2026-11-04', null)] })).toBeNull();
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
