import { describe, expect, it } from 'vitest';
import { intervalOf, type PairOptions } from '../support/interval-cases.js';

/** A machine that keeps the first card device's sales since the last reset alone (DA203), read with no other read between. */
const read = (all: number, cash: number, card: number, reads: number): string[] => [
  `VA1*${all * 100}*${all}*${all * 100}*${all}`,
  `CA2*${cash * 100}*${cash}*${cash * 100}*${cash}`,
  `DA2***${card * 100}*${card}`,
  'PA1*11*100',
  `PA2*${all}*${all * 100}*${all}*${all * 100}`,
  `EA3*********${reads}*0`,
];
const NEVER: PairOptions = { profile: { name: 'p', resets: 'never' } };
const doubts = (from: string[], to: string[], options: PairOptions = NEVER): string[] =>
  intervalOf(from, to, options)
    .findings.filter(({ code, severity }) => code === 'cross-total' && severity === 'doubt')
    .map(({ message }) => message);

describe('judgeMovedTotals (domain rule: VA103 = CA203 + DA203 + DB203 where interval counters are the fallback)', () => {
  it('has nothing to say where they add up', () => {
    expect(doubts(read(50, 30, 20, 4), read(60, 36, 24, 5))).toEqual([]);
  });

  it('doubts card sales by interval counters that all sales do not bear out', () => {
    const changed = read(60, 36, 24, 5).map((segment) => (segment.startsWith('DA2') ? 'DA2***3400*24' : segment));
    expect(doubts(read(50, 30, 20, 4), changed)).toEqual([
      expect.stringMatching(
        /^The value of all paid vends rose by 10\.00 EUR, cash, cashless and token sales by 20\.00 EUR; /,
      ),
      expect.stringMatching(/^Card sales rose by 14\.00 EUR, all sales by 10\.00 EUR only/),
    ]);
  });

  it('doubts columns by interval counters likewise, the number too', () => {
    const bare = (all: number, column: number): string[] => [
      `VA1*${all * 100}*${all}`,
      'PA1*11*100',
      `PA2***${column}*${column * 100}`,
    ];
    expect(doubts(bare(50, 5), bare(60, 15))).toEqual([]);
    expect(doubts(bare(50, 5), bare(60, 16))).toEqual([
      expect.stringContaining('its columns by 11.00 EUR'),
      expect.stringMatching(/^The number of all paid vends rose by 10, its columns by 11;/),
    ]);
  });

  it('asks of the least that it is not more than a total known in full', () => {
    const open: PairOptions = {};
    const reset = (all: number, card: number, reads: number, resets: number): string[] => [
      `VA1*${all * 100}*${all}`,
      `DA2***${card * 100}*${card}`,
      `EA3*********${reads}*${resets}`,
    ];
    expect(doubts(reset(50, 5, 4, 1), reset(60, 3, 7, 4), open)).toEqual([]);
    expect(doubts(reset(50, 5, 4, 1), reset(60, 13, 7, 4), open)[0]).toContain('by at least 13.00 EUR');
  });
});

describe('judgeMovedTotals: test and free vends (domain rule: Σ PA3 = VA2 and Σ PA4 = VA3, lifetime and interval)', () => {
  const KINDS = [
    ['test', 'VA2', 'PA3'],
    ['free', 'VA3', 'PA4'],
  ] as const;
  const COLUMN = ['PA1*11*100', 'PA2*50*5000'];

  it.each(KINDS)('doubts %s vends that one of the two does not have', (what, all, column) => {
    const unpaid = (inAll: number, inColumn: number): string[] => [
      'VA1*5000*50',
      `${all}*${inAll * 100}*${inAll}`,
      ...COLUMN,
      `${column}*${inColumn}*${inColumn * 100}`,
    ];
    expect(doubts(unpaid(4, 4), unpaid(9, 9))).toEqual([]);
    // An old scar is no matter of this interval.
    expect(doubts(unpaid(6, 4), unpaid(11, 9))).toEqual([]);
    for (const changed of [unpaid(8, 9), unpaid(9, 8)]) {
      const found = doubts(unpaid(4, 4), changed);
      expect(found).toHaveLength(2);
      for (const message of found) expect(message).toContain(`all ${what} vends since initialisation`);
    }
  });

  it.each(KINDS)('holds %s vends by counters since the last reset against each other, too', (what, all, column) => {
    const unpaid = (inAll: number, inColumn: number): string[] => [
      'VA1*5000*50',
      `${all}***${inAll * 100}*${inAll}`,
      ...COLUMN,
      `${column}***${inColumn}*${inColumn * 100}`,
      'EA3*********4*0',
    ];
    expect(doubts(unpaid(4, 4), unpaid(9, 9))).toEqual([]);
    expect(doubts(unpaid(4, 4), unpaid(9, 8))).toEqual([
      `The value of all ${what} vends rose by 5.00 EUR, its columns by 4.00 EUR; some of these are counters since the last reset, which nothing else bears out.`,
      `The number of all ${what} vends rose by 5, its columns by 4; some of these are counters since the last reset, which nothing else bears out.`,
    ]);
  });

  it.each(KINDS)(
    'holds the first %s vends of all against each other, where none stood at 0 before',
    (_, all, column) => {
      const before = ['VA1*5000*50', `${all}*0*0`, ...COLUMN];
      const after = (inAll: number, inColumn: number): string[] => [
        'VA1*5000*50',
        `${all}*${inAll * 100}*${inAll}`,
        ...COLUMN,
        `${column}*${inColumn}*${inColumn * 100}`,
      ];
      expect(doubts(before, after(2, 2))).toEqual([]);
      expect(doubts(before, after(2, 3))).toHaveLength(2);
    },
  );

  it.each(KINDS)('takes %s vends that are counted in all alone for no difference', (_, all) => {
    const inAll = (count: number): string[] => ['VA1*5000*50', `${all}*${count * 100}*${count}`, ...COLUMN];
    expect(doubts(inAll(0), inAll(2))).toEqual([]);
    expect(doubts(inAll(2), inAll(5))).toEqual([]);
  });
});

describe('judgeCardShare', () => {
  it('doubts more card sales than sales, whatever explains the totals', () => {
    const one = (all: number, cash: number, card: number): string[] => [
      `VA1*${all}*100`,
      `CA2*${cash}*50`,
      `DA2*${card}*50`,
    ];
    const found = doubts(one(500_000, 299_510, 200_490), one(507_530, 307_040, 300_490));
    expect(found).toContainEqual(
      expect.stringMatching(/^Card sales rose by 1000\.00 EUR, all sales by 75\.30 EUR only/),
    );
    expect(doubts(one(500_000, 299_510, 200_490), one(507_530, 303_040, 204_490))).toEqual([]);
  });
});
