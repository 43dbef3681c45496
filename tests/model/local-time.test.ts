import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  dateOf,
  isCalendarDate,
  isLocalDateTime,
  isTimeOfDay,
  minutesBetween,
  moveDate,
  writeDate,
  writeTime,
} from '../../src/model/index.js';

describe('isCalendarDate', () => {
  // The Gregorian rule of leap years: 2000 is one, 1900 and 2100 are none.
  it.each([
    [2026, 11, 24],
    [2024, 2, 29],
    [2000, 2, 29],
    [2026, 12, 31],
    [2026, 4, 30],
  ])('accepts %d-%d-%d', (year, month, day) => {
    expect(isCalendarDate(year, month, day)).toBe(true);
  });

  it.each([
    [2026, 2, 29],
    [1900, 2, 29],
    [2100, 2, 29],
    [2024, 2, 30],
    [2026, 4, 31],
    [2026, 13, 1],
    [2026, 0, 1],
    [2026, 1, 0],
    [2026, 1, 32],
  ])('refuses %d-%d-%d', (year, month, day) => {
    expect(isCalendarDate(year, month, day)).toBe(false);
  });

  it('agrees with the calendar of the language', () => {
    const part = fc.integer({ min: 1, max: 40 });
    fc.assert(
      fc.property(fc.integer({ min: 1900, max: 2200 }), part, part, (year, month, day) => {
        const date = new Date(Date.UTC(year, month - 1, day));
        const exists = month <= 12 && date.getUTCMonth() === month - 1 && date.getUTCDate() === day;
        expect(isCalendarDate(year, month, day)).toBe(exists);
      }),
    );
  });
});

describe('isTimeOfDay', () => {
  it('has 24 hours of 60 minutes of 60 seconds', () => {
    expect(isTimeOfDay(0, 0, 0)).toBe(true);
    expect(isTimeOfDay(23, 59, 59)).toBe(true);
    expect(isTimeOfDay(24, 0, 0)).toBe(false);
    expect(isTimeOfDay(10, 60, 0)).toBe(false);
    expect(isTimeOfDay(10, 0, 60)).toBe(false);
    expect(isTimeOfDay(-1, 0, 0)).toBe(false);
    expect(isTimeOfDay(10, -1, 0)).toBe(false);
    expect(isTimeOfDay(10, 0, -1)).toBe(false);
  });
});

describe('local times as text', () => {
  it('are written in full', () => {
    expect(writeDate(2026, 1, 4)).toBe('2026-01-04');
    expect(writeDate(94, 12, 31)).toBe('0094-12-31');
    expect(writeTime(9, 5, 0)).toBe('09:05:00');
  });

  it('have a date', () => {
    expect(dateOf('2026-11-24T10:15:00')).toBe('2026-11-24');
    expect(dateOf('2026-11-24')).toBe('2026-11-24');
  });

  it('are told from other text', () => {
    expect(isLocalDateTime('2026-11-24T10:15:00')).toBe(true);
    expect(isLocalDateTime('2026-02-29T10:15:00')).toBe(false);
    expect(isLocalDateTime('2026-11-24T25:15:00')).toBe(false);
    expect(isLocalDateTime('2026-11-24')).toBe(false);
    expect(isLocalDateTime('2026-11-24T10:15:00Z')).toBe(false);
  });
});

describe('minutesBetween', () => {
  it.each([
    ['2026-11-24T10:15:00', '2026-11-24T11:00:59', 45],
    ['2026-11-24T11:00:00', '2026-11-24T10:15:00', -45],
    ['2026-12-31T23:59:00', '2027-01-01T00:01:00', 2],
    // The night in which many clocks are put forward: local times know nothing of it.
    ['2026-03-29T01:30:00', '2026-03-29T03:30:00', 120],
  ])('from %s to %s is %d', (from, to, minutes) => {
    expect(minutesBetween(from, to)).toBe(minutes);
  });
});

describe('moveDate', () => {
  it('moves over the ends of months and years, and not beyond the calendar', () => {
    expect(moveDate('2026-12-31', 1)).toBe('2027-01-01');
    expect(moveDate('2028-03-01', -1)).toBe('2028-02-29');
    expect(moveDate('9999-12-31', 1)).toBe('9999-12-31');
    expect(moveDate('0000-01-01', -1)).toBe('0000-01-01');
  });
});
