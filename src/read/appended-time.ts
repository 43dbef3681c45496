import type { LocalDateTime } from '../model/index.js';
import { parseMachineDate, parseMachineTime } from './machine-date.js';

// With seconds and without, the year in two digits or four: twelve digits may be either, and the first that exists holds.
const LAYOUTS = [/^(\d{6})(\d{6})$/, /^(\d{8})(\d{6})$/, /^(\d{6})(\d{4})$/, /^(\d{8})(\d{4})$/];

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
  for (const layout of LAYOUTS) {
    const match = layout.exec(digits);
    const date = match === null ? null : parseMachineDate(match[1]!);
    const time = date === null ? null : parseMachineTime(match![2]!);
    if (time !== null) return `${date}T${time}`;
  }
  return null;
}
