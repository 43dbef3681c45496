import type { LocalDateTime } from '../model/index.js';
import { parseMachineDate, parseMachineTime } from './machine-date.js';

/**
 * The date and time that a reader appended to ST: as one element (YYMMDDHHMMSS, or with a four-digit year, or without
 * seconds) or as a date and a time in two. Common practice; the layouts are from memory.
 *
 * @param elements - what stands after ST02
 * @returns null when that is no date and time that exists
 */
export function parseAppendedTime(elements: readonly string[]): LocalDateTime | null {
  const [first = '', second = ''] = elements;
  const digits = parseMachineTime(second) === null ? first : first + second;
  const match = /^(\d{8}|\d{6})(\d{6})$/.exec(digits) ?? /^(\d{8}|\d{6})(\d{4})$/.exec(digits);
  if (match === null) return null;
  const date = parseMachineDate(match[1]!);
  const time = parseMachineTime(match[2]!);
  return date === null || time === null ? null : `${date}T${time}`;
}
