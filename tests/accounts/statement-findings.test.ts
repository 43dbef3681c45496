import { describe, expect, it } from 'vitest';
import { judgeStatement, sayMixedCurrencies } from '../../src/accounts/statement-findings.js';
import { stateExample } from './example-accounts.js';

const EUR = { currency: 'EUR', decimals: 2 };
const [, YARD] = stateExample();
const LINE = YARD!.lines[0]!;

describe('judgeStatement', () => {
  it('says nothing of a statement that is known in full', () => {
    expect(judgeStatement([LINE], EUR, [])).toEqual([]);
  });

  it.each([
    [
      { sales: null, cashSales: null, cardSales: null },
      'What machine M3 sold is not known in full, and the statement with it.',
    ],
    [
      { sales: null, cashSales: null },
      'What machine M3 sold is not known in full, and the statement with it. Known of it: card sales 0.00 EUR.',
    ],
    [
      { sales: null, intervals: [] },
      'Machine M3 has no two reads in this period, so what it sold is not known, and the statement with it.',
    ],
    [
      { floors: { cashSales: true, cardSales: true, sales: true } },
      'Machine M3 sold at least what is stated: its counters started again, were cleared by somebody else, or a part of the time is in no interval.',
    ],
    [
      { isCashBookedAsCard: true, cashInside: 2000 },
      'Machine M3 books cash sales as card sales: 20.00 EUR of them are stated as cash sales, an estimate that leaves their sum as it is.',
    ],
    [
      { isCashBookedAsCard: true, cashInside: null, cashSales: null, cardSales: null },
      'Machine M3 books cash sales as card sales; how much of each there was is not known, only their sum.',
    ],
    [
      { isCashBookedAsCard: true, cashInside: 0 },
      'Machine M3 may book cash sales as card sales: what it sold for cash and by card is an estimate that leaves their sum as it is.',
    ],
    [
      { sales: null, cardSales: null, floors: { cashSales: true, cardSales: false, sales: true }, cashSales: 500 },
      'What machine M3 sold is not known in full, and the statement with it. Known of it: cash sales at least 5.00 EUR.',
    ],
  ])('%j', (change, message) => {
    const findings = judgeStatement([{ ...LINE, ...change }], EUR, []);
    expect(findings.map((finding) => finding.message)).toEqual([message]);
    expect(findings[0]).toMatchObject({ machine: 'M3', file: 'machines.csv', row: 4 });
  });

  it('names the column of a rate that is missing', () => {
    const missing = [
      { machine: 'M3', field: 'tax_percent' },
      { machine: 'M3', field: 'commission_base' },
    ] as const;
    expect(judgeStatement([LINE], EUR, missing)).toMatchObject([
      { code: 'rate-missing', field: 'tax_percent', row: 4, advice: 'Enter the rate; 0 says that there is none.' },
      { code: 'rate-missing', field: 'commission_base', row: 4, advice: 'Enter gross or net.' },
    ]);
  });

  it('says of one location, or one machine without a location, that it takes different money', () => {
    expect(sayMixedCurrencies(LINE.machine, 2).message).toContain('Yard has sales in 2 kinds of money');
    expect(sayMixedCurrencies({ ...LINE.machine, location: null }, 2).message).toContain('Machine M3 has sales');
  });
});
