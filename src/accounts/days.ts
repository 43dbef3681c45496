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

/**
 * The days of which something may have been sold between two times; see {@link MIDNIGHT_MINUTES}. Between two that stand for
 * the same midnight it can be either day.
 */
export function spanBetween(from: LocalDateTime, to: LocalDateTime, moveMinutes = 0): DaySpan {
  const first = dayNumber(from, moveMinutes + MIDNIGHT_MINUTES);
  const last = dayNumber(to, moveMinutes - MIDNIGHT_MINUTES);
  return { first: Math.min(first, last), last: Math.max(first, last) };
}

/** Whether both times stand for the same midnight. */
export function areAtOneDayEnd(from: LocalDateTime, to: LocalDateTime, moveMinutes = 0): boolean {
  return dayNumber(from, moveMinutes + MIDNIGHT_MINUTES) > dayNumber(to, moveMinutes - MIDNIGHT_MINUTES);
}

/** Whether a time stands for midnight, so that one day ends there and the next begins. */
export function isDayEnd(when: LocalDateTime, moveMinutes = 0): boolean {
  const before = dayNumber(when, moveMinutes - MIDNIGHT_MINUTES);
  return dayNumber(when, moveMinutes + MIDNIGHT_MINUTES) > before;
}

/**
 * The minutes by which times must be moved for days that end at another time than midnight: to the nearer midnight, so that
 * a day which ends at 06:00 has the name of the day before, and one that ends at 22:00 its own.
 *
 * @param time - `HH:MM`
 * @returns null when it is no time of day
 */
export function moveToMidnight(time: string): number | null {
  const match = /^([01]\d|2[0-3]):([0-5]\d)$/.exec(time);
  if (match === null) return null;
  const minutes = Number(match[1]) * 60 + Number(match[2]);
  return minutes <= 12 * 60 ? 0 - minutes : 24 * 60 - minutes;
}

/** The minutes from a time to the end of a day; below 0 where the day is over. */
export function minutesToEndOf(day: LocalDate, when: LocalDateTime): number {
  return ((dayNumber(day) + 1) * DAY - Date.parse(`${when}Z`)) / MINUTE;
}

/** Whether two spans have a day in common. */
export function haveCommonDay(a: DaySpan, b: DaySpan): boolean {
  return a.first <= b.last && b.first <= a.last;
}

/** How many days spans hold, each counted once. */
export function countDays(spans: readonly DaySpan[]): number {
  let [days, until] = [0, Number.NEGATIVE_INFINITY];
  for (const { first, last } of [...spans].sort((a, b) => a.first - b.first)) {
    days += Math.max(0, last - Math.max(first, until + 1) + 1);
    until = Math.max(until, last);
  }
  return days;
}
