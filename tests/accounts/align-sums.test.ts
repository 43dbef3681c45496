import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type AlignedPart, alignSums, type Dated, type DatedDeposit } from '../../src/accounts/align-sums.js';

/** Amounts of one day each, day by day from 1; null is not known. */
const daily = (...amounts: readonly (number | null)[]): Dated[] =>
  amounts.map((amount, i) => ({ amount, span: { first: i + 1, last: i + 1 }, mayBeLeft: null }));

/** A deposit that can pay for sales of the days from `first` to `last`. */
const paid = (amount: number, first: number, last: number, mayBeLeft: Dated['mayBeLeft'] = null): DatedDeposit => ({
  amount,
  span: { first, last },
  mayBeLeft,
  owns: null,
  equalAfter: 0,
});

const show = (parts: readonly AlignedPart[]): string =>
  parts.map(({ kind, sales, deposits }) => `${kind} ${sales.join('-')}|${deposits.join('-')}`).join(', ');

const align = (sales: readonly Dated[], deposits: readonly DatedDeposit[]): string => show(alignSums(sales, deposits));

describe('alignSums', () => {
  it('puts each amount with its own, whatever the delay within its days', () => {
    const deposits = [paid(10, 1, 4), paid(25, 1, 5), paid(7, 1, 6)];
    expect(align(daily(10, 25, 7), deposits)).toBe('equal 0-1|0-1, equal 1-2|1-2, equal 2-3|2-3');
  });

  it('puts several with one, in either direction', () => {
    expect(align(daily(10, 25, 7), [paid(42, 1, 3)])).toBe('equal 0-3|0-1');
    const week: Dated = { amount: 42, span: { first: 1, last: 7 }, mayBeLeft: null };
    expect(align([week], [paid(10, 1, 2), paid(25, 1, 5), paid(7, 5, 9)])).toBe('equal 0-1|0-3');
  });

  it('has nothing to say of nothing', () => {
    expect(align([], [])).toBe('');
    expect(align(daily(5), [])).toBe('rest 0-1|0-0');
    expect(align([], [paid(5, 1, 3), paid(6, 1, 3)])).toBe('rest 0-0|0-2');
  });

  it('leaves what does not fit between what does', () => {
    expect(align(daily(10, 20, 30), [paid(10, 1, 2), paid(18, 2, 3), paid(30, 3, 4)])).toBe(
      'equal 0-1|0-1, rest 1-2|1-2, equal 2-3|2-3',
    );
    expect(align(daily(10, 20, 30), [paid(10, 1, 2), paid(30, 1, 4)])).toBe(
      'equal 0-1|0-1, rest 1-2|1-1, equal 2-3|1-2',
    );
    expect(align(daily(10, 30), [paid(10, 1, 2), paid(20, 2, 3), paid(30, 2, 3)])).toBe(
      'equal 0-1|0-1, rest 1-1|1-2, equal 1-2|2-3',
    );
  });

  it('puts equal amounts together only where they have a day in common', () => {
    expect(align(daily(10), [paid(10, 2, 5)])).toBe('rest 0-1|0-1');
    // Together they have one, but the second deposit pays for nothing of its days.
    expect(align(daily(10, 20), [paid(25, 1, 2), paid(5, 1, 1)])).toBe('rest 0-2|0-2');
  });

  it('does not choose between two readings that are equally good', () => {
    expect(align(daily(10, 10), [paid(10, 1, 3)])).toBe('several 0-2|0-1');
    expect(align(daily(10), [paid(10, 1, 3), paid(10, 1, 3)])).toBe('several 0-1|0-2');
    expect(align(daily(3, 10, 10, 4), [paid(3, 1, 1), paid(10, 2, 3), paid(4, 4, 4)])).toBe(
      'equal 0-1|0-1, several 1-3|1-2, equal 3-4|2-3',
    );
  });

  it('chooses where one of two is expected to be left', () => {
    const [first, second] = daily(10, 10);
    expect(align([first!, { ...second!, mayBeLeft: 'after' }], [paid(10, 1, 3)])).toBe('equal 0-1|0-1, rest 1-2|1-1');
    expect(align(daily(10), [paid(10, 1, 3, 'before'), paid(10, 1, 3)])).toBe('rest 0-0|0-1, equal 0-1|1-2');
    // But rather than leave it, it is paid.
    expect(align([{ ...first!, mayBeLeft: 'after' }], [paid(10, 1, 3, 'before')])).toBe('equal 0-1|0-1');
  });

  it('leaves over what is nearest to the end beyond which its counterpart may lie', () => {
    const all = (mayBeLeft: Dated['mayBeLeft']) => daily(10, 10, 10).map((each) => ({ ...each, mayBeLeft }));
    const deposits = [paid(10, 1, 3), paid(10, 1, 3)];
    expect(align(all('after'), deposits)).toBe('equal 0-1|0-1, equal 1-2|1-2, rest 2-3|2-2');
    expect(align(all('before'), deposits)).toBe('rest 0-1|0-0, equal 1-2|0-1, equal 2-3|1-2');
    expect(align(all('either'), deposits)).toBe('several 0-3|0-2');
    expect(align(all(null), deposits)).toBe('several 0-3|0-2');
  });

  it('takes amounts that are not known into no sum', () => {
    expect(align(daily(10, null, 20), [paid(10, 1, 3), paid(20, 1, 3)])).toBe(
      'equal 0-1|0-1, rest 1-2|1-1, equal 2-3|1-2',
    );
    expect(align(daily(10, null, 20), [paid(30, 1, 3)])).toBe('rest 0-3|0-1');
  });

  it('lets a deposit stand for all sales that are its own, or for none', () => {
    const owner = (amount: number, from: number, to: number): DatedDeposit => ({
      ...paid(amount, 1, 3),
      owns: [from, to],
    });
    expect(align(daily(10, 10, 5), [owner(20, 0, 2), paid(5, 3, 3)])).toBe('equal 0-2|0-1, equal 2-3|1-2');
    expect(align(daily(10, 10, 5), [owner(10, 0, 2), paid(5, 3, 3)])).toBe('rest 0-2|0-1, equal 2-3|1-2');
    expect(align(daily(10, 10, 5), [owner(10, 1, 2)])).toBe('rest 0-1|0-0, equal 1-2|0-1, rest 2-3|1-1');
    expect(align(daily(10, null, 5), [owner(10, 0, 2), paid(5, 3, 3)])).toBe('rest 0-2|0-1, equal 2-3|1-2');
  });

  it('is quick over years of days', () => {
    const days = Array.from({ length: 1000 }, (_, i) => 100 + ((i * 7919) % 1000));
    const deposits = days.map((amount, i) => paid(amount, i, i + 3));
    expect(alignSums(daily(...days), deposits)).toHaveLength(1000);
  });

  describe('against all readings, tried one by one', () => {
    interface Reading {
      readonly cost: readonly [wrong: number, left: number, fewerParts: number, fromEnd: number, equalAfter: number];
      readonly places: readonly string[];
      readonly parts: string;
    }

    /** Every reading from a place on: sums that meet, or a run of left-over sales and then deposits, by plain recursion. */
    function readings(
      sales: readonly Dated[],
      deposits: readonly DatedDeposit[],
      s = 0,
      d = 0,
      mayLeaveSale = true,
    ): Reading[] {
      if (s === sales.length && d === deposits.length)
        return [{ cost: [0, 0, 0, 0, 0], places: [`${s}|${d}`], parts: '' }];
      const found: Reading[] = [];
      const add = (rest: Reading[], cost: Reading['cost'], part: string): void => {
        for (const one of rest) {
          found.push({
            cost: one.cost.map((level, i) => level + cost[i]!) as unknown as Reading['cost'],
            places: [`${s}|${d}`, ...one.places],
            parts: `${part}, ${one.parts}`,
          });
        }
      };
      const leave = (all: readonly Dated[], index: number): Reading['cost'] => {
        const { amount, mayBeLeft } = all[index]!;
        const fromEnd = mayBeLeft === 'before' ? index : mayBeLeft === 'after' ? all.length - 1 - index : 0;
        const { equalAfter = 0 } = all[index] as Partial<DatedDeposit>;
        return amount === null ? [0, 0, 0, 0, 0] : [mayBeLeft === null ? 1 : 0, 1, 0, fromEnd, equalAfter];
      };
      for (let toSale = s + 1; toSale <= sales.length; toSale++) {
        for (let toDeposit = d + 1; toDeposit <= deposits.length; toDeposit++) {
          const isOwn = deposits
            .slice(d, toDeposit)
            .every(({ owns }) => owns === null || (owns[0] >= s && owns[1] <= toSale));
          if (isOwn && fits(sales.slice(s, toSale), deposits.slice(d, toDeposit))) {
            add(
              readings(sales, deposits, toSale, toDeposit),
              [0, 0, -1, 0, 0],
              `equal ${s}-${toSale}|${d}-${toDeposit}`,
            );
          }
        }
      }
      if (mayLeaveSale && s < sales.length) add(readings(sales, deposits, s + 1, d), leave(sales, s), 'left');
      if (d < deposits.length) add(readings(sales, deposits, s, d + 1, false), leave(deposits, d), 'left');
      return found;
    }

    /** Whether the sums are equal and, coin by coin in order, every coin's sale and deposit have a day in common. */
    function fits(sales: readonly Dated[], deposits: readonly Dated[]): boolean {
      if (sales.some(({ amount }) => amount === null)) return false;
      const coins = (all: readonly Dated[]) =>
        all.flatMap((one) => Array.from({ length: one.amount! }, () => one.span));
      const [sold, given] = [coins(sales), coins(deposits)];
      return (
        sold.length === given.length &&
        sold.every((span, i) => span.first <= given[i]!.last && given[i]!.first <= span.last)
      );
    }

    const compare = (a: Reading, b: Reading): number =>
      a.cost[0] - b.cost[0] ||
      a.cost[1] - b.cost[1] ||
      a.cost[2] - b.cost[2] ||
      a.cost[3] - b.cost[3] ||
      a.cost[4] - b.cost[4];

    const span = fc.tuple(fc.integer({ min: 1, max: 4 }), fc.integer({ min: 0, max: 2 })).map(([first, length]) => ({
      first,
      last: first + length,
    }));
    const mayBeLeft = fc.constantFrom('before' as const, 'after' as const, 'either' as const, null, null);
    const amount = fc.integer({ min: 1, max: 4 });
    const soldAmount = fc.oneof({ weight: 9, arbitrary: amount }, fc.constant(null));
    const someSales = fc.array(fc.record({ amount: soldAmount, span, mayBeLeft }), { maxLength: 4 });
    const someDeposits = fc.array(
      fc.record({ amount, span, mayBeLeft, isOwner: fc.boolean(), equalAfter: fc.nat(2) }),
      { maxLength: 4 },
    );

    /** As deposits with stated days own sales: those within their days and of the days of no other deposit. */
    const findOwns = (
      sales: readonly Dated[],
      deposits: readonly (Omit<DatedDeposit, 'owns'> & { isOwner: boolean })[],
    ) =>
      deposits.map((deposit): DatedDeposit => {
        const meets = (other: Dated, sale: Dated) =>
          other.span.first <= sale.span.last && sale.span.first <= other.span.last;
        const own = sales.flatMap((sale, i) => {
          const isWithin = sale.span.first >= deposit.span.first && sale.span.last <= deposit.span.last;
          return deposit.isOwner && isWithin && deposits.filter((other) => meets(other, sale)).length === 1 ? [i] : [];
        });
        return { ...deposit, owns: own.length === 0 ? null : [own[0]!, own.at(-1)! + 1] };
      });
    const both = fc
      .tuple(someSales, someDeposits)
      .map(([sales, deposits]) => [sales, findOwns(sales, deposits)] as const);

    it('finds the sums that all best readings have, and no other', () => {
      fc.assert(
        fc.property(both, ([sales, deposits]) => {
          const all = readings(sales, deposits).sort(compare);
          const best = all.filter((one) => compare(one, all[0]!) === 0);
          const inAll = [...new Set(best[0]!.parts.split(', '))].filter(
            (part) => part.startsWith('equal') && best.every(({ parts }) => parts.split(', ').includes(part)),
          );
          const parts = alignSums(sales, deposits);
          expect(parts.filter(({ kind }) => kind === 'equal').map((part) => show([part]))).toEqual(inAll);
          expect(parts.some(({ kind }) => kind === 'several')).toBe(best.length > 1);
          // What is not chosen lies between places that all best readings pass.
          for (const { sales: s, deposits: d } of parts) {
            if (parts.some((other) => other.kind === 'rest')) continue;
            expect(
              best.every(({ places }) => places.includes(`${s[0]}|${d[0]}`) && places.includes(`${s[1]}|${d[1]}`)),
            ).toBe(true);
          }
        }),
        { numRuns: 1000 },
      );
    });

    it('gives every amount to one part, in order', () => {
      fc.assert(
        fc.property(both, ([sales, deposits]) => {
          const parts = alignSums(sales, deposits);
          for (const name of ['sales', 'deposits'] as const) {
            const runs = parts.map((part) => part[name]);
            expect(runs.flatMap(([from, to]) => Array.from({ length: to - from }, (_, i) => from + i))).toEqual(
              (name === 'sales' ? sales : deposits).map((_, i) => i),
            );
          }
          for (const { kind, sales: s, deposits: d } of parts) {
            if (kind !== 'equal') continue;
            const sum = (all: readonly Dated[]): number => all.reduce((total, { amount }) => total + amount!, 0);
            expect(sum(sales.slice(...s))).toBe(sum(deposits.slice(...d)));
          }
        }),
      );
    });
  });
});
