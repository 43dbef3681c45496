import type { LocalDate, LocalDateTime } from '../model/index.js';

/** Days from the first to the last, both included, as numbers that count up by one a day. `first` may be −Infinity. */
export interface DaySpan {
  readonly first: number;
  readonly last: number;
}

const MINUTE = 60_000;
const DAY = 24 * 60 * MINUTE;

/**
 * A read this near to midnight stands for midnight: reads at night and a processor's day are both cut about then, and no
 * more exactly (common practice).
 */
export const MIDNIGHT_MINUTES = 60;

/** The number of the day that a time falls on, as it is or moved by so many minutes. */
export function dayNumber(when: LocalDateTime | LocalDate, moveMinutes = 0): number {
  // A zone must be named for the arithmetic to be the same on every machine; days count alike in any.
  const instant = Date.parse(`${when.length === 10 ? `${when}T00:00:00` : when}Z`);
  return Math.floor((instant + moveMinutes * MINUTE) / DAY);
}

/** The day of a number, such as `2026-11-24`. */
export function writeDay(day: number): LocalDate {
  return new Date(day * DAY).toISOString().slice(0, 10);
}

/** The days of which something may have been sold between two times; see {@link MIDNIGHT_MINUTES}. */
export function spanBetween(from: LocalDateTime, to: LocalDateTime): DaySpan {
  const first = dayNumber(from, MIDNIGHT_MINUTES);
  return { first, last: Math.max(first, dayNumber(to, -MIDNIGHT_MINUTES)) };
}

/** Whether two spans have a day in common. */
export function haveCommonDay(a: DaySpan, b: DaySpan): boolean {
  return a.first <= b.last && b.first <= a.last;
}
