import { describe, expect, it } from 'vitest';
import { type ListSales, meaningOf, PaymentLists } from '../../src/interval/payment-lists.js';
import { type PairOptions, pairOf } from '../support/interval-cases.js';

const column = (sold: number, value: number, more: readonly string[] = []): string[] => [
  'VA1*500000*5000',
  'PA1*11*150',
  `PA2*${sold}*${value}*${sold}*${value}`,
  ...more,
];

function salesOf(
  from: readonly string[],
  to: readonly string[],
  options: PairOptions = {},
): [ListSales[] | null, ListSales[] | null] {
  const pair = pairOf(from, to, options);
  const lists = new PaymentLists(pair);
  const sold = pair.columnDifference('11', 'PA201', 'PA203');
  return [lists.byPayments('11', sold), lists.byPriceLists('11', sold)];
}

describe('PaymentLists: PA7', () => {
  it('gives what was sold by device and list, with both prices', () => {
    const [sales] = salesOf(
      column(50, 7500, ['PA7*11*CA*0*150*40*6000', 'PA7*11*DA*3*160*10*1600']),
      column(60, 9050, ['PA7*11*CA*0*155*45*6750', 'PA7*11*DA*3*160*10*1600', 'PA7*11*TA*0*150*2*300']),
    );
    expect(sales).toEqual([
      { list: 'CA/0', count: 5, value: 750, prices: [150, 155] },
      { list: 'TA/0', count: 2, value: 300, prices: [150] },
    ]);
  });

  it('leaves out what a profile calls free or test', () => {
    const profile = { name: 'p', priceLists: { '4': 'free', '5': 'test', '3': 'card' } } as const;
    const lists = (vends: number): string[] =>
      ['0', '3', '4', '5'].map((list) => `PA7*11*CA*${list}*150*${vends}*${vends * 150}`);
    const [sales] = salesOf(column(50, 7500, lists(10)), column(60, 9000, lists(12)), { profile });
    expect(sales!.map(({ list }) => list)).toEqual(['CA/0', 'CA/3']);
  });

  it('adds what a roll-over took, and gives nothing where a list went down', () => {
    const list = (count: number, value: number): string[] => [`PA7*11*CA*0*150*${count}*${value}`];
    const [sales] = salesOf(column(50, 7500, list(9998, 7500)), column(54, 8100, list(2, 8100)));
    expect(sales).toMatchObject([{ count: 4, value: 600 }]);
    expect(salesOf(column(50, 7500, list(50, 7500)), column(54, 8100, list(40, 8100)))[0]).toBeNull();
    const profile = { name: 'p', rollOverDigits: { PA705: 3 } };
    const [stated] = salesOf(column(50, 7500, list(998, 7500)), column(54, 8100, list(2, 8100)), { profile });
    expect(stated).toMatchObject([{ count: 4 }]);
  });

  it('gives nothing where a number or value is missing', () => {
    expect(salesOf(column(50, 7500), column(54, 8100, ['PA7*11*CA*0*150*4']))[0]).toBeNull();
    expect(salesOf(column(50, 7500), column(54, 8100, ['PA7*11*CA*0*150**600']))[0]).toBeNull();
  });

  it('reads interval counters where the column itself is read from them', () => {
    const list = (count: number, value: number): string[] => [
      'PA1*11*150',
      `PA2***${count}*${value}`,
      `PA7*11*CA*0*150***${count}*${value}`,
    ];
    const never = { profile: { name: 'p', resets: 'never' } } as const;
    expect(salesOf(list(5, 750), list(9, 1350), never)[0]).toMatchObject([{ count: 4, value: 600 }]);
    const every = { profile: { name: 'p', resets: 'every-read' } } as const;
    expect(salesOf(list(5, 750), list(3, 450), every)[0]).toMatchObject([{ count: 3, value: 450 }]);
  });

  it('counts from zero after a restart', () => {
    const list = (vends: number): string[] => [`PA7*11*CA*0*150*${vends}*${vends * 150}`];
    const restarted = ['CB1*B2', 'VA1*450*3', 'PA1*11*150', 'PA2*3*450*3*450', ...list(3)];
    expect(salesOf(column(5000, 750_000, list(5000)), restarted)[0]).toMatchObject([{ count: 3, value: 450 }]);
  });

  it('is empty where there are no lists', () => {
    expect(salesOf(column(50, 7500), column(54, 8100))).toEqual([[], []]);
    expect(salesOf(column(50, 7500), ['PA1*12*150', 'PA7*12*CA*0*150*1*150'])[0]).toEqual([]);
  });
});

describe('PaymentLists: LA1', () => {
  it('gives the vends of each list, without values (Saeco Freestanding 400, p. 29)', () => {
    const lists = (normal: number, card: number): string[] => [
      `LA1*0*11*150*0*${normal}`,
      `LA1*3*11*140*0*${card}`,
      'LA1*0*12*90*0*7',
      'LA1*9',
    ];
    const [, sales] = salesOf(column(50, 7500, lists(40, 10)), column(55, 8240, lists(44, 11)));
    expect(sales).toEqual([
      { list: 'LA1/0', count: 4, value: null, prices: [150, 150] },
      { list: 'LA1/3', count: 1, value: null, prices: [140, 140] },
    ]);
  });

  it('reads interval counters where the column itself is read from them', () => {
    const list = (count: number): string[] => ['PA1*11*150', `PA2***${count}*${count * 150}`, `LA1*0*11*150*${count}`];
    expect(salesOf(list(5), list(9), { profile: { name: 'p', resets: 'never' } })[1]).toMatchObject([{ count: 4 }]);
  });
});

describe('PaymentLists: prices', () => {
  const listsOf = (to: readonly string[], options: PairOptions = {}): PaymentLists =>
    new PaymentLists(pairOf([], ['PA1*11*150', ...to], options));
  const cards = { profile: { name: 'p', priceLists: { '0': 'cash', '3': 'card', '5': 'test' } } } as const;

  it('knows what cards pay where the cashless devices agree', () => {
    expect(listsOf(['PA7*11*CA*0*150', 'PA7*11*DA*3*160', 'PA7*11*DB*3*160']).cardPrice('11')).toBe(160);
    expect(listsOf(['PA7*11*DA*0*150', 'PA7*11*DA*3*160']).cardPrice('11')).toBeNull();
    expect(listsOf(['PA7*11*CA*0*150']).cardPrice('11')).toBeNull();
    expect(listsOf([]).cardPrice('11')).toBeNull();
  });

  it('knows it by the lists that a profile calls card lists, also of LA1', () => {
    expect(listsOf(['PA7*11*DA*0*150', 'PA7*11*DA*3*160'], cards).cardPrice('11')).toBe(160);
    expect(listsOf(['LA1*0*11*150', 'LA1*3*11*155'], cards).cardPrice('11')).toBe(155);
    expect(listsOf(['LA1*3*11'], cards).cardPrice('11')).toBeNull();
  });

  it('lists every price of paid lists', () => {
    expect(listsOf(['PA7*11*DA*3*160', 'LA1*0*11*150', 'LA1*3*11', 'LA1*5*11*99'], cards).prices('11')).toEqual([
      160, 150,
    ]);
  });
});

describe('meaningOf', () => {
  it('is what a profile says, and never what an object has by nature', () => {
    const profile = { name: 'p', priceLists: { '3': 'card' } } as const;
    expect([
      meaningOf(profile, '3'),
      meaningOf(profile, '4'),
      meaningOf(null, '3'),
      meaningOf({ name: 'p' }, '3'),
    ]).toEqual(['card', undefined, undefined, undefined]);
    expect(meaningOf(profile, 'toString')).toBeUndefined();
  });
});
