import { describe, expect, it } from 'vitest';
import { salesByPayment } from '../../src/accounts/sales-by-payment.js';
import { type Counters, intervalsOf, rosterOf } from './machine-days.js';

function sell(from: Partial<Counters>, to: Partial<Counters>, flags = ',') {
  const roster = rosterOf(`machine,asset,currency,has_cash,has_card\nM1,A1,EUR,${flags}`);
  const counters = [
    { at: '2026-11-16 10:00', ...from },
    { at: '2026-11-23 10:00', ...to },
  ];
  return salesByPayment(intervalsOf(counters, roster)[0]!);
}

describe('salesByPayment', () => {
  it('tells cash and card sales, and adds them (SEM 9900X manual, French edition, p. 18)', () => {
    // The manual: 9875.60 at the last visit and 10001.20 now are 125.60 sold.
    expect(sell({ cash: 987_560, card: 400, card2: 0 }, { cash: 1_000_120, card: 700, card2: 50 })).toEqual({
      cash: 12_560,
      card: 350,
      both: 12_910,
      floors: { cash: false, card: false, both: false },
      isCashBookedAsCard: false,
      cashInside: 0,
    });
  });

  it('takes a counter that neither read has for nothing only where that is known', () => {
    expect(sell({ cash: 100 }, { cash: 300 })).toMatchObject({ cash: 200, card: 0, both: 200 });
    expect(sell({ cash: 100 }, { cash: 300 }, ',yes')).toMatchObject({ cash: 200, card: null, both: null });
    expect(sell({ card: 100 }, { card: 300 }, 'no,yes')).toMatchObject({ cash: 0, card: 200, both: 200 });
    expect(sell({ card: 100 }, { card: 300 })).toMatchObject({ cash: null, card: 200, both: null });
  });

  it('marks what is the least, and what holds cash sales too', () => {
    const restarted = sell(
      { cash: 900, card: 500, card2: 0, board: 'B1' },
      { cash: 7, card: 3, card2: 0, board: 'B2' },
    );
    expect(restarted).toMatchObject({ cash: 7, card: 3, both: 10, floors: { cash: true, card: true, both: true } });
    const booked = sell({ cash: 0, card: 5_000, cashIn: 1_000 }, { cash: 0, card: 8_000, cashIn: 3_000 });
    expect(booked).toMatchObject({ cash: 2_000, card: 1_000, both: 3_000, isCashBookedAsCard: true });
  });
});
