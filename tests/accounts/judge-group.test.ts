import { describe, expect, it } from 'vitest';
import type { CardSales } from '../../src/accounts/card-sales.js';
import { type Group, judgeEqual, judgeRest, judgeSeveral } from '../../src/accounts/judge-group.js';
import type { PlacedDeposit, PlacedSale } from '../../src/accounts/place-stream.js';
import { readDeposits } from '../../src/sheets/index.js';
import { EURO } from '../support/sheet-reading.js';
import { intervalsOf } from './machine-days.js';

const [interval] = intervalsOf([
  { at: '2026-11-16 00:05', card: 1 },
  { at: '2026-11-17 00:05', card: 2 },
]);
const [row] = readDeposits({ file: 'd.csv', content: 'machine,date,gross\nM1,2026-11-17,1' }, EURO).rows;

interface SaleGiven {
  readonly amount: number | null;
  readonly days: readonly [first: number, last: number];
  readonly open?: PlacedSale['open'];
  readonly isRagged?: boolean;
  readonly isFloor?: boolean;
  readonly isCashBookedAsCard?: boolean;
}

function sale({ amount, days: [first, last], open = null, isRagged = false, ...flags }: SaleGiven): PlacedSale {
  const sales: CardSales = {
    interval: interval!,
    amount,
    cashInside: 0,
    isFloor: false,
    isCashBookedAsCard: false,
    ...flags,
  };
  const ends = { beginsRagged: isRagged, endsRagged: isRagged, isNext: false, isProven: false };
  return { sales: [sales], dated: { amount, span: { first, last }, mayBeLeft: null }, open, ...ends };
}

function deposit(
  amount: number,
  [first, last]: readonly [number, number],
  more: { stated?: boolean; left?: 'before' | 'after' } = {},
): PlacedDeposit {
  const periodFrom = (more.stated ?? true) ? '2026-11-01' : null;
  return {
    row: { ...row!, gross: amount, periodFrom },
    dated: { amount, span: { first, last }, mayBeLeft: more.left ?? null, owns: null, equalAfter: 0 },
  };
}

const judge = (group: Group, more: Partial<Group> = {}): string[] => {
  const all = {
    sales: [...group.sales, ...(more.sales ?? [])],
    deposits: [...group.deposits, ...(more.deposits ?? [])],
  };
  return judgeRest(group, all).map(({ sales, deposits, state, reason, difference, isAtLeast }) =>
    [`${sales.length}|${deposits.length}`, state, reason, `${isAtLeast ? '>=' : ''}${difference}`].join(' '),
  );
};

describe('judgeEqual and judgeSeveral', () => {
  const group = (flags: Partial<SaleGiven>): Group => ({
    sales: [sale({ amount: 5, days: [1, 1], ...flags })],
    deposits: [deposit(5, [1, 1])],
  });

  it('match, with what is special about the sales', () => {
    expect(judgeEqual(group({}))).toEqual({ state: 'matched', reason: null, difference: 0, isAtLeast: false });
    expect(judgeEqual(group({ isFloor: true })).reason).toBe('sales-floor');
    expect(judgeEqual(group({ isCashBookedAsCard: true })).reason).toBe('cash-as-card');
  });

  it('choose none of several readings', () => {
    expect(judgeSeveral(group({}))).toMatchObject({ state: 'unclear', reason: 'equally-good', difference: 0 });
    expect(judgeSeveral(group({ amount: null }))).toMatchObject({ state: 'unclear', difference: null });
  });
});

describe('judgeRest', () => {
  it('compares to the cent what is of the same days', () => {
    const one = (paid: number) =>
      judge({ sales: [sale({ amount: 20, days: [1, 1] })], deposits: [deposit(paid, [1, 1])] });
    expect(one(18)).toEqual(['1|1 differing  -2']);
    expect(one(25)).toEqual(['1|1 differing  5']);
    expect(one(20)).toEqual(['1|1 matched in-total 0']);
  });

  it('judges what stands alone by itself, sales in a row with one verdict together', () => {
    const sales = [
      sale({ amount: 1, days: [1, 1], open: 'before-sheet' }),
      sale({ amount: 2, days: [2, 2] }),
      sale({ amount: 3, days: [3, 3] }),
      sale({ amount: null, days: [4, 4] }),
      sale({ amount: 4, days: [5, 5], isFloor: true }),
      sale({ amount: 5, days: [6, 6], isCashBookedAsCard: true }),
      sale({ amount: 6, days: [7, 7], open: 'not-due' }),
    ];
    const deposits = [deposit(9, [20, 20]), deposit(8, [21, 30], { left: 'after' })];
    expect(judge({ sales, deposits })).toEqual([
      '0|1 extra  9',
      '0|1 open outside-reads null',
      '1|0 open before-sheet null',
      '2|0 missing  -5',
      '1|0 unclear sales-not-known null',
      '1|0 missing sales-floor >=-4',
      '1|0 unclear cash-as-card null',
      '1|0 open not-due null',
    ]);
  });

  it('links groups by any day they share', () => {
    const sales = [sale({ amount: 10, days: [1, 1] }), sale({ amount: 20, days: [5, 5] })];
    const apart = [deposit(9, [1, 1]), deposit(21, [5, 5])];
    expect(judge({ sales, deposits: apart })).toEqual(['1|1 differing  -1', '1|1 differing  1']);
    expect(judge({ sales, deposits: [...apart, deposit(5, [1, 5])] })).toEqual(['2|3 differing  5']);
  });

  it('says why where sales are not known', () => {
    const deposits = [deposit(5, [1, 1])];
    expect(judge({ sales: [sale({ amount: null, days: [1, 1] })], deposits })).toEqual([
      '1|1 unclear sales-not-known null',
    ]);
    expect(judge({ sales: [sale({ amount: null, days: [1, 1], isCashBookedAsCard: true })], deposits })).toEqual([
      '1|1 unclear cash-as-card null',
    ]);
    expect(judge({ sales: [sale({ amount: 4, days: [1, 1], isCashBookedAsCard: true })], deposits })).toEqual([
      '1|1 unclear cash-as-card 1',
    ]);
  });

  it('allows for sales beyond the reads, for floors and for what is not due', () => {
    const sales = [sale({ amount: 20, days: [1, 1] })];
    expect(judge({ sales, deposits: [deposit(25, [1, 3], { left: 'after' })] })).toEqual([
      '1|1 open outside-reads null',
    ]);
    expect(judge({ sales, deposits: [deposit(15, [1, 3], { left: 'after' })] })).toEqual(['1|1 differing edges >=-5']);
    const floor = [sale({ amount: 20, days: [1, 1], isFloor: true })];
    expect(judge({ sales: floor, deposits: [deposit(25, [1, 1])] })).toEqual(['1|1 unclear sales-floor 5']);
    expect(judge({ sales: floor, deposits: [deposit(15, [1, 1])] })).toEqual(['1|1 differing edges >=-5']);
    const unstated = deposit(25, [0, 4], { stated: false });
    const later = [sale({ amount: 20, days: [1, 1] }), sale({ amount: 10, days: [2, 2], open: 'not-due' })];
    expect(judge({ sales: later, deposits: [unstated] })).toEqual(['2|1 open not-due null']);
    expect(judge({ sales: later, deposits: [deposit(12, [0, 4], { stated: false })] })).toEqual([
      '2|1 differing edges >=-8',
    ]);
  });

  it('claims nothing that sales ending inside of a day can explain', () => {
    const ragged = sale({ amount: 20, days: [1, 2], isRagged: true });
    expect(judge({ sales: [ragged], deposits: [deposit(15, [2, 2])] })).toEqual(['1|1 unclear edges -5']);
    expect(judge({ sales: [ragged], deposits: [deposit(25, [2, 2])] })).toEqual(['1|1 differing edges >=5']);
    // Of the neighbours, matched with others, a part may belong here.
    const other = sale({ amount: 7, days: [2, 3], isRagged: true });
    const group = { sales: [ragged], deposits: [deposit(25, [2, 2])] };
    expect(judge(group, { sales: [other] })).toEqual(['1|1 unclear edges 5']);
    expect(judge(group, { sales: [{ ...other, dated: { ...other.dated, amount: null } }] })).toEqual([
      '1|1 unclear edges 5',
    ]);
    expect(judge(group, { sales: [sale({ amount: 7, days: [2, 2] })] })).toEqual(['1|1 differing edges >=5']);
    const within = { sales: [sale({ amount: 20, days: [1, 2], isRagged: true })], deposits: [deposit(15, [1, 2])] };
    expect(judge(within)).toEqual(['1|1 differing  -5']);
    expect(judge(within, { deposits: [deposit(5, [2, 3])] })).toEqual(['1|1 unclear edges -5']);
    expect(judge({ sales: [ragged], deposits: [] }, { deposits: [deposit(5, [2, 3])] })).toEqual([
      '1|0 unclear edges -20',
    ]);
    expect(judge({ sales: [ragged], deposits: [] })).toEqual(['1|0 missing  -20']);
    expect(judge({ sales: [], deposits: [deposit(5, [2, 3])] }, { sales: [ragged] })).toEqual(['0|1 unclear edges 5']);
  });
});
