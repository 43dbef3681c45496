import { describe, expect, it } from 'vitest';
import { type Day, joinDays } from '../../src/day/index.js';
import { demoDay } from './demo-day.js';

const empty: Day = {
  day: '2026-11-23',
  files: { files: 1, sound: 1, doubtful: 0, readAgain: 0, setAside: 0, reads: 2, duplicates: 0 },
  machines: { expected: 3, read: 2, unknown: 1 },
  totals: [],
  attention: [],
  sales: [],
  cash: [],
  settlements: [],
  adjusted: [],
  refill: [],
};

const totals = (currency: string | null, sold: number | null, intervals: number, openIntervals: number) => ({
  ...{ currency, decimals: 2, sold, value: sold === null ? null : sold * 100, intervals, openIntervals },
});

describe('joinDays', () => {
  it('adds counts, and keeps a day that is in one part', () => {
    const whole = demoDay('2026-11-23');
    expect(joinDays([whole])).toEqual(whole);
    const joined = joinDays([whole, empty]);
    expect(joined.files).toMatchObject({ files: 16, sound: 14, reads: 17 });
    expect(joined.machines).toEqual({ expected: 11, read: 10, unknown: 1 });
    expect(joined.settlements).toEqual(whole.settlements);
    expect(joined.cash).toEqual(whole.cash);
  });

  it('adds sums of one currency, of what is known', () => {
    const join = (...parts: Day['totals'][number][]) =>
      joinDays(parts.map((one) => ({ ...empty, totals: [one] }))).totals;
    expect(join(totals('EUR', 3, 2, 1), totals('EUR', 4, 1, 0), totals('CHF', 1, 1, 0))).toEqual([
      totals('CHF', 1, 1, 0),
      totals('EUR', 7, 3, 1),
    ]);
    expect(join(totals('EUR', null, 2, 2), totals('EUR', 4, 1, 0))).toEqual([totals('EUR', 4, 3, 2)]);
    expect(join(totals('EUR', 4, 1, 0), totals('EUR', null, 2, 2))).toEqual([totals('EUR', 4, 3, 2)]);
    expect(join(totals('EUR', null, 1, 1), totals('EUR', null, 2, 2))).toEqual([totals('EUR', null, 3, 3)]);
  });

  it('refuses no part, and parts of different days (wrong use)', () => {
    expect(() => joinDays([])).toThrow(RangeError);
    expect(() => joinDays([empty, { ...empty, day: '2026-11-24' }])).toThrow(RangeError);
  });
});
