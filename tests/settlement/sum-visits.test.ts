import { describe, expect, it } from 'vitest';
import { isSettled, listSettledRows, sumByDriver, sumVisits } from '../../src/settlement/sum-visits.js';
import { M1, makeCount, makeMachine, type Scenario, type Shown, visitsOf } from './scenario.js';

const service = { reason: 'service' } as const;
const OPEN: Shown = { at: '2026-11-20T10:00', ...service };
const machine = (n: number, more = {}) =>
  makeMachine({ machine: `M${n}`, asset: `A${n}`, currency: 'EUR', driver: `D${n % 2}`, ...more });
const capture = (n: number, shown: Partial<Shown>): Shown => ({ ...OPEN, asset: `A${n}`, serial: `S${n}`, ...shown });
const when = '2026-11-24T10:00';

/** Three machines: one that agrees and takes no bills, one short, one over, each with its driver. */
const ROUND: Scenario = {
  machines: [machine(1), machine(2), machine(3)],
  captures: {
    '1a': capture(1, {}),
    '1b': capture(1, { at: when, box: 1000, sold: 10 }),
    '2a': capture(2, { card: 0 }),
    '2b': capture(2, { at: when, box: 2000, bills: 500, card: 300, sold: 28 }),
    '3a': capture(3, {}),
    '3b': capture(3, { at: when, box: 3000, sold: 30 }),
  },
  counts: [
    makeCount('M1', when, { coins: 1000, row: 2 }),
    makeCount('M2', when, { coins: 1900, bills: 500, row: 3 }),
    makeCount('M3', when, { coins: 3050, bills: 0, row: 4 }),
  ],
};

describe('sumVisits', () => {
  it('adds up what was expected, counted, over and short, and sold', () => {
    expect(sumVisits(visitsOf(ROUND))).toEqual({
      expected: { coins: 6000, bills: 500 },
      counted: { coins: 5950, bills: 500 },
      overShort: { coins: -50, bills: 0, total: -50 },
      cardSales: 300,
      sold: 68,
      value: 6800,
      loss: null,
      settledVisits: 3,
      openVisits: 0,
      countedOpen: { coins: 0, bills: 0 },
    });
  });

  it('is not known, and not 0, where no visit is settled', () => {
    const totals = sumVisits(visitsOf({ ...ROUND, captures: {} }));
    expect(totals).toMatchObject({
      expected: { coins: null, bills: null },
      counted: { coins: null, bills: null },
      overShort: { coins: null, bills: null, total: null },
      sold: null,
      value: null,
      cardSales: null,
      loss: null,
      settledVisits: 0,
      openVisits: 3,
    });
    expect(sumVisits([]).overShort.total).toBeNull();
  });

  it('keeps what was counted on open visits apart', () => {
    const { '2b': _, ...captures } = ROUND.captures;
    expect(sumVisits(visitsOf({ ...ROUND, captures }))).toMatchObject({
      expected: { coins: 4000, bills: 0 },
      settledVisits: 2,
      openVisits: 1,
      countedOpen: { coins: 1900, bills: 500 },
    });
  });

  it('knows no kind that no open bag was counted for', () => {
    expect(sumVisits(visitsOf({ ...ROUND, captures: {}, counts: ROUND.counts.slice(0, 1) })).countedOpen).toEqual({
      coins: 1000,
      bills: null,
    });
  });

  it('counts joint bags once, on the later visit, and leaves none of them open', () => {
    const early = makeCount('M1', '2026-11-22T10:00', { coins: 400, row: 9 });
    const counts = [early, { ...ROUND.counts[0]!, coins: 600 }];
    expect(sumVisits(visitsOf({ ...ROUND, counts }).filter((visit) => visit.machine === 'M1'))).toMatchObject({
      counted: { coins: 1000, bills: 0 },
      settledVisits: 1,
      openVisits: 0,
      countedOpen: { coins: 0, bills: 0 },
    });
  });

  it('counts each open bag once, also where it is joined to a visit that is open too', () => {
    const early = makeCount('M1', '2026-11-22T10:00', { coins: 400, bills: 0, row: 9 });
    const swapped = { ...ROUND.captures, '1b': { ...ROUND.captures['1b']!, ca3: null } };
    const visits = visitsOf({ ...ROUND, captures: swapped, counts: [early, ROUND.counts[0]!] });
    expect(sumVisits(visits.filter((visit) => visit.machine === 'M1'))).toMatchObject({
      openVisits: 2,
      countedOpen: { coins: 1400, bills: 0 },
    });
  });

  it('does not know what open bags come to where one may be counted twice, or its money is not clear', () => {
    const unclear = { coins: null, bills: null };
    const twice = [...ROUND.counts, { ...ROUND.counts[0]!, place: { file: 'counts.csv', row: 9 } }];
    expect(sumVisits(visitsOf({ ...ROUND, counts: twice })).countedOpen).toEqual(unclear);
    const other = [machine(1, { currency: 'USD' }), machine(2), machine(3)];
    expect(sumVisits(visitsOf({ ...ROUND, machines: other })).countedOpen).toEqual(unclear);
    const unknown = [makeCount('M9', when, { coins: 5 })];
    expect(sumVisits(visitsOf({ ...ROUND, counts: unknown })).countedOpen).toEqual(unclear);
  });

  it('adds up what prices off plan cost, over the machines that have a plan', () => {
    const place = { file: 'plan.csv', row: 2 };
    const row = {
      machine: 'M1',
      column: '11',
      product: null,
      cardPrice: null,
      par: null,
      capacity: null,
      from: null,
      place,
    };
    expect(sumVisits(visitsOf({ ...ROUND, plan: [{ ...row, price: 110 }] })).loss).toBe(100);
    const both = [
      { ...row, price: 110 },
      { ...row, machine: 'M3', price: 105 },
    ];
    expect(sumVisits(visitsOf({ ...ROUND, plan: both })).loss).toBe(100 + 150);
  });

  it('does not know the card sales of a round where one machine does not tell them', () => {
    const machines = [machine(1, { hasCard: true }), machine(2), machine(3)];
    expect(sumVisits(visitsOf({ ...ROUND, machines })).cardSales).toBeNull();
  });
});

describe('sumByDriver', () => {
  it('gives each driver his own, in the order they first come', () => {
    const drivers = sumByDriver(visitsOf(ROUND));
    expect(drivers.map(({ driver, totals }) => [driver, totals.settledVisits, totals.overShort.total])).toEqual([
      ['D1', 2, 50],
      ['D0', 1, -100],
    ]);
  });

  it('keeps visits without a driver together', () => {
    const machines = [machine(1, { driver: null }), machine(2, { driver: null }), machine(3)];
    expect(
      sumByDriver(visitsOf({ ...ROUND, machines })).map(({ driver, totals }) => [driver, totals.settledVisits]),
    ).toEqual([
      [null, 2],
      ['D1', 1],
    ]);
  });

  it('counts joint bags of two drivers with the later visit', () => {
    const early = makeCount('M1', '2026-11-22T10:00', { coins: 400, driver: 'Lou', row: 9 });
    const scenario = { ...ROUND, machines: [M1], counts: [early, { ...ROUND.counts[0]!, driver: 'Kim' }] };
    const found = sumByDriver(visitsOf(scenario));
    expect(found.map(({ driver, totals }) => [driver, totals.settledVisits, totals.overShort.total])).toContainEqual([
      'Kim',
      1,
      400,
    ]);
    expect(found.find(({ driver }) => driver === 'Lou')!.totals.settledVisits).toBe(0);
  });
});

describe('isSettled', () => {
  it('is true where the difference is known, whichever way it fell', () => {
    const visits = visitsOf(ROUND);
    expect(visits.map((visit) => [visit.state, isSettled(visit)])).toEqual([
      ['agreed', true],
      ['short', true],
      ['over', true],
    ]);
    expect(visitsOf({ ...ROUND, captures: {} }).some(isSettled)).toBe(false);
    expect(listSettledRows(visits).size).toBe(3);
  });
});
