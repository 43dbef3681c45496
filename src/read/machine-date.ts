import { isCalendarDate, isTimeOfDay, type LocalDate } from '../model/index.js';

// Two-digit years from here on are of the last century. No machine that writes captures is older.
const CENTURY_PIVOT = 80;

/** What a date or time element turned out to be. `unset` is all zeros: a machine's way of saying "never". */
export type DateState = 'good' | 'empty' | 'unset' | 'bad';

/**
 * The date in an element's text: YYMMDD (manual L0190D, p. 42) or YYYYMMDD (from memory).
 *
 * @returns the date, or null when it is empty, all zeros, or no date that exists
 */
export function parseMachineDate(text: string): LocalDate | null {
  const isShort = text.length === 6;
  if (!isShort && text.length !== 8) return null;
  const year = digitsOf(text, 0, text.length - 4);
  const fullYear = isShort ? centuryOf(year) + year : year;
  const month = digitsOf(text, text.length - 4, text.length - 2);
  if (year < 0 || !isCalendarDate(fullYear, month, digitsOf(text, text.length - 2, text.length))) return null;
  const century = isShort ? String(centuryOf(year) / 100) : '';
  return `${century}${text.slice(0, -4)}-${text.slice(-4, -2)}-${text.slice(-2)}`;
}

const centuryOf = (year: number): number => (year < CENTURY_PIVOT ? 2000 : 1900);

/**
 * The time in an element's text: HHMM (manual L0190D, p. 42) or HHMMSS (from memory).
 *
 * @returns `HH:MM:SS`, or null when it is empty or no time of day
 */
export function parseMachineTime(text: string): string | null {
  if (text.length !== 4 && text.length !== 6) return null;
  const second = text.length === 6 ? digitsOf(text, 4, 6) : 0;
  if (!isTimeOfDay(digitsOf(text, 0, 2), digitsOf(text, 2, 4), second)) return null;
  return `${text.slice(0, 2)}:${text.slice(2, 4)}:${text.length === 6 ? text.slice(4) : '00'}`;
}

/** The number in these characters, or -1 when they are not all digits. */
function digitsOf(text: string, start: number, end: number): number {
  let value = 0;
  for (let at = start; at < end; at++) {
    const digit = text.charCodeAt(at) - ZERO;
    if (digit < 0 || digit > 9) return -1;
    value = value * 10 + digit;
  }
  return value;
}

const ZERO = 0x30;

/** Judge a date (`YYMMDD`, `YYYYMMDD`) where it lies, without making text of it. */
export function classifyDate(bytes: Uint8Array, start: number, end: number): DateState {
  const length = end - start;
  if (length === 0) return 'empty';
  if (length !== 6 && length !== 8) return isAllZeros(bytes, start, end) ? 'unset' : 'bad';
  const year = digits(bytes, start, end - 4);
  const month = digits(bytes, end - 4, end - 2);
  const day = digits(bytes, end - 2, end);
  if (year === 0 && month === 0 && day === 0) return 'unset';
  if (year < 0) return 'bad';
  const fullYear = length === 8 ? year : year + centuryOf(year);
  return isCalendarDate(fullYear, month, day) ? 'good' : 'bad';
}

/** Judge a time (`HHMM`, `HHMMSS`) where it lies. */
export function classifyTime(bytes: Uint8Array, start: number, end: number): DateState {
  const length = end - start;
  if (length === 0) return 'empty';
  if (length !== 4 && length !== 6) return 'bad';
  const second = length === 6 ? digits(bytes, end - 2, end) : 0;
  return isTimeOfDay(digits(bytes, start, start + 2), digits(bytes, start + 2, start + 4), second) ? 'good' : 'bad';
}

/** The number in these bytes, or -1 when they are not all digits. */
function digits(bytes: Uint8Array, start: number, end: number): number {
  let value = 0;
  for (let at = start; at < end; at++) {
    const digit = bytes[at]! - ZERO;
    if (digit < 0 || digit > 9) return -1;
    value = value * 10 + digit;
  }
  return value;
}

function isAllZeros(bytes: Uint8Array, start: number, end: number): boolean {
  for (let at = start; at < end; at++) {
    if (bytes[at] !== ZERO) return false;
  }
  return true;
}
