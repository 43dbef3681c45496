import { describe, expect, it } from 'vitest';
import { measureCash, moveCash } from '../../src/interval/cash-movement.js';
import { Roster } from '../../src/sheets/index.js';
import { machineRow } from '../support/check-cases.js';
import { codesOf, intervalOf, pairOf } from '../support/interval-cases.js';

const BEFORE = [
  'CA2*50000*500',
  'CA3*****60000*40000*15000*5000',
  'CA4***9000*0',
  'CA8**100',
  'CA10**500',
  'CA15*3000',
  'DA2*20000*200',
  'DA4*1000',
  'TA2*400*4',
];

describe('measureCash', () => {
  it('measures every cash counter', () => {
    const values = Object.values(measureCash(pairOf(BEFORE, BEFORE))).map(({ value }) => value);
    expect(values).toEqual([0, 0, 0, 0, 0, 0, 0, 0, 0, null, 0, 0, null]);
  });
});

describe('moveCash', () => {
  it('puts cash in, change, sales and tubes together', () => {
    const { cash, findings } = moveCash(
      pairOf(BEFORE, [
        'CA2*50700*507',
        'CA3*****61200*40500*15200*5500',
        'CA4***9380*0',
        'CA8**120',
        'CA10**600',
        'CA15*2920',
        'DA2*20300*203',
        'DA4*1100',
        'TA2*500*5',
      ]),
    );
    expect(cash).toEqual({
      cashIn: 1200,
      toCashBox: 500,
      toTubes: 200,
      bills: 500,
      dispensed: 380,
      byHand: 0,
      filled: 100,
      overpaid: 20,
      cashSales: 700,
      cardSales: 300,
      tokenSales: 100,
      credited: 100,
      tubesFrom: 3000,
      tubesTo: 2920,
      tubeDifference: 0,
      customerDifference: 0,
      isCashBookedAsCard: false,
    });
    expect(findings).toEqual([]);
  });

  it('adds both card readers, and leaves out one that there is not', () => {
    const { cash } = moveCash(pairOf(['DA2*100*1', 'DB2*200*2'], ['DA2*150*2', 'DB2*270*3']));
    expect(cash.cardSales).toBe(120);
    expect(moveCash(pairOf(['DA2*100*1', 'DB2*200*2'], ['DA2*150*2'])).cash.cardSales).toBeNull();
  });

  it('takes a device that neither read has for none: it is no unknown, in a floor neither', () => {
    // Cleared memory: DA2 says 9.40 since, and there is no second reader.
    const cleared = intervalOf(
      ['VA1*900000*900', 'CA3*****800000*700000*60000*40000', 'CA4***30000', 'DA2*50000*300', 'EA4*200101*0900'],
      ['VA1*2500*12', 'CA3*****2000*1500*300*200', 'CA4***440', 'DA2*940*5', 'EA4*261120*1500'],
    );
    expect(cleared.basis).toBe('restart');
    expect(cleared.floor).toBe(true);
    expect(cleared.cash).toMatchObject({ cardSales: 940, dispensed: 440, bills: 200, cashIn: 2000 });
    expect(cleared.cash).toMatchObject({ tokenSales: null, filled: null, credited: null });
    // A new board, the machine has one reader, as its second.
    const swapped = intervalOf(['VA1*900000*900', 'DB2*50000*300'], ['CB1*B2', 'VA1*2500*12', 'DB2*940*5']);
    expect(swapped.cash.cardSales).toBe(940);
  });

  it('but not what one read has and the other lacks, or what the roster says the machine has', () => {
    const fell = intervalOf(['VA1*900000*900', 'DA2*5*1', 'DB2*5*1'], ['CB1*B2', 'VA1*2500*12', 'DA2*940*5']);
    expect(fell.cash.cardSales).toBeNull();
    const machine = (hasCard: boolean | null, hasCash: boolean | null) =>
      new Roster({ machines: [machineRow({ machine: 'M1', asset: 'A1', hasCard, hasCash })] });
    const cash = (hasCard: boolean | null, hasCash: boolean | null, segments: string[] = []) =>
      moveCash(pairOf(segments, segments, { roster: machine(hasCard, hasCash) })).cash;
    expect(cash(null, null)).toMatchObject({ cardSales: 0, cashSales: null });
    expect(cash(true, true)).toMatchObject({ cardSales: null, cashSales: null });
    expect(cash(false, false, ['CA3*0*0*0*0'])).toMatchObject({ cardSales: 0, cashSales: 0 });
    expect(cash(null, null, ['VA1*0*0', 'DA2*0*0'])).toMatchObject({ cardSales: 0, cashSales: 0 });
    // Cash came in, but what of it were sales is not said.
    expect(cash(null, null, ['CA3*0*0*0*0'])).toMatchObject({ cashSales: null });
  });

  it('takes coins to tubes for none only where there are no tubes', () => {
    const bills = (...more: string[]) =>
      moveCash(pairOf(['CA3*****1000*400**600', ...more], ['CA3*****1900*800**1100', ...more])).cash.bills;
    expect(bills()).toBe(500);
    expect(bills('CA15*100')).toBeNull();
  });

  it('does not set customers against each other where a counter is missing', () => {
    expect(
      moveCash(pairOf(['CA3*****100', 'CA4***0*0'], ['CA3*****300', 'CA4***0*0'])).cash.customerDifference,
    ).toBeNull();
    const credited = moveCash(
      pairOf(['CA2*0*0', 'CA3*****100', 'CA4***0*0', 'DA4*5'], ['CA2*0*0', 'CA3*****300', 'CA4***0*0', 'DA4']),
    );
    expect(credited.cash.customerDifference).toBeNull();
  });

  it('nor across a restart, nor where figures cover different times', () => {
    const restarted = moveCash(
      pairOf(['VA1*900000*900', ...BEFORE], ['VA1*100*1', 'CB1*B2', 'CA2*100*1', 'CA3*****900', 'CA4***0*0']),
    );
    expect(restarted.cash.customerDifference).toBeNull();
    const profile = { name: 'p', resets: 'every-read' } as const;
    const mixed = moveCash(
      pairOf(['CA2*50000*500*9*9', 'CA3*700****', 'CA4***0*0'], ['CA2*50700*507*1*1', 'CA3*900****', 'CA4***0*0'], {
        profile,
      }),
    );
    expect(mixed.cash).toMatchObject({ cashIn: 900, cashSales: 700, customerDifference: null });
  });
});

describe('moveCash: cash sales booked as card sales (Evoca 9200 manual p. 87, N&W Opera Touch manual p. 65)', () => {
  const cash = (sales: number, cashIn: number, out: number, card: number, more: readonly string[] = []): string[] => [
    `CA2*${sales}*1`,
    `CA3*****${cashIn}*${cashIn}*0*0`,
    `CA4***${out}*0`,
    `DA2*${card}*1`,
    'PA1*1*150',
    ...more,
  ];
  const recognised = (from: string[], to: string[]): boolean => intervalOf(from, to).cash.isCashBookedAsCard;

  it('cash stayed, CA2 did not move, and card sales are at least that', () => {
    expect(recognised(cash(0, 1000, 0, 1000), cash(0, 1300, 0, 1300))).toBe(true);
    expect(recognised(cash(0, 1000, 0, 1000), cash(0, 1300, 0, 1800))).toBe(true);
    expect(codesOf(intervalOf(cash(0, 1000, 0, 1000), cash(0, 1300, 0, 1800)))).toEqual(['cash-as-card']);
  });

  it('is not so where cash sales moved, no cash stayed, or card sales are less', () => {
    expect(recognised(cash(0, 1000, 0, 1000), cash(150, 1300, 0, 1300))).toBe(false);
    expect(recognised(cash(0, 1000, 0, 1000), cash(0, 1300, 300, 1300))).toBe(false);
    expect(recognised(cash(0, 1000, 0, 1000), cash(0, 1300, 0, 1200))).toBe(false);
    expect(recognised(cash(0, 1000, 0, 1000), cash(0, 1300, 0, 1000))).toBe(false);
  });

  it('is not so where the cash was put onto cards, overpaid, or may stand as a credit', () => {
    expect(recognised(cash(0, 1000, 0, 1000, ['DA4*0']), cash(0, 1300, 0, 1300, ['DA4*300']))).toBe(false);
    expect(recognised(cash(0, 1000, 0, 1000, ['CA8**0']), cash(0, 1300, 0, 1300, ['CA8**300']))).toBe(false);
    expect(recognised(cash(0, 1000, 0, 1000), cash(0, 1100, 0, 1600))).toBe(false);
    expect(recognised(cash(0, 1000, 0, 1000), cash(0, 1100, 0, 1100))).toBe(true);
  });

  it('is so whether or not CA403 includes what was dispensed by hand', () => {
    const out = (dispensed: number, hand: number): string => `CA4***${dispensed}*${hand}`;
    const from = ['CA2*0*0', 'CA3*****1000*1000*0*0', out(0, 0), 'DA2*1000*1'];
    expect(recognised(from, ['CA2*0*0', 'CA3*****1300*1300*0*0', out(500, 500), 'DA2*1300*1'])).toBe(true);
    expect(recognised(from, ['CA2*0*0', 'CA3*****1300*1300*0*0', out(0, 500), 'DA2*1300*1'])).toBe(true);
  });

  it('can not be told without CA4', () => {
    expect(recognised(['CA2*0*0', 'CA3*****0', 'DA2*0*0'], ['CA2*0*0', 'CA3*****300', 'DA2*300*1'])).toBe(false);
  });
});
