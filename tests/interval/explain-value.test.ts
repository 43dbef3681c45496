import { describe, expect, it } from 'vitest';
import { explainValue } from '../../src/interval/explain-value.js';
import { PaymentLists } from '../../src/interval/payment-lists.js';
import { type PairOptions, pairOf } from '../support/interval-cases.js';

interface Case {
  /** Vends, their value and the discounts on them, since a read at which 100 vends had brought 150.00. */
  readonly sold: number;
  readonly value: number;
  readonly discounts?: number | '';
  readonly prices?: readonly [from: number | '', to: number | ''];
  /** List lines at the earlier and at the later read. */
  readonly lists?: readonly [from: readonly string[], to: readonly string[]];
  readonly cardPlan?: number;
  readonly options?: PairOptions;
}

function explain({ sold, value, discounts, prices = [150, 150], lists = [[], []], cardPlan, options = {} }: Case) {
  const given = (extra: number): string => (discounts === undefined ? '' : `***3*${200 + extra}`);
  const later = discounts === '' ? '***3' : given(discounts ?? 0);
  const pair = pairOf(
    ['VA1*900000*9000', `PA1*11*${prices[0]}`, `PA2*100*15000${given(0)}`, ...lists[0]],
    ['VA1*900900*9009', `PA1*11*${prices[1]}`, `PA2*${100 + sold}*${15_000 + value}${later}`, ...lists[1]],
    options,
  );
  const [priceFrom, priceTo] = [pair.from, pair.to].map(({ read }) => read.column('11')!.price);
  return explainValue(
    {
      column: '11',
      sold: pair.columnDifference('11', 'PA201', 'PA203'),
      value: pair.columnDifference('11', 'PA202', 'PA204'),
      discounts: pair.columnDifference('11', 'PA206', 'PA208'),
      prices: { priceFrom: priceFrom!, priceTo: priceTo! },
      cardPlan: cardPlan ?? null,
    },
    new PaymentLists(pair),
  );
}

/** Lines of PA7 as they stood, and after some vends more: list, prices before and after, vends, their value. */
function payments(
  ...moves: readonly (readonly [list: string, from: number, to: number, count: number, value: number])[]
) {
  const from = moves.map(([list, price]) => `PA7*11*${list}*${price}*50*7500`);
  const to = moves.map(([list, , price, count, value]) => `PA7*11*${list}*${price}*${50 + count}*${7500 + value}`);
  return [from, to] as const;
}

/** Lines of LA1, in the same way; they have no values. */
function priceLists(...moves: readonly (readonly [list: string, from: number, to: number, count: number])[]) {
  const from = moves.map(([list, price]) => `LA1*${list}*11*${price}*0*50`);
  const to = moves.map(([list, , price, count]) => `LA1*${list}*11*${price}*0*${50 + count}`);
  return [from, to] as const;
}

describe('explainValue: by prices', () => {
  it('explains vends at one price or two', () => {
    expect(explain({ sold: 4, value: 600 })).toEqual({ shares: [{ count: 4, price: 150 }], unexplained: 0 });
    expect(explain({ sold: 12, value: 1850, prices: [150, 160] })!.shares).toEqual([
      { count: 7, price: 150 },
      { count: 5, price: 160 },
    ]);
    expect(explain({ sold: 0, value: 0 })).toEqual({ shares: [], unexplained: 0 });
  });

  it('names what they do not explain', () => {
    expect(explain({ sold: 4, value: 590 })).toEqual({ shares: [], unexplained: -10 });
    expect(explain({ sold: 0, value: 150 })).toEqual({ shares: [], unexplained: 150 });
  });

  it('says nothing without a price', () => {
    expect(explain({ sold: 4, value: 600, prices: ['', ''] })).toBeNull();
    expect(explain({ sold: 0, value: 0, prices: ['', ''] })).toBeNull();
    expect(explain({ sold: 4, value: 600, prices: ['', 150] })!.unexplained).toBe(0);
  });
});

describe('explainValue: discounts (counters are net of them, from memory)', () => {
  it('puts them back', () => {
    expect(explain({ sold: 4, value: 580, discounts: 20 })).toEqual({
      shares: [{ count: 4, price: 150 }],
      unexplained: 0,
    });
    // 4 × 150 less 40 is also 3 × 140 and 1 × 140: the discounts decide, not the chance.
    expect(explain({ sold: 4, value: 560, discounts: 40, prices: [150, 140] })!.shares).toEqual([
      { count: 4, price: 150 },
    ]);
  });

  it('names what is left besides them', () => {
    expect(explain({ sold: 4, value: 570, discounts: 20 })).toEqual({ shares: [], unexplained: -10 });
  });

  it('does not judge a rest that may be discounts, where they are not known', () => {
    expect(explain({ sold: 4, value: 580, discounts: '' })).toBeNull();
    expect(explain({ sold: 4, value: 600, discounts: '' })!.unexplained).toBe(0);
    const lost = pairOf(
      ['PA1*11*150', 'PA2*100*15000***3*200', 'VA1*1*1'],
      ['PA1*11*150', 'PA2*104*15580***3', 'VA1*1*1'],
    );
    const sales = {
      column: '11',
      sold: lost.columnDifference('11', 'PA201', 'PA203'),
      value: lost.columnDifference('11', 'PA202', 'PA204'),
      discounts: lost.columnDifference('11', 'PA206', 'PA208'),
      prices: { priceFrom: 150, priceTo: 150 },
      cardPlan: null,
    };
    expect(sales.discounts.why).toBe('absent-now');
    expect(explainValue(sales, new PaymentLists(lost))).toBeNull();
    const floor = { ...sales, discounts: { ...sales.discounts, value: 20, floor: true } };
    expect(explainValue(floor, new PaymentLists(lost))).toBeNull();
    expect(explainValue({ ...sales, value: { ...sales.value, floor: true } }, new PaymentLists(lost))).toBeNull();
    expect(explainValue({ ...sales, value: { ...sales.value, basis: 'interval' } }, new PaymentLists(lost))).toBeNull();
    expect(explainValue({ ...sales, value: { ...sales.value, value: null } }, new PaymentLists(lost))).toBeNull();
    const huge = { ...sales.discounts, value: Number.MAX_SAFE_INTEGER };
    expect(explainValue({ ...sales, discounts: huge }, new PaymentLists(lost))).toBeNull();
  });
});

describe('explainValue: by PA7', () => {
  it('splits by payment device and price list', () => {
    expect(
      explain({ sold: 5, value: 770, lists: payments(['CA*0', 150, 150, 3, 450], ['DA*3', 160, 160, 2, 320]) }),
    ).toEqual({
      shares: [
        { count: 3, price: 150, list: 'CA/0' },
        { count: 2, price: 160, list: 'DA/3' },
      ],
      unexplained: 0,
    });
  });

  it('splits each list by its own two prices', () => {
    const lists = payments(['CA*0', 150, 155, 3, 455], ['DA*3', 160, 165, 2, 325]);
    expect(explain({ sold: 5, value: 780, prices: [150, 155], lists })!.shares).toHaveLength(4);
  });

  it('does not believe lists that do not add up to the column', () => {
    const lists = payments(['CA*0', 150, 150, 3, 450]);
    expect(explain({ sold: 5, value: 770, lists })).toEqual({ shares: [], unexplained: 20 });
    const values = payments(['CA*0', 150, 150, 3, 450], ['DA*3', 160, 160, 2, 310]);
    expect(explain({ sold: 5, value: 770, lists: values })!.shares.some(({ list }) => list !== undefined)).toBe(false);
  });

  it('names what the prices of the lists do not explain', () => {
    const lists = payments(['CA*0', 150, 150, 3, 450], ['DA*3', 160, 160, 2, 305]);
    expect(explain({ sold: 5, value: 755, lists })).toEqual({ shares: [], unexplained: -15 });
  });

  it('puts discounts back over all lists', () => {
    const lists = payments(['CA*0', 150, 150, 3, 440], ['DA*3', 160, 160, 2, 310]);
    expect(explain({ sold: 5, value: 750, discounts: 20, lists })!.shares).toEqual([
      { count: 3, price: 150, list: 'CA/0' },
      { count: 2, price: 160, list: 'DA/3' },
    ]);
    expect(explain({ sold: 5, value: 750, discounts: 25, lists })).toEqual({ shares: [], unexplained: 5 });
  });

  it('finds the one solution where one list changed its price and discounts were given', () => {
    const lists = payments(['CA*0', 150, 155, 3, 445], ['DA*3', 160, 160, 2, 310]);
    expect(explain({ sold: 5, value: 755, discounts: 20, prices: [150, 155], lists })!.shares).toEqual([
      { count: 2, price: 160, list: 'DA/3' },
      { count: 2, price: 150, list: 'CA/0' },
      { count: 1, price: 155, list: 'CA/0' },
    ]);
    expect(
      explain({
        sold: 5,
        value: 756,
        discounts: 20,
        prices: [150, 155],
        lists: payments(['CA*0', 150, 155, 3, 446], ['DA*3', 160, 160, 2, 310]),
      })!.unexplained,
    ).toBe(1);
  });

  it('shows only that the money can be explained where several lists changed by the same step', () => {
    const lists = payments(['CA*0', 150, 155, 3, 445], ['DA*3', 160, 165, 2, 310]);
    expect(explain({ sold: 5, value: 755, discounts: 25, prices: [150, 155], lists })).toEqual({
      shares: [],
      unexplained: 0,
    });
    expect(explain({ sold: 5, value: 755, discounts: 27, prices: [150, 155], lists })).toEqual({
      shares: [],
      unexplained: 2,
    });
  });

  it('judges nothing by lists that changed by different steps', () => {
    const lists = payments(['CA*0', 150, 155, 3, 445], ['DA*3', 160, 170, 2, 310]);
    expect(explain({ sold: 5, value: 755, discounts: 27, prices: [150, 155], lists })!.unexplained).toBe(7);
  });

  it('says nothing by a list without a price', () => {
    const bare = [['PA7*11*CA*0**50*7500'], ['PA7*11*CA*0**54*8100']] as const;
    expect(explain({ sold: 4, value: 600, lists: bare })!.shares).toEqual([{ count: 4, price: 150 }]);
    expect(explain({ sold: 4, value: 580, discounts: 20, lists: bare })!.shares).toEqual([{ count: 4, price: 150 }]);
  });
});

describe('explainValue: by LA1', () => {
  it('takes vends at the price of each list, if they come to the value', () => {
    expect(explain({ sold: 5, value: 770, lists: priceLists(['0', 150, 150, 3], ['3', 160, 160, 2]) })!.shares).toEqual(
      [
        { count: 3, price: 150, list: 'LA1/0' },
        { count: 2, price: 160, list: 'LA1/3' },
      ],
    );
  });

  it('leaves a number too large to be kept alone', () => {
    const lists = priceLists(['0', Number.MAX_SAFE_INTEGER, Number.MAX_SAFE_INTEGER, 5]);
    expect(explain({ sold: 5, value: 770, lists })!.unexplained).toBe(20);
  });
});

describe('explainValue: by one more price that is known', () => {
  it('takes the card price of the plan', () => {
    expect(explain({ sold: 5, value: 770, cardPlan: 160 })!.shares).toEqual([
      { count: 2, price: 160 },
      { count: 3, price: 150 },
    ]);
    expect(explain({ sold: 5, value: 765, cardPlan: 160 })!.unexplained).toBe(15);
  });

  it('takes the price of a list that does not add up', () => {
    const lists = priceLists(['0', 150, 150, 3], ['3', 160, 160, 4]);
    expect(explain({ sold: 5, value: 770, lists })!.shares).toHaveLength(2);
  });

  it('takes none where two would do, or the price changed as well', () => {
    const lists = priceLists(['1', 0, 160, 9], ['2', 0, 170, 9]);
    expect(explain({ sold: 5, value: 770, lists })!.unexplained).toBe(20);
    expect(explain({ sold: 5, value: 790, cardPlan: 170, prices: [150, 155] })!.unexplained).toBe(15);
  });
});
