import { describe, expect, it } from 'vitest';
import { compareCrossTotals } from '../../src/interval/cross-total-changes.js';
import { type PairOptions, pairOf } from '../support/interval-cases.js';

const compare = (from: readonly string[], to: readonly string[], options: PairOptions = {}): unknown[] =>
  compareCrossTotals(pairOf(from, to, options)).map(({ severity, message }) => [severity, message]);

/** Vends of the machine and of its only column, at 1.00 each. */
const read = (all: number, column: number): string[] => [
  `VA1*${all * 100}*${column}`,
  'PA1*11',
  `PA2*${column}*${column * 100}`,
];

describe('compareCrossTotals', () => {
  it('has nothing to say where all totals are the sums of their parts', () => {
    expect(compare(read(50, 50), read(60, 60))).toEqual([]);
  });

  it('takes a difference that stays the same for an old scar', () => {
    expect(compare(read(53, 50), read(63, 60))).toEqual([
      [
        'note',
        'The value of all paid vends since initialisation is 3.00 EUR more than the sum of its columns, as at the earlier read: an old scar, not of this interval.',
      ],
    ]);
  });

  it('doubts one that grew in this interval', () => {
    expect(compare(read(53, 50), read(58, 60))).toEqual([
      [
        'doubt',
        expect.stringMatching(
          /is 2\.00 EUR less than the sum of its columns; it was 3\.00 EUR more than at the earlier read, so 5\.00 EUR came about/,
        ),
      ],
    ]);
    expect(compare(read(50, 50), read(61, 60))[0]).toEqual([
      'doubt',
      expect.stringContaining('it was equal to at the'),
    ]);
    expect(compare(read(53, 50), read(60, 60))[0]).toEqual(['doubt', expect.stringContaining('is equal to the sum')]);
  });

  it('tells one by a power of ten: a counter ran past its last digit, and nothing is missing', () => {
    const [from, to] = [read(99_990, 99_990), ['VA1*10000000*2', 'PA1*11', 'PA2*100002*10000000']];
    expect(compare(from, to)).toEqual([
      [
        'note',
        expect.stringMatching(
          /is 100000 less than the sum of its columns: one of the counters ran past its last digit, and nothing is missing/,
        ),
      ],
    ]);
    expect(compare(to, ['VA1*10000500*7', 'PA1*11', 'PA2*100007*10000500'])).toEqual([
      [
        'note',
        expect.stringContaining('an old scar, left by a counter that ran past its last digit, not of this interval'),
      ],
    ]);
  });

  it('takes a power of ten for a roll-over only where a counter did run past its last digit', () => {
    // DA201 200490 -> 300490: "sold 36 for 75.30, of that by card 1022.00".
    const cards = (all: number, cash: number, card: number): string[] => [`VA1*${all}`, `CA2*${cash}`, `DA2*${card}`];
    expect(compare(cards(500_000, 299_510, 200_490), cards(507_530, 304_840, 302_690))).toEqual([
      ['doubt', expect.stringMatching(/1000\.00 EUR came about in this interval/)],
    ]);
    // One that did: from 998.00 to 2.00, of five digits.
    expect(compare(cards(500_000, 400_200, 99_800), cards(500_400, 400_200, 200))).toEqual([
      ['note', expect.stringContaining('ran past its last digit')],
    ]);
    // A scar of 10^k that the read itself does not show to be one.
    expect(compare(cards(600_000, 299_510, 200_490), cards(600_100, 299_610, 200_490))).toEqual([
      ['note', expect.stringContaining('an old scar')],
    ]);
  });

  it('holds test and free vends against their columns', () => {
    const vends = (all: number, column: number, id: 'test' | 'free'): string[] => [
      `${id === 'test' ? 'VA2' : 'VA3'}*${all * 100}*${all}`,
      'PA1*11',
      `${id === 'test' ? 'PA3' : 'PA4'}*${column}*${column * 100}`,
    ];
    for (const id of ['test', 'free'] as const) {
      expect(compare(vends(4, 4, id), vends(6, 6, id))).toEqual([]);
      expect(compare(vends(4, 4, id), vends(4, 9, id))).toEqual([
        [
          'doubt',
          expect.stringContaining(
            `The number of all ${id} vends since initialisation is 5 less than the sum of its columns`,
          ),
        ],
        ['doubt', expect.stringContaining(`The value of all ${id} vends`)],
      ]);
    }
  });

  it('does not tell old from new where the earlier read lacks it', () => {
    expect(compare(['VA1*5000*50'], read(63, 60))).toEqual([
      ['note', expect.stringContaining('whether that is old or new the earlier read does not tell')],
    ]);
  });

  it('holds sums over price lists against their column', () => {
    const lists = (vends: number, listed: number): string[] => [
      ...read(vends, vends),
      `PA7*11*CA*0*100*${listed}*${listed * 100}`,
    ];
    const findings = compareCrossTotals(pairOf(lists(50, 50), lists(60, 59)));
    expect(findings.map(({ severity, column }) => [severity, column])).toEqual([
      ['doubt', '11'],
      ['doubt', '11'],
    ]);
    expect(findings[0]!.message).toContain('(column 11)');
  });

  it('does not blame this interval for what a column that is gone had sold', () => {
    const two = ['VA1*5000*50', 'PA1*11', 'PA2*40*4000', 'PA1*12', 'PA2*10*1000'];
    expect(compare(two, ['VA1*5000*50', 'PA1*11', 'PA2*40*4000'])).toEqual([
      ['note', expect.stringContaining('a column that the earlier read had is gone')],
      ['note', expect.stringContaining('a column that the earlier read had is gone')],
    ]);
  });

  it('looks at lifetime counters only, not across a restart, and not across money', () => {
    expect(
      compare(['VA1*5000*50*9*9', 'PA1*11', 'PA2*50*5000*1*1'], ['VA1*5000*50*9*9', 'PA1*11', 'PA2*50*5000*2*2']),
    ).toEqual([]);
    expect(compare(read(53, 50), [...read(2, 1), 'CB1*B2'])).toEqual([]);
    expect(compare(read(53, 50), [...read(58, 60), 'ID4*0*978*EUR'])).toEqual([]);
  });
});
