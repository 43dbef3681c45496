import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  areAtOneDayEnd,
  dayNumber,
  haveCommonDay,
  isDayEnd,
  moveToMidnight,
  spanBetween,
  writeDay,
} from '../../src/accounts/days.js';

describe('dayNumber', () => {
  it('counts days', () => {
    expect(dayNumber('1970-01-01')).toBe(0);
    expect(dayNumber('2026-03-01') - dayNumber('2026-02-28')).toBe(1);
    expect(dayNumber('2028-03-01') - dayNumber('2028-02-28')).toBe(2);
    expect(dayNumber('2026-11-24T23:59:59')).toBe(dayNumber('2026-11-24'));
    expect(dayNumber('2026-11-24T23:30:00', 60)).toBe(dayNumber('2026-11-25'));
    expect(dayNumber('2026-11-24T00:30:00', -60)).toBe(dayNumber('2026-11-23'));
  });

  it('is undone by writeDay', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 40_000 }), (day) => {
        expect(dayNumber(writeDay(day))).toBe(day);
      }),
    );
  });
});

describe('spanBetween', () => {
  const days = (from: string, to: string) => {
    const { first, last } = spanBetween(from, to);
    return `${writeDay(first)} ${writeDay(last)}`;
  };

  it.each([
    // Reads about midnight cut the days.
    ['2026-11-16T00:05:00', '2026-11-17T00:05:00', '2026-11-16 2026-11-16'],
    ['2026-11-15T23:55:00', '2026-11-16T23:55:00', '2026-11-16 2026-11-16'],
    ['2026-11-15T23:00:00', '2026-11-18T00:59:59', '2026-11-16 2026-11-17'],
    // Reads at other times lie inside of a day.
    ['2026-11-16T10:00:00', '2026-11-17T10:00:00', '2026-11-16 2026-11-17'],
    ['2026-11-15T22:59:00', '2026-11-18T01:00:00', '2026-11-15 2026-11-18'],
    // Between two reads about one midnight it can have been either day.
    ['2026-11-16T00:05:00', '2026-11-16T00:25:00', '2026-11-15 2026-11-16'],
    ['2026-11-15T23:01:00', '2026-11-15T23:05:00', '2026-11-15 2026-11-16'],
    ['2026-11-15T23:50:00', '2026-11-16T00:10:00', '2026-11-15 2026-11-16'],
    ['2026-11-16T12:00:00', '2026-11-16T12:00:00', '2026-11-16 2026-11-16'],
  ])('from %s to %s: %s', (from, to, expected) => {
    expect(days(from, to)).toBe(expected);
  });
});

describe('isDayEnd', () => {
  it.each([
    ['2026-11-16T00:00:00', true],
    ['2026-11-16T00:59:00', true],
    ['2026-11-15T23:00:00', true],
    ['2026-11-16T01:00:00', false],
    ['2026-11-15T22:59:00', false],
    ['2026-11-16T12:00:00', false],
  ])('%s: %s', (when, expected) => {
    expect(isDayEnd(when)).toBe(expected);
  });
});

describe('areAtOneDayEnd', () => {
  it.each([
    ['2026-11-15T23:01:00', '2026-11-15T23:05:00', true],
    ['2026-11-15T23:50:00', '2026-11-16T00:10:00', true],
    ['2026-11-15T22:50:00', '2026-11-16T00:10:00', false],
    ['2026-11-16T12:00:00', '2026-11-16T12:05:00', false],
    ['2026-11-16T00:05:00', '2026-11-17T00:05:00', false],
  ])('%s and %s: %s', (from, to, expected) => {
    expect(areAtOneDayEnd(from, to)).toBe(expected);
  });
});

describe('moveToMidnight', () => {
  it.each([
    ['00:00', 0],
    ['06:00', -360],
    ['12:00', -720],
    ['22:30', 90],
    ['24:00', null],
    ['6:00', null],
    ['06:60', null],
    ['', null],
  ])('%s: %s minutes', (time, minutes) => {
    expect(moveToMidnight(time)).toBe(minutes);
  });

  it('gives a day that ends early the name of the day before, and one that ends late its own', () => {
    expect(dayNumber('2026-11-17T05:59:00', moveToMidnight('06:00')!)).toBe(dayNumber('2026-11-16'));
    expect(dayNumber('2026-11-17T06:00:00', moveToMidnight('06:00')!)).toBe(dayNumber('2026-11-17'));
    expect(dayNumber('2026-11-16T21:59:00', moveToMidnight('22:00')!)).toBe(dayNumber('2026-11-16'));
    expect(dayNumber('2026-11-16T22:00:00', moveToMidnight('22:00')!)).toBe(dayNumber('2026-11-17'));
    expect(isDayEnd('2026-11-16T22:10:00', moveToMidnight('22:00')!)).toBe(true);
  });
});

describe('haveCommonDay', () => {
  it.each([
    [1, 3, 3, 5, true],
    [1, 3, 4, 5, false],
    [4, 5, 1, 3, false],
    [1, 9, 3, 4, true],
    [Number.NEGATIVE_INFINITY, 2, 1, 1, true],
    [Number.NEGATIVE_INFINITY, 2, 3, 3, false],
  ])('%s to %s and %s to %s: %s', (aFirst, aLast, bFirst, bLast, expected) => {
    const [a, b] = [
      { first: aFirst, last: aLast },
      { first: bFirst, last: bLast },
    ];
    expect(haveCommonDay(a, b)).toBe(expected);
    expect(haveCommonDay(b, a)).toBe(expected);
  });
});
