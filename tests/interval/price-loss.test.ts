import { describe, expect, it } from 'vitest';
import { type ColumnPrices, type LossParts, measureLoss } from '../../src/interval/price-loss.js';
import type { PriceShare } from '../../src/interval/split-value.js';

const PRICES: ColumnPrices = {
  priceFrom: 150,
  priceTo: 150,
  cardPriceTo: null,
  planFrom: 160,
  planTo: 160,
  cardPlanFrom: null,
  cardPlanTo: null,
};
const share = (count: number, price: number, list?: string): PriceShare =>
  list === undefined ? { count, price } : { count, price, list };

function loss(
  prices: Partial<ColumnPrices>,
  shares: readonly PriceShare[],
  more: Partial<LossParts> = {},
): number | null {
  const sold = shares.reduce((sum, { count }) => sum + count, 0);
  const value = shares.reduce((sum, { count, price }) => sum + count * price, 0);
  const split = { shares, unexplained: 0 };
  return measureLoss({ sold, value, discounts: null, split, prices: { ...PRICES, ...prices }, profile: null, ...more });
}

describe('measureLoss', () => {
  it('is sold × (plan − charged); below 0 customers paid more', () => {
    expect(loss({}, [share(12, 150)])).toBe(120);
    expect(loss({ planTo: 140 }, [share(12, 150)])).toBe(-120);
    expect(loss({ planTo: 150 }, [share(12, 150)])).toBe(0);
    expect(loss({}, [])).toBe(0);
  });

  it('holds the earlier price against the plan in force then', () => {
    expect(loss({ priceTo: 160, planFrom: 150 }, [share(7, 150), share(5, 160)])).toBe(0);
    expect(loss({ priceTo: 160, planFrom: 155 }, [share(7, 150), share(5, 160)])).toBe(35);
    // No plan was in force then: it is not judged.
    expect(loss({ priceTo: 160, planFrom: null }, [share(7, 150), share(5, 160)])).toBe(0);
  });

  it('holds card lists against the card price, or does not judge them', () => {
    const shares = [share(3, 150, 'CA/0'), share(2, 165, 'DA/3')];
    expect(loss({ planTo: 150 }, shares)).toBe(0);
    expect(loss({ planTo: 150, cardPlanTo: 170 }, shares)).toBe(10);
    expect(loss({ planTo: 150, cardPlanTo: 170, cardPlanFrom: 165, cardPriceTo: 170 }, shares)).toBe(0);
    expect(loss({ planTo: null, cardPlanTo: 170, cardPriceTo: 165 }, [share(2, 165, 'DB/0')])).toBe(10);
  });

  it('asks a profile what a list is, and does not judge what nobody says', () => {
    const lists = { name: 'p', priceLists: { '1': 'other', '3': 'card', '7': 'cash' } } as const;
    const judged = (list: string, price: number, profile: LossParts['profile'] = lists): number | null =>
      loss({ planTo: 150, cardPlanTo: 170 }, [share(2, price, list)], { profile });
    expect([judged('LA1/3', 165), judged('LA1/7', 140), judged('LA1/1', 140), judged('CA/1', 140)]).toEqual([
      10, 20, 0, 0,
    ]);
    expect([judged('LA1/3', 165, null), judged('LA1/0', 150, null), judged('CA/2', 140, null)]).toEqual([0, 0, 20]);
    expect(judged('LA1', 140, null)).toBe(0);
    expect(loss({}, [share(2, 165)])).toBe(0);
  });

  it('is not known without a plan, or without sales', () => {
    expect(loss({ planTo: null }, [share(2, 150)])).toBeNull();
    expect(loss({}, [share(2, 150)], { sold: null })).toBeNull();
  });

  it('is taken on the whole where prices do not explain the money', () => {
    const mismatch = { split: { shares: [], unexplained: -30 }, sold: 10, value: 1470 };
    expect(loss({}, [], mismatch)).toBe(130);
    expect(loss({}, [], { ...mismatch, discounts: 20 })).toBe(110);
    expect(loss({ cardPlanTo: 170 }, [], mismatch)).toBeNull();
    expect(loss({}, [], { ...mismatch, split: null })).toBeNull();
    expect(loss({}, [], { ...mismatch, split: { shares: [], unexplained: 0 } })).toBeNull();
    expect(loss({ planTo: null, cardPlanTo: 170, cardPriceTo: 165 }, [], mismatch)).toBeNull();
  });

  it('is nothing where every price is as planned, whatever the money says', () => {
    const mismatch = { split: { shares: [], unexplained: -30 }, sold: 10, value: 1470 };
    expect(loss({ planFrom: 150, planTo: 150 }, [], mismatch)).toBe(0);
    expect(loss({ planFrom: null, planTo: 150, priceTo: null }, [], mismatch)).toBe(0);
    expect(loss({ planFrom: 150, planTo: 150, cardPlanTo: 170, cardPriceTo: 170 }, [], mismatch)).toBe(0);
  });
});
