import { describe, expect, it } from 'vitest';
import { buildInterval } from '../../src/interval/index.js';
import { judgeReadsBetween } from '../../src/interval/reads-between.js';
import { Roster } from '../../src/sheets/index.js';
import { codesOf, intervalOf, messageOf, readOf } from '../support/interval-cases.js';
import { defineColumn, defineMachine, SimulatedMachine } from '../support/simulator/index.js';
import { takeOne } from '../support/taken.js';

describe('interval: worked examples of published manuals', () => {
  it('SEM 9900X manual, p. 17: a 1.00 coin goes to the box and buys for 0.20: box 1.00, sale 0.20, change 0.80', () => {
    const { cash, totals } = intervalOf(
      [
        'VA1*5000*20',
        'CA2*5000*20',
        'CA3*0*0*0*0*6000*4000*2000*0',
        'CA4*0*0*1000*0',
        'CA15*2000',
        'PA1*1*20',
        'PA2*20*5000',
      ],
      [
        'VA1*5020*21',
        'CA2*5020*21',
        'CA3*0*0*0*0*6100*4100*2000*0',
        'CA4*0*0*1080*0',
        'CA15*1920',
        'PA1*1*20',
        'PA2*21*5020',
      ],
    );
    expect(cash).toMatchObject({ cashIn: 100, toCashBox: 100, toTubes: 0, bills: 0, dispensed: 80, cashSales: 20 });
    expect([totals.sold, totals.value, cash.tubeDifference, cash.customerDifference]).toEqual([1, 20, 0, 0]);
  });

  it('SEM 9900X manual, p. 17: a box meter of 145.35, cleared at the last pick-up, means 145.35 in the box, not sales', () => {
    const { cash, basis, floor } = intervalOf(
      ['CA2***48210*400', 'CA3*61000*50000*11000*0', 'EA3*8*261120*1000', 'PA1*1*20'],
      ['CA2***12310*101', 'CA3*18000*14535*3465*0', 'EA3*9*261121*1000**261120*1000', 'PA1*1*20'],
      { profile: { name: 'resets at every read', resets: 'every-read' } },
    );
    expect([cash.toCashBox, cash.cashSales]).toEqual([14535, 12310]);
    expect([basis, floor]).toEqual(['interval', false]);
  });

  it('SEM 9900X manual, French edition, p. 18: 9875.60 at the last visit and 10001.20 now are 125.60 sold', () => {
    const interval = intervalOf(
      ['VA1*987560*4000*23010*90', 'CA2*900000*3600*20000*80', 'DA2*87560*400*3010*10'],
      ['VA1*1000120*4050*12560*50', 'CA2*910060*3640*10060*40', 'DA2*90060*410*2500*10'],
    );
    expect([interval.totals.value, interval.totals.sold]).toEqual([12560, 50]);
    // The cleared meter must say the same: the earlier read cleared it, and nobody since.
    expect(interval.pair.reset).toBe('cleared');
    // The base of a commission is cash sales plus card sales.
    expect(interval.cash.cashSales! + interval.cash.cardSales!).toBe(12560);
  });

  it('SEM 9900X manual, French edition, p. 18: change due 3.25 of which the tubes paid 1.50 leaves 1.75 not paid', () => {
    const { cash, findings } = intervalOf(
      ['CA2*10000', 'CA3*****15000*10000*5000*0', 'CA4***4000*0', 'CA8**1000'],
      ['CA2*10175', 'CA3*****15500*10500*5000*0', 'CA4***4150*0', 'CA8**1175'],
    );
    expect([cash.cashIn! - cash.cashSales!, cash.dispensed, cash.overpaid]).toEqual([325, 150, 175]);
    expect([cash.customerDifference, findings]).toEqual([0, []]);
  });

  it('N&W Melodia Classic manual, p. 47: overpaid is what was put in above the price and not given back', () => {
    const machine = new SimulatedMachine(
      defineMachine({ columns: [defineColumn('1', 150)], tubes: [{ value: 20, capacity: 9, coins: 1 }] }),
    );
    const from = takeOne(machine.serviceVisit().read.bytes);
    machine.sellForCash('1', { coins: [200] });
    const to = takeOne(machine.serviceVisit().read.bytes);
    const interval = buildInterval(from, to, new Roster());
    expect(interval.cash).toMatchObject({
      cashIn: 200,
      dispensed: 20,
      overpaid: 30,
      cashSales: 150,
      tubeDifference: 0,
    });
    expect(codesOf(interval)).toEqual([]);
  });

  it('Crane Autobar Infinity, p. 33: an operator may set the bills to be given as a number', () => {
    const interval = intervalOf(
      ['CA3*0*0*0*0*100000*60000*30000*10', 'CA14*500', 'CA14*1000'],
      ['CA3*0*0*0*0*103700*60800*30400*13', 'CA14*500', 'CA14*1000'],
    );
    expect(interval.cash.bills).toBe(2500);
    expect(messageOf(interval, 'bills-as-count')).toContain('(3)');
    expect(interval.findings.map(({ severity }) => severity)).toEqual(['note']);
  });

  it('Evoca 9200 manual, p. 87; N&W Opera Touch manual, p. 65: cash sales booked as card sales are no shortage', () => {
    for (const device of ['DA2', 'DB2']) {
      const interval = intervalOf(
        [
          'VA1*80000*400',
          'CA2*0*0',
          'CA3*****90000*70000*20000*0',
          'CA4***20000*0',
          'CA15*3000',
          `${device}*80000*400`,
        ],
        [
          'VA1*81000*405',
          'CA2*0*0',
          'CA3*****91200*70900*20300*0',
          'CA4***20200*0',
          'CA15*3100',
          `${device}*81000*405`,
        ],
      );
      expect([interval.cash.cashIn, interval.cash.cashSales, interval.cash.cardSales]).toEqual([1200, 0, 1000]);
      expect(interval.cash.isCashBookedAsCard).toBe(true);
      expect(interval.findings.map(({ code, severity }) => [code, severity])).toEqual([['cash-as-card', 'note']]);
    }
  });

  it('Saeco Freestanding 400, p. 29: lists 0 normal, 1 and 2 other, 3 card, 4 free, 5 test: all of them are not paid vends', () => {
    const columns = (
      normal: number,
      card: number,
      free: number,
      test: number,
      sold: number,
      value: number,
    ): string[] => [
      'PA1*7*50',
      `PA2*${sold}*${value}`,
      ...[normal, 0, 0, card, free, test].map((count, list) => `LA1*${list}*7*${list === 3 ? 45 : 50}*0*${count}`),
    ];
    const profile = { name: 'lists', priceLists: { '0': 'cash', '3': 'card', '4': 'free', '5': 'test' } } as const;
    const before = columns(100, 40, 5, 9, 140, 6800);
    const after = columns(106, 43, 7, 10, 149, 7235);
    const named = intervalOf(before, after, { profile }).columns[0]!;
    expect([named.sold, named.value, named.unexplained]).toEqual([9, 435, 0]);
    expect(named.split).toEqual([
      { count: 6, price: 50, list: 'LA1/0' },
      { count: 3, price: 45, list: 'LA1/3' },
    ]);
    // Without a profile the lists do not add up to paid vends, and are not believed; but 45 is a price that is known.
    const plain = intervalOf(before, after).columns[0]!;
    expect([plain.unexplained, plain.split]).toEqual([
      0,
      [
        { count: 3, price: 45 },
        { count: 6, price: 50 },
      ],
    ]);
  });

  it('Lavazza Blue LB 2000 manual, section 15.2: reading 22 names the reading before it, of 2002-07-23 11:37', () => {
    const later = readOf('to', ['EA3*22*020801*1645*1*020723*1137']);
    const before = readOf('from', ['EA3*21*020723*1137*1*020716*0910']);
    const older = readOf('from', ['EA3*20*020716*0910*1*020709*1002']);
    expect([judgeReadsBetween(before, later), judgeReadsBetween(older, later)]).toEqual(['none', 'some']);
  });
});
