import { describe, expect, it } from 'vitest';
import { countsDevice, type DeviceSlot, measureCardSales } from '../../src/accounts/card-sales.js';
import { type Counters, intervalsOf } from './machine-days.js';

const interval = (from: Partial<Counters>, to: Partial<Counters>) =>
  intervalsOf([
    { at: '2026-11-16 00:05', cash: 0, ...from },
    { at: '2026-11-17 00:05', cash: 0, ...to },
  ])[0]!;
const SLOTS: readonly DeviceSlot[] = [1, 2, 'both'];
const amounts = (from: Partial<Counters>, to: Partial<Counters>, isReaderKnown = false) =>
  SLOTS.map((slot) => measureCardSales(interval(from, to), slot, isReaderKnown).amount);

describe('measureCardSales', () => {
  it('tells the devices apart, and adds them', () => {
    expect(amounts({ card: 100, card2: 1000 }, { card: 150, card2: 1300 })).toEqual([50, 300, 350]);
  });

  it('takes a device that is not counted for nothing, unless something says that there is one', () => {
    expect(amounts({}, {})).toEqual([0, 0, 0]);
    expect(amounts({}, {}, true)).toEqual([null, null, null]);
    expect(amounts({ card: 100 }, { card: 150 })).toEqual([50, 0, 50]);
    expect(countsDevice(interval({ card: 100 }, { card: 150 }), 1)).toBe(true);
    expect(countsDevice(interval({ card: 100 }, { card: 150 }), 2)).toBe(false);
  });

  it('takes amounts in two currencies from each other in no way', () => {
    expect(amounts({ card: 100, card2: 1 }, { card: 150, card2: 2, currency: 'USD' })).toEqual([null, null, null]);
  });

  it('takes cash sales out that were booked as card sales, where it is known of which device', () => {
    const of = (more: Partial<Counters>, slot: DeviceSlot) => {
      const { amount, isCashBookedAsCard } = measureCardSales(
        interval({ card: 5_000, cashIn: 1_000, ...more }, { card: 8_000, cashIn: 3_000, ...more }),
        slot,
        true,
      );
      return [amount, isCashBookedAsCard];
    };
    expect(of({}, 'both')).toEqual([1_000, true]);
    expect(of({}, 1)).toEqual([1_000, true]);
    expect(of({ card2: 70 }, 1)).toEqual([1_000, true]);
    expect(of({ card2: 70 }, 2)).toEqual([0, false]);
    // What was put in and lost is cash that was kept, and no sale; what is not known leaves the amount unknown.
    expect(of({ more: ['CA8**0'] }, 'both')).toEqual([1_000, true]);
  });
});
