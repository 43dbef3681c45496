import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { DepositMatch } from '../../src/accounts/deposit-match.js';
import { matchDeposits } from '../../src/accounts/match-deposits.js';
import { decimalsFromRoster, Roster, readDeposits } from '../../src/sheets/index.js';
import { type Counters, intervalsOf } from '../accounts/machine-days.js';

/** A sale by card: the day it is made on, the minute of that day, and its amount. */
interface Sale {
  readonly day: number;
  readonly minute: number;
  readonly amount: number;
}

/** A payment of the processor for whole days. */
interface Payment {
  readonly date: number;
  readonly from: number;
  readonly to: number;
  readonly gross: number;
}

interface World {
  readonly sales: readonly Sale[];
  /** Day and minute of each read, in order. */
  readonly reads: readonly (readonly [day: number, minute: number])[];
  readonly payments: readonly Payment[];
  readonly isStated: boolean;
}

const FIRST_DAY = Date.parse('2026-11-01T00:00:00Z');
const textOf = (day: number, minute = 0): string =>
  new Date(FIRST_DAY + (day * 1440 + minute) * 60_000).toISOString().slice(0, 16).replace('T', ' ');
const dayOf = (day: number): string => textOf(day).slice(0, 10);

const sumOf = (amounts: readonly number[]): number => amounts.reduce((sum, amount) => sum + amount, 0);

/** What a processor pays for: every sale once, days in runs of one length, each so many days later. */
function pay(sales: readonly Sale[], days: number, cycle: number, offset: number, lag: number): Payment[] {
  const payments: Payment[] = [];
  for (let from = -7 - offset; from < days + 7; from += cycle) {
    const to = from + cycle - 1;
    const gross = sumOf(sales.filter(({ day }) => day >= from && day <= to).map(({ amount }) => amount));
    if (gross > 0) payments.push({ date: to + lag, from, to, gross });
  }
  return payments;
}

interface Choice {
  readonly amounts: fc.Arbitrary<number>;
  /** Minutes of a day at which reads may be taken. */
  readonly minutes: readonly number[];
  readonly stated: fc.Arbitrary<boolean>;
  /** Whether the sheet has all deposits, or may begin and end anywhere. Default: anywhere. */
  readonly isWhole?: boolean;
}

const DAYS = 9;

function arbitraryWorld({ amounts, minutes, stated, isWhole = false }: Choice): fc.Arbitrary<World> {
  // Nothing is sold about midnight, where a read may or may not stand for the end of the day.
  const sale = fc.record({
    day: fc.integer({ min: -6, max: DAYS + 6 }),
    minute: fc.integer({ min: 120, max: 1320 }),
    amount: amounts,
  });
  const read = fc.tuple(fc.integer({ min: 0, max: DAYS }), fc.constantFrom(...minutes));
  return fc
    .record({
      sales: fc.array(sale, { maxLength: 30 }),
      reads: fc.uniqueArray(read, { minLength: 2, maxLength: 12, selector: ([day, minute]) => day * 1440 + minute }),
      cycle: fc.constantFrom(1, 1, 2, 3, 7),
      offset: fc.integer({ min: 0, max: 6 }),
      lag: fc.integer({ min: 0, max: 3 }),
      sheet: fc.tuple(fc.integer({ min: -8, max: DAYS }), fc.integer({ min: 0, max: DAYS + 12 })),
      isStated: stated,
    })
    .map(({ sales, reads, cycle, offset, lag, sheet: [from, length], isStated }) => ({
      sales,
      reads: [...reads].sort((a, b) => a[0] * 1440 + a[1] - (b[0] * 1440 + b[1])),
      payments: pay(sales, DAYS, cycle, offset, lag).filter(
        ({ date }) => isWhole || (date >= from && date <= from + length),
      ),
      isStated,
    }));
}

function countersOf({ sales, reads }: World): Counters[] {
  return reads.map(([day, minute], i) => {
    const before = sales.filter((sale) => sale.day * 1440 + sale.minute <= day * 1440 + minute);
    // Some cash is sold all the time, so that the reads are in order by their counters too.
    return {
      at: textOf(day, minute),
      cash: 100_000 + i * 1000,
      card: 50_000 + sumOf(before.map(({ amount }) => amount)),
    };
  });
}

function sheetOf({ payments, isStated }: World): string {
  const rows = payments.map(({ date, from, to, gross }) => {
    const period = isStated ? `${dayOf(from)},${dayOf(to)}` : ',';
    return `A1,${dayOf(date)},${(gross / 100).toFixed(2)},${period}`;
  });
  return ['machine,date,gross,period_from,period_to', ...rows].join('\n');
}

function matchWorld(world: World) {
  const intervals = intervalsOf(countersOf(world));
  const { rows } = readDeposits({ file: 'd.csv', content: sheetOf(world) }, decimalsFromRoster([], 2));
  return { intervals, rows, ...matchDeposits(intervals, rows, new Roster()) };
}

const show = ({ sales, gross, state, reason, difference, from, to }: DepositMatch): string =>
  `${from?.slice(5, 16)} ${to?.slice(5, 16)}: ${sales} ${gross} ${state} ${reason} ${difference}`;

const coarse = fc.integer({ min: 1, max: 4 }).map((units) => units * 50);
const fine = fc.integer({ min: 1, max: 5_000_000 });

describe('card sales against deposits', () => {
  // Whatever the processor owes for it has paid: in order, for whole days, late by no more than the window.
  describe('where every sale was paid for', () => {
    it.each([
      ['reads at night', [5]],
      ['reads at any time', [5, 600, 900]],
      ['reads by day alone', [600, 660, 900]],
    ])('claims nothing amiss: %s', (_, minutes) => {
      const world = arbitraryWorld({ amounts: fc.oneof(coarse, fine), minutes, stated: fc.boolean() });
      fc.assert(
        fc.property(world, (given) => {
          const { matches } = matchWorld(given);
          const claims = matches.filter(
            ({ state }) => state === 'differing' || state === 'missing' || state === 'extra',
          );
          expect(claims.map(show)).toEqual([]);
        }),
        { numRuns: 100 },
      );
    });

    it('matches every payment that lies within reads at night, where its days are stated', () => {
      const world = arbitraryWorld({ amounts: fine, minutes: [5], stated: fc.constant(true) });
      fc.assert(
        fc.property(world, (given) => {
          const nights: World = { ...given, reads: Array.from({ length: DAYS + 1 }, (_, day) => [day, 5] as const) };
          const { matches } = matchWorld(nights);
          const inside = nights.payments.filter(({ from, to }) => from >= 0 && to < DAYS);
          const matched = matches.filter(({ state }) => state === 'matched').flatMap(({ deposits }) => deposits);
          // Others may match too, where nothing was sold on those of their days that lie outside.
          expect(matched.map(({ date, gross }) => `${date} ${gross}`)).toEqual(
            expect.arrayContaining(inside.map(({ date, gross }) => `${dayOf(date)} ${gross}`)),
          );
        }),
        { numRuns: 80 },
      );
    });
  });

  it('names the amount by which a payment was changed, and no other', () => {
    const world = arbitraryWorld({ amounts: fine, minutes: [5], stated: fc.constant(true) });
    fc.assert(
      fc.property(world, fc.nat(), fc.integer({ min: -9999, max: 9999 }), (given, which, change) => {
        const reads = Array.from({ length: DAYS + 1 }, (_, day) => [day, 5] as const);
        const inside = given.payments.filter(({ from, to }) => from >= 0 && to < DAYS);
        const chosen = inside[which % Math.max(1, inside.length)];
        fc.pre(chosen !== undefined && change !== 0 && chosen.gross + change > 0);
        const payments = given.payments.map((one) => (one === chosen ? { ...one, gross: one.gross + change } : one));
        const { matches } = matchWorld({ ...given, reads, payments });
        const amiss = matches.filter(({ state }) => state !== 'matched' && state !== 'open');
        expect(amiss.map(({ difference, state, isAtLeast }) => [difference, state, isAtLeast])).toEqual([
          [change, 'differing', false],
        ]);
      }),
      { numRuns: 80 },
    );
  });

  it('misses a payment that did not come, and no other', () => {
    const world = arbitraryWorld({ amounts: fine, minutes: [5], stated: fc.constant(true), isWhole: true });
    fc.assert(
      fc.property(world, fc.nat(), (given, which) => {
        const reads = Array.from({ length: DAYS + 1 }, (_, day) => [day, 5] as const);
        const inside = given.payments.filter(({ from, to }) => from >= 0 && to < DAYS);
        const chosen = inside[which % Math.max(1, inside.length)];
        fc.pre(chosen !== undefined);
        const payments = given.payments.filter((one) => one !== chosen);
        const { rows, intervals } = matchWorld({ ...given, reads, payments });
        const options = { completeFrom: dayOf(-20), completeTo: dayOf(DAYS + 60) };
        const { matches } = matchDeposits(intervals, rows, new Roster(), options);
        const amiss = matches.filter(({ state }) => state !== 'matched' && state !== 'open');
        expect(amiss.map(({ state, difference }) => [state, difference])).toEqual([['missing', -chosen.gross]]);
      }),
      { numRuns: 80 },
    );
  });

  it('puts every sale and every deposit into one match, and sums them to the cent', () => {
    const world = arbitraryWorld({ amounts: fc.oneof(coarse, fine), minutes: [5, 600], stated: fc.boolean() });
    fc.assert(
      fc.property(world, (given) => {
        const { matches, totals, rows, intervals } = matchWorld(given);
        const placed = matches.flatMap(({ deposits }) => deposits.map(({ place }) => place.row));
        expect([...placed].sort((a, b) => a - b)).toEqual(rows.map(({ place }) => place.row));
        const sold = matches.flatMap((match) => match.intervals);
        expect(new Set(sold).size).toBe(sold.length);
        const all = sumOf(intervals.map(({ cash }) => cash.cardSales!));
        expect(sumOf(matches.map(({ sales }) => sales ?? 0))).toBe(all);
        expect(sumOf(totals.map(({ gross }) => gross!))).toBe(sumOf(given.payments.map(({ gross }) => gross)));
        expect(sumOf(totals.flatMap(({ sales }) => Object.values(sales).map((amount) => amount!)))).toBe(all);
        for (const { sales, gross, state, difference } of matches) {
          if (state === 'matched') expect([sales, difference]).toEqual([gross, 0]);
        }
      }),
      { numRuns: 80 },
    );
  });
});
