import { differenceInMinutes } from 'date-fns/differenceInMinutes';

/** A date without a zone, `2026-11-24`. Compares as text. */
export type LocalDate = string;
/** A date and time without a zone, `2026-11-24T10:15:00`. Compares as text. */
export type LocalDateTime = string;

const DAY_MS = 24 * 60 * 60 * 1000;
const DAYS_IN_MONTH = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/** Whether the parts name a day of the Gregorian calendar. Month and day count from 1. */
export function isCalendarDate(year: number, month: number, day: number): boolean {
  if (month < 1 || month > 12 || day < 1) return false;
  const isLeap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  return day <= DAYS_IN_MONTH[month - 1]! + (month === 2 && isLeap ? 1 : 0);
}

/** Whether the parts name a time of day, 00:00:00 to 23:59:59. */
export function isTimeOfDay(hour: number, minute: number, second: number): boolean {
  return hour >= 0 && hour < 24 && minute >= 0 && minute < 60 && second >= 0 && second < 60;
}

const two = (value: number): string => String(value).padStart(2, '0');

/** Write a date from parts that {@link isCalendarDate} accepts. */
export function writeDate(year: number, month: number, day: number): LocalDate {
  return `${String(year).padStart(4, '0')}-${two(month)}-${two(day)}`;
}

/** Write a time from parts that {@link isTimeOfDay} accepts. */
export function writeTime(hour: number, minute: number, second: number): string {
  return `${two(hour)}:${two(minute)}:${two(second)}`;
}

/** The date part of a date-time, or the date itself. */
export function dateOf(when: LocalDateTime | LocalDate): LocalDate {
  return when.slice(0, 10);
}

// A zone must be named for the arithmetic to be the same on every machine; both ends get the same one, so it cancels.
// Read as the language itself reads its date-time strings (ECMA-262, "Date Time String Format").
const toInstant = (when: LocalDateTime): Date => new Date(`${when}Z`);

/** The date so many days after another, or before it; a date that no calendar of four digits has is left as it is. */
export function moveDate(date: LocalDate, days: number): LocalDate {
  const moved = new Date(Date.parse(`${date}T00:00:00Z`) + days * DAY_MS).toISOString();
  return /^\d{4}-/.test(moved) ? moved.slice(0, 10) : date;
}

/** Whole minutes from `a` to `b`, negative when `b` is earlier. Both machine-local, so daylight-saving jumps count. */
export function minutesBetween(a: LocalDateTime, b: LocalDateTime): number {
  return differenceInMinutes(toInstant(b), toInstant(a));
}

/** Whether a text is a {@link LocalDateTime} that exists. */
export function isLocalDateTime(text: string): boolean {
  if (!/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d$/.test(text)) return false;
  const instant = toInstant(text);
  // A 30 February may be read as a day of March.
  return !Number.isNaN(instant.getTime()) && instant.toISOString().startsWith(text);
}
