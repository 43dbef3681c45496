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
