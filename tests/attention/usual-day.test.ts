import { describe, expect, it } from 'vitest';
import { perDay, usualBetween, usualPerDay, usualValue } from '../../src/attention/usual-day.js';
import { machineDay } from './machine-days.js';
import { days, minute } from './stretches.js';

describe('usual sales', () => {
  const day = machineDay({ stretches: days(10, 12, 0, 0) });

  it('are those before the machine went quiet', () => {
    expect(usualValue(day)).toEqual({ amount: 2200, minutes: 2 * 1440 });
    expect(perDay(usualValue(day))).toBe(1100);
    expect(usualPerDay(day, ({ sold }) => sold)).toBe(11);
    expect(perDay(null)).toBeNull();
  });

  it('come to an estimate between two moments, none where time runs back', () => {
    expect(usualBetween(day, minute(0), minute(720))).toBe(550);
    expect(usualBetween(day, minute(720), minute(0))).toBe(0);
    expect(usualBetween(day, null, minute(0))).toBeNull();
    expect(usualBetween(day, minute(0), null)).toBeNull();
    expect(usualBetween(machineDay(), minute(0), minute(720))).toBeNull();
  });
});
