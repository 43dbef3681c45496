import { describe, expect, it } from 'vitest';
import { intervalOf, messageOf, type PairOptions } from '../support/interval-cases.js';

/** A machine whose cash adds up, with what it sold, gave back and holds in its tubes. */
const cash = (cashIn: number, sales: number, out: number, tubes: number, more: readonly string[] = []): string[] => [
  `CA2*${sales}*1`,
  `CA3*****${cashIn}*${cashIn}*0*0`,
  `CA4***${out}*0`,
  'CA8**0',
  `CA15*${tubes}`,
  'PA1*1*150',
  ...more,
];
const from = cash(10_000, 9000, 1000, 2000);

describe('judgeCash: tubes', () => {
  it('tells coins that are gone, and what it may be', () => {
    const interval = intervalOf(from, cash(10_300, 9200, 1100, 1750));
    expect(messageOf(interval, 'tube-difference')).toBe(
      'The tubes hold 17.50 EUR, 1.50 EUR less than the 19.00 EUR they should: a jam, or coins that were taken out, or entered as filled but not put in.',
    );
    expect(interval.findings[0]).toMatchObject({ severity: 'doubt', element: 'CA1501' });
  });

  it('tells coins that are too many', () => {
    const interval = intervalOf(from, cash(10_300, 9200, 1100, 2000));
    expect(messageOf(interval, 'tube-difference')).toMatch(
      /1\.00 EUR more than the 19\.00 EUR they should: a fill that was not entered/,
    );
  });

  it('only notes it of a mechanism that estimates its tubes (SEM 9900X manual, p. 17)', () => {
    const profile = { name: 'p', tubesEstimated: true };
    const interval = intervalOf(from, cash(10_300, 9200, 1100, 1750), { profile });
    expect(interval.findings).toMatchObject([{ code: 'tube-difference', severity: 'note' }]);
    expect(interval.findings[0]!.message).toContain('only estimates its tubes');
  });

  it('says both differences where it is not known what CA403 includes', () => {
    const hand = (out: number, byHand: number, tubes: number): string[] => [
      `CA4***${out}*${byHand}`,
      `CA3*****0*0*0*0`,
      `CA15*${tubes}`,
    ];
    const interval = intervalOf(hand(0, 0, 2000), hand(400, 100, 1550));
    expect(interval.cash.tubeDifference).toBeNull();
    expect(messageOf(interval, 'tube-difference')).toBe(
      'The tubes hold 15.50 EUR: 0.50 EUR more than they should, or 0.50 EUR less than they should if the change counted (CA403) includes what was dispensed by hand; nothing tells which.',
    );
    expect(interval.findings[0]!.advice).toContain("'dispensedIncludesByHand'");
  });
});

describe('judgeCash: customers', () => {
  const difference = (to: string[], options: PairOptions = {}) => intervalOf(from, to, options);

  it('doubts a little that may be a credit, with its amount: this interval alone cannot show it', () => {
    const later = difference(cash(10_450, 9300, 1000, 2000));
    expect(later.cash.customerDifference).toBe(150);
    expect(later.findings).toMatchObject([{ code: 'credit-standing', severity: 'doubt' }]);
    expect(messageOf(later, 'credit-standing')).toBe(
      "1.50 EUR of the cash in is in neither sales nor change: it may be a customer's credit at the later read, which the interval after has to show.",
    );
    expect(messageOf(difference(cash(10_150, 9300, 1000, 2000)), 'credit-standing')).toBe(
      "1.50 EUR more was sold or given back than came in, and the interval before does not show a customer's credit of it at the earlier read.",
    );
  });

  it('says that credit is lost when power fails (Coges Engine MIFARE 2.5 manual, p. 49)', () => {
    const lost = intervalOf([...from, 'EA7*0*3'], cash(10_450, 9300, 1000, 2000, ['EA7*2*5']));
    expect(messageOf(lost, 'credit-standing')).toContain(
      '; the power failed 2 times, and some machines count credit lost',
    );
  });

  it('doubts what can be no credit', () => {
    const more = difference(cash(10_500, 9300, 1000, 2000));
    expect(more.findings).toMatchObject([{ code: 'cash-sales-difference', severity: 'doubt' }]);
    expect(more.findings[0]!.message).toBe(
      'Of 5.00 EUR cash in, 2.00 EUR is in neither sales, change nor overpaid cash.',
    );
    const less = difference(cash(10_100, 9300, 1000, 2000));
    expect(less.findings[0]!.message).toBe(
      'Sales, change and overpaid cash come to 2.00 EUR more than the 1.00 EUR cash in.',
    );
  });

  it('says so where overpaid cash is not counted', () => {
    const without = (segments: string[]): string[] => segments.filter((segment) => !segment.startsWith('CA8'));
    const interval = intervalOf(without(from), without(cash(10_500, 9300, 1000, 2000)));
    expect(messageOf(interval, 'cash-sales-difference')).toMatch(/Overpaid cash is not counted here\.$/);
  });

  it('names cash sales booked as card sales where a little cash may be that', () => {
    const interval = intervalOf([...from, 'DA2*5000*50'], cash(10_150, 9000, 1000, 2000, ['DA2*5450*53']));
    expect(messageOf(interval, 'credit-standing')).toMatch(
      /to show, or this machine books cash sales as card sales\.$/,
    );
  });
});

describe('judgeCash: cash booked as card', () => {
  it('tells it, and what it means for the bag', () => {
    const interval = intervalOf([...from, 'DA2*5000*50'], cash(10_600, 9000, 1000, 2000, ['DA2*5900*56']));
    expect(interval.findings).toMatchObject([{ code: 'cash-as-card', severity: 'note', element: 'CA201' }]);
    expect(interval.findings[0]!.advice).toMatch(/^Count the bag as usual/);
  });
});
