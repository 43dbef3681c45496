import { describe, expect, it } from 'vitest';
import type { PlanRow } from '../../src/model/index.js';
import { measureSince } from '../../src/settlement/measure-since.js';
import { M1, readsOf, type Scenario, type Shown, takeScenario } from './scenario.js';

const NO_HAND = { counts: [], ignore: false };

/** From the first capture to the last. */
function measure(captures: Record<string, Shown>, more: Partial<Scenario> = {}) {
  const reads = readsOf({ captures, ...more });
  const { roster } = takeScenario({ captures, ...more });
  const found = measureSince(reads, 0, reads.usable.all.length - 1, roster, NO_HAND);
  return {
    cash: found.expected?.cash ?? null,
    isFloor: found.expected?.isFloor ?? null,
    rests: found.expectedFrom.map(({ from, to }) => `${from.file}-${to.file}`).join(' '),
    interval: found.interval === null ? null : `${found.interval.from.file}-${found.interval.to.file}`,
    isBroken: found.pieces === null,
    isOtherMachine: found.isOtherMachine,
    sales: found.sales,
  };
}

const a: Shown = { at: '2026-11-20T10:00' };
const b: Shown = { at: '2026-11-21T10:00', box: 300, bills: 500, sold: 8 };
const c: Shown = { at: '2026-11-24T10:00', box: 700, bills: 500, sold: 12 };

describe('measureSince', () => {
  it('takes the one interval there is', () => {
    expect(measure({ a, c })).toMatchObject({
      cash: { coins: 700, bills: 500 },
      isFloor: false,
      rests: 'a-c',
      interval: 'a-c',
    });
  });

  it('adds up from read to read, and has the whole in one besides', () => {
    expect(measure({ a, b, c })).toMatchObject({ cash: { coins: 700, bills: 500 }, rests: 'a-b b-c', interval: 'a-c' });
  });

  it('does without a read in between that lacks a counter', () => {
    expect(measure({ a, b: { ...b, ca3: null }, c })).toMatchObject({ cash: { coins: 700, bills: 500 }, rests: 'a-c' });
  });

  it('adds up where the setting of bills changed, so that end to end tells nothing (Crane Autobar Infinity, p. 33)', () => {
    const ca3 = (cashIn: number, box: number, bills: number): string => `CA3*0*0*0*0*${cashIn}*${box}*30000*${bills}`;
    const found = measure({
      a: { ...a, ca3: ca3(100_000, 20_000, 50_000) },
      b: { ...b, ca3: ca3(101_500, 20_500, 51_000) },
      // From here on bills are given as a number, counted on from another counter.
      b2: { ...b, at: '2026-11-22T10:00', ca3: ca3(101_500, 20_500, 102) },
      c: { ...c, ca3: ca3(103_500, 21_500, 103) },
    });
    expect(found.rests).not.toBe('a-c');
    expect(found.cash?.coins).toBe(1500);
  });

  it('has nothing to say of no time at all', () => {
    expect(measure({ a })).toMatchObject({
      cash: null,
      interval: null,
      isBroken: false,
      sales: { sold: null, value: null },
    });
  });

  it('is broken where another machine stood there', () => {
    const other = { ...b, asset: 'A9', serial: 'S9', board: 'B9', listedMachine: 'M1' };
    const broken = { cash: null, isBroken: true, isOtherMachine: true, interval: null };
    expect(measure({ a, c: { ...other, at: c.at } })).toMatchObject(broken);
    expect(measure({ a, b: other, c })).toMatchObject(broken);
  });
});

describe('measureSince: counters that started again', () => {
  const zeros = { ca4: 'CA4*0*0*0*0', ca10: 'CA10*0*0' };
  // A new board in between; by the end it has passed what the first one showed when it began.
  const young = {
    at: '2026-11-20T10:00',
    ca3: 'CA3*0*0*0*0*1000*600*200*200',
    ...zeros,
    cashSales: -99_000,
    sold: -990,
  };
  const grown = {
    at: '2026-11-22T10:00',
    ca3: 'CA3*0*0*0*0*9000*5600*1200*2200',
    ...zeros,
    cashSales: -91_000,
    sold: -910,
  };
  const fresh = {
    at: '2026-11-23T10:00',
    board: 'B2',
    ca3: 'CA3*0*0*0*0*100*60*20*20',
    ...zeros,
    cashSales: -99_900,
    sold: -999,
  };
  const later = {
    at: '2026-11-24T10:00',
    ca3: 'CA3*0*0*0*0*2000*1200*400*400',
    ...zeros,
    cashSales: -98_000,
    sold: -980,
  };

  it('are seen from read to read alone: then only a floor is known, and the whole is not given', () => {
    // The board's number is not in the last capture, so that end to end nothing shows.
    const found = measure({ a: young, b: grown, c: fresh, d: { ...later, board: '' } });
    expect(found.isFloor).toBe(true);
    expect(found.interval).toBeNull();
    expect(found.cash).toEqual({ coins: 5000 + 60 + 1140, bills: 2000 + 20 + 380 });
  });

  it('are a floor by what came before the restart as well', () => {
    const found = measure({ a: young, b: grown, c: fresh });
    expect(found).toMatchObject({ isFloor: true, rests: 'a-b b-c', cash: { coins: 5060, bills: 2020 } });
  });
});

describe('measureSince: machines without lifetime counters', () => {
  const plain = { ca4: null, ca10: null };
  const ca3 = (box: number): string => `CA3*${box}*${box}*0*0`;
  const more = {
    machines: [{ ...M1, profile: 'P', hasBills: false }],
    profiles: [{ name: 'P', resets: 'service-read' as const }],
  };

  it('are added up from read to read, since end to end does not show what was cleared in between', () => {
    const found = measure(
      {
        a: { ...a, ...plain, ca3: ca3(900), reason: 'service' },
        b: { ...b, ...plain, ca3: ca3(300), reason: 'scheduled' },
        c: { ...c, ...plain, ca3: ca3(500), reason: 'service' },
      },
      more,
    );
    expect(found).toMatchObject({ cash: { coins: 500, bills: 0 }, isFloor: false, rests: 'a-b b-c', interval: null });
    // Its columns are counted since initialisation all the same.
    expect(found.sales).toMatchObject({ sold: 12 });
  });
});

describe('measureSince: sales', () => {
  const plan = (price: number | null): PlanRow[] => [
    {
      machine: 'M1',
      column: '11',
      product: null,
      price,
      cardPrice: null,
      par: null,
      capacity: null,
      from: null,
      place: { file: 'plan.csv', row: 2 },
    },
  ];

  it('are what was sold, for how much, by card, and what prices off plan cost', () => {
    const sold = { a: { ...a, card: 0 }, c: { ...c, bills: 0, card: 500, sold: 12 } };
    expect(measure(sold, { plan: plan(110) }).sales).toEqual({
      sold: 12,
      value: 1200,
      cardSales: 500,
      loss: 120,
      hasPlan: true,
    });
  });

  it('have no loss without a plan, which is not a loss of 0', () => {
    expect(measure({ a, c }).sales).toMatchObject({ loss: null, hasPlan: false });
    expect(measure({ a, c }, { plan: plan(null) }).sales).toMatchObject({ loss: null, hasPlan: false });
    expect(measure({ a, c: { ...c, bills: 0, box: 1200 } }, { plan: plan(100) }).sales).toMatchObject({
      loss: 0,
      hasPlan: true,
    });
  });

  it('hold no card sales on a machine without a card reader; on one that has one they are not known without its counters', () => {
    expect(measure({ a, c }).sales.cardSales).toBe(0);
    expect(measure({ a, c }, { machines: [{ ...M1, hasCard: true }] }).sales.cardSales).toBeNull();
  });

  it('are the least there can have been where a part of them is', () => {
    const zeros = { ca4: 'CA4*0*0*0*0', ca10: 'CA10*0*0' };
    const swapped = { ...c, ...zeros, board: 'B2', ca3: 'CA3*0*0*0*0*100*100*0*0', cashSales: -99_900, sold: -999 };
    expect(measure({ a, b, c: swapped }).sales).toMatchObject({ sold: 1, value: 100 });
  });

  it('are the totals of the machine where it has no columns', () => {
    expect(measure({ a: { ...a, price: null }, c: { ...c, price: null } }).sales).toMatchObject({
      sold: 12,
      value: 1200,
    });
  });
});
