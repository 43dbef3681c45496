import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { DepositMatch } from '../../src/accounts/deposit-match.js';
import { matchDeposits } from '../../src/accounts/match-deposits.js';
import { decimalsFromRoster, Roster, readDeposits } from '../../src/sheets/index.js';
import { type Counters, intervalsOf } from '../accounts/machine-days.js';

// Daily reads, and a processor that pays whole days; what it did wrong with each is known, and is the oracle: it shares
// nothing with the program. All readings of small sheets are tried one by one in tests/accounts/align-sums.test.ts.

const DAYS = 6;
const FIRST_DAY = Date.parse('2026-11-01T00:00:00Z');
const dayText = (day: number): string => new Date(FIRST_DAY + day * 86_400_000).toISOString().slice(0, 10);

/** One row of the sheet; `day` is the day that it pays for. */
interface Row {
  readonly day: number;
  readonly date: number;
  readonly gross: number;
  readonly fee: number;
}

/** What the processor did with a day. */
type Deed = 'paid' | 'not paid' | 'paid twice' | 'paid less' | 'split' | 'paid late';
const DEEDS: readonly Deed[] = ['paid', 'paid', 'paid', 'not paid', 'paid twice', 'paid less', 'split', 'paid late'];

interface Story {
  readonly sales: readonly number[];
  readonly deeds: readonly Deed[];
  readonly rows: readonly Row[];
  readonly time: string;
  readonly offset: 0 | 1;
}

const coarse = fc.integer({ min: 2, max: 60 }).map((units) => units * 10);
const fine = fc.integer({ min: 100, max: 60_000 });

function rowsOf(sales: readonly number[], deeds: readonly Deed[], lag: number): Row[] {
  return deeds.flatMap((deed, day): Row[] => {
    const sold = sales[day]!;
    const row = { day, date: day + 1 + lag, gross: sold, fee: Math.floor(sold / 40) };
    const part = Math.floor(sold / 3);
    switch (deed) {
      case 'not paid':
        return [];
      case 'paid twice':
        return [row, row];
      case 'paid less':
        return [{ ...row, gross: sold - 7 }];
      case 'split':
        return [
          { ...row, gross: part },
          { ...row, gross: sold - part },
        ];
      case 'paid late':
        return [{ ...row, date: row.date + 5 }];
      default:
        return [row];
    }
  });
}

const story = (deeds: readonly Deed[], times: readonly string[], amount = coarse): fc.Arbitrary<Story> =>
  fc
    .record({
      sales: fc.array(amount, { minLength: DAYS, maxLength: DAYS }),
      deeds: fc.array(fc.constantFrom(...deeds), { minLength: DAYS, maxLength: DAYS }),
      lag: fc.integer({ min: 0, max: 2 }),
      time: fc.constantFrom(...times),
      offset: fc.constantFrom(0 as const, 1 as const),
      order: fc.infiniteStream(fc.nat()),
    })
    .map(({ order, lag, ...given }) => {
      const shuffled = rowsOf(given.sales, given.deeds, lag).map((row) => ({ row, key: order.next().value }));
      return { ...given, rows: shuffled.sort((a, b) => a.key - b.key).map(({ row }) => row) };
    });

/** A day of the processor begins at the time of the reads; its name is that of the day it begins, or ends, on. */
function matchStory({ sales, rows, time, offset }: Story, isStated = true): readonly DepositMatch[] {
  let card = 50_000;
  const counters = [0, ...sales].map((sold, i): Counters => {
    card += sold;
    return { at: `${dayText(i)} ${time}`, cash: 1000 * i, card };
  });
  const named = time === '00:05' ? 0 : offset;
  const lines = rows.map(({ day, date, gross, fee }) => {
    const stated = isStated ? `${dayText(day + named)},${dayText(day + named)}` : ',';
    const money = (minor: number): string => (minor / 100).toFixed(2);
    return `A1,${dayText(date + named)},${money(gross)},${money(fee)},${money(gross - fee)},${stated}`;
  });
  const content = ['machine,date,gross,fees,net,period_from,period_to', ...lines].join('\n');
  const sheet = readDeposits({ file: 'd.csv', content }, decimalsFromRoster([], 2));
  const options = { completeFrom: dayText(-9), completeTo: dayText(60) };
  return matchDeposits(intervalsOf(counters), sheet.rows, new Roster(), options).matches;
}

const claim = ({ state, sales, gross, difference, isAtLeast }: DepositMatch): string =>
  `${state} ${sales ?? '-'} ${gross ?? '-'} ${isAtLeast ? '>=' : ''}${difference}`;

/** What is the matter, day by day; days without a payment that follow each other are told together. */
function truthOf({ sales, deeds }: Story): string[] {
  const told: string[] = [];
  let unpaid = 0;
  for (const [day, deed] of [...deeds, 'paid' as const].entries()) {
    const sold = sales[day] ?? 0;
    if (deed === 'not paid') {
      unpaid += sold;
      continue;
    }
    if (unpaid > 0) told.push(`missing ${unpaid} - ${-unpaid}`);
    unpaid = 0;
    if (deed === 'paid twice') told.push(`extra - ${sold} ${sold}`);
    if (deed === 'paid less') told.push(`differing ${sold} ${sold - 7} -7`);
  }
  return told.sort();
}

const amissIn = (matches: readonly DepositMatch[]): string[] =>
  matches
    .filter(({ state }) => state !== 'matched')
    .map(claim)
    .sort();

const RUNS = { numRuns: 150, seed: 1908 };

describe('placing of deposits', () => {
  it('tells each day’s story where days are stated, in whatever order and on whatever date rows come', () => {
    const check = (given: Story): void => {
      expect(amissIn(matchStory(given))).toEqual(truthOf(given));
    };
    fc.assert(fc.property(story(DEEDS, ['00:05'], fc.oneof(coarse, fine)), check), RUNS);
  });

  it('tells missing and doubled payments where reads are taken at another time of day, to the cent', () => {
    const deeds: readonly Deed[] = ['paid', 'paid', 'not paid', 'paid twice', 'split'];
    const check = (given: Story): void => {
      // Days that sold alike can change places where a day may begin or end at any time: then it is not told.
      fc.pre(new Set(given.sales).size === DAYS);
      // The first and the last day have a neighbour on one side only.
      const bounded = { ...given, deeds: given.deeds.map((deed, i) => (i === 0 || i === DAYS - 1 ? 'paid' : deed)) };
      const ends = given.rows.filter(({ day }) => day > 0 && day < DAYS - 1);
      const rows = [
        ...ends,
        ...rowsOf(given.sales, bounded.deeds as Deed[], 0).filter(({ day }) => day === 0 || day === DAYS - 1),
      ];
      const told: Story = { ...bounded, rows } as Story;
      const sum = (all: readonly string[]): number =>
        all.reduce((total, line) => total + Number(line.split(' ').at(-1)), 0);
      const found = amissIn(matchStory(told));
      expect(found.filter((line) => !/^(missing|extra) /.test(line))).toEqual([]);
      expect(sum(found)).toBe(sum(truthOf(told)));
      expect(found).toEqual(truthOf(told));
    };
    fc.assert(fc.property(story(deeds, ['22:00', '14:30', '06:00'], fine), check), RUNS);
  });

  it('gives the same outcome whatever the order of the rows, stated or not', () => {
    const check = (given: Story, isStated: boolean): void => {
      const lines = (rows: readonly Row[]): string[] =>
        matchStory({ ...given, rows }, isStated)
          .map(claim)
          .sort();
      const first = lines(given.rows);
      expect(lines([...given.rows].reverse())).toEqual(first);
      expect(lines([...given.rows].sort((a, b) => a.gross - b.gross))).toEqual(first);
    };
    fc.assert(fc.property(story(DEEDS, ['00:05', '22:00'], fc.oneof(coarse, fine)), fc.boolean(), check), RUNS);
  });

  it('says the whole difference of the sheet where nothing is stated, and no more at once', () => {
    const check = (given: Story): void => {
      const matches = matchStory(given, false);
      const owed = given.sales.reduce((sum, sold) => sum + sold, 0);
      const paid = given.rows.reduce((sum, { gross }) => sum + gross, 0);
      // Open ones are for days outside of the reads, as far as can be told.
      const unsettled = matches.filter(({ state }) => state === 'open');
      const outside = unsettled.reduce((sum, { gross, sales }) => sum + (gross ?? 0) - (sales ?? 0), 0);
      const known = matches.filter(({ difference, isAtLeast }) => difference !== null && !isAtLeast);
      fc.pre(matches.every(({ isAtLeast }) => !isAtLeast));
      expect(known.reduce((sum, { difference }) => sum + difference!, 0) + outside).toBe(paid - owed);
    };
    fc.assert(fc.property(story(DEEDS, ['00:05']), check), RUNS);
  });

  describe('against all ways to choose the rows that pay for a day, tried one by one', () => {
    const someRows = fc.array(fc.integer({ min: 1, max: 4 }), { maxLength: 4 });
    const someDays = fc.array(fc.record({ sold: fc.integer({ min: 1, max: 9 }), paid: someRows }), {
      minLength: 1,
      maxLength: 4,
    });

    /** Every choice of rows that comes to what was sold, with the rows that are over. */
    function choicesOf(sold: number, paid: readonly number[]): number[][][] {
      const choices: number[][][] = [];
      for (let mask = 0; mask < 2 ** paid.length; mask++) {
        const isTaken = (i: number): boolean => Math.floor(mask / 2 ** i) % 2 === 1;
        const taken = paid.filter((_, i) => isTaken(i));
        const over = paid.filter((_, i) => !isTaken(i));
        if (taken.reduce((sum, one) => sum + one, 0) === sold) choices.push([taken, over]);
      }
      return choices;
    }

    it('finds rows paid again wherever the others come to what was sold, and the whole difference everywhere', () => {
      const check = (days: readonly { sold: number; paid: readonly number[] }[]): void => {
        const rows = days.flatMap(({ paid }, day) => paid.map((gross): Row => ({ day, date: day + 1, gross, fee: 0 })));
        const sales = days.map(({ sold }) => sold);
        const matches = matchStory({ sales, deeds: [], rows, time: '00:05', offset: 0 });
        for (const [day, { sold, paid }] of days.entries()) {
          const [start, end] = [dayText(day), dayText(day + 1)];
          const own = matches.filter(({ from, to, deposits }) =>
            from === null ? deposits[0]!.periodFrom === start : from.slice(0, 10) <= start && to!.slice(0, 10) >= end,
          );
          const paidAgain = choicesOf(sold, paid).filter(([taken, over]) => over!.every((one) => taken!.includes(one)));
          const states = own.map(({ state }) => state);
          if (paid.length === 0) {
            expect(states).toEqual(['missing']);
            continue;
          }
          const sum = paid.reduce((total, one) => total + one, 0);
          expect(own.reduce((total, { difference }) => total + difference!, 0)).toBe(sum - sold);
          expect(states).not.toContain('missing');
          if (paidAgain.length === 0) continue;
          expect(own.filter(({ state }) => state === 'matched').map(({ gross }) => gross)).toEqual([sold]);
          expect(states.filter((state) => state === 'extra')).toHaveLength(states.length - 1);
        }
      };
      fc.assert(fc.property(someDays, check), { numRuns: 400, seed: 1909 });
    });
  });
});
