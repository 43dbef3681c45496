import { describe, expect, it } from 'vitest';
import { sortIntoStreams } from '../../src/accounts/card-streams.js';
import { readDeposits } from '../../src/sheets/index.js';
import { EURO } from '../support/sheet-reading.js';
import { type Counters, intervalsOf, rosterOf } from './machine-days.js';

const roster = rosterOf('machine,asset,location,currency\nM1,A1,Hall,EUR\nM2,A2,Yard,EUR');
const two: Counters[] = [
  { at: '2026-11-16 00:05', card: 100, card2: 1000, device: 'CR-1', device2: 'CR-2' },
  { at: '2026-11-17 00:05', card: 150, card2: 1300, device: 'CR-1', device2: 'CR-2' },
  { at: '2026-11-18 00:05', card: 175, card2: 1300, device: 'CR-1', device2: 'CR-2' },
];

function sort(counters: readonly Counters[], ...rows: string[]) {
  const content = ['machine,device,date,gross,currency', ...rows].join('\n');
  return sortIntoStreams(
    intervalsOf(counters, roster),
    readDeposits({ file: 'd.csv', content }, EURO, () => 'M1').rows,
    roster,
    3,
  );
}
const outline = ({ streams }: ReturnType<typeof sort>) =>
  streams.map(({ machine, device, currency, sales, deposits }) =>
    [
      machine,
      device,
      currency,
      sales.map(({ amount }) => amount).join('+'),
      deposits.map(({ date }) => date).join('+'),
    ].join(' '),
  );

describe('sortIntoStreams', () => {
  it('has one stream a machine, and one a device where every deposit names its own', () => {
    expect(outline(sort(two))).toEqual(['M1  EUR 350+25 ']);
    expect(outline(sort(two, 'M1,,2026-11-17,1,'))).toEqual(['M1  EUR 350+25 2026-11-17']);
    expect(outline(sort(two, ',CR-1,2026-11-18,1,', 'M1,CR-2,2026-11-17,1,', ',CR-1,2026-11-17,1,'))).toEqual([
      'M1 CR-1 EUR 50+25 2026-11-17+2026-11-18',
      'M1 CR-2 EUR 300+0 2026-11-17',
    ]);
    expect(outline(sort(two, ',CR-1,2026-11-18,1,', 'M1,,2026-11-17,1,'))).toEqual([
      'M1  EUR 350+25 2026-11-17+2026-11-18',
    ]);
  });

  it('names the device of a machine that has one', () => {
    const one = two.map(({ card2, device2, ...rest }) => rest);
    expect(outline(sort(one, 'M1,,2026-11-17,1,'))).toEqual(['M1 CR-1 EUR 50+25 2026-11-17']);
    const changed = one.map((each, i) => ({ ...each, device: `CR-${i}` }));
    expect(outline(sort(changed))).toEqual(['M1  EUR 50+25 ']);
  });

  it('keeps kinds of money apart, and takes one that is not said to be the other', () => {
    const more: Counters[] = [
      ...two,
      { asset: 'A2', at: '2026-11-16 00:05', card: 100, currency: 'USD' },
      { asset: 'A2', at: '2026-11-17 00:05', card: 107, currency: 'USD' },
    ];
    const sorted = sort(
      more,
      'M1,,2026-11-17,1,EUR',
      'M2,,2026-11-17,1,EUR',
      'M2,,2026-11-17,1,USD',
      'M1,,2026-11-18,1,JPY',
    );
    expect(outline(sorted)).toEqual(['M1  EUR 350+25 2026-11-17', 'M2  USD 7 2026-11-17']);
    expect(sorted.lone).toMatchObject([
      { reason: 'other-currency', machine: 'M2', deposit: { currency: 'EUR' } },
      { reason: 'other-currency', machine: 'M1', deposit: { currency: 'JPY' } },
    ]);
    const unsaid = two.map((each) => ({ ...each, asset: 'A9', currency: '' }));
    expect(outline(sort(unsaid, 'A9,,2026-11-17,1,EUR'))).toEqual(['A9   350+25 2026-11-17']);
  });

  it('puts deposits in order, and those without a machine aside', () => {
    const { streams, lone } = sort(
      two,
      'M1,,2026-11-18,2,',
      'M1,,2026-11-17,1,',
      'M7,,2026-11-17,1,',
      'M1,,2026-11-17,3,',
    );
    expect(streams[0]!.deposits.map(({ gross }) => gross)).toEqual([100, 300, 200]);
    expect(lone).toMatchObject([{ reason: 'unknown-machine', machine: 'M7' }]);
    expect(streams[0]!.location).toBe('Hall');
  });

  it('takes sales after a gap between intervals for the least', () => {
    const days = [16, 17, 18, 19].map((day) => ({ at: `2026-11-${day} 00:05`, card: day * 10 }));
    const [first, , third] = intervalsOf(days, roster);
    const { streams } = sortIntoStreams([first!, third!], [], roster, 3);
    expect(streams[0]!.sales.map(({ isFloor }) => isFloor)).toEqual([false, true]);
  });
});
