import { describeMoney, type Minor } from '../model/index.js';
import type { CheckContext } from './check.js';

/** What a driver is told to do about a capture that cannot be used. */
export const READ_AGAIN = 'Read the machine again before you leave it, and keep this file as it is.';

/** So many cases of one kind are told one by one; what goes beyond is counted. */
export const MOST_ALIKE = 20;

/** An amount as the read's money: decimals and currency as far as they are known. */
export function writeMoney(amount: Minor, context: CheckContext): string {
  return describeMoney(amount, context.decimals, context.currency);
}

/** A number with its noun: `1 line`, `3 lines`. */
export function countOf(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** Items in a row, the first ones by name: `a, b, c and 4 more`. */
export function listSome(items: readonly string[], most = 8): string {
  if (items.length <= most) return items.join(', ');
  return `${items.slice(0, most).join(', ')} and ${items.length - most} more`;
}

/** A length of time in words a driver uses: `25 minutes`, `3 h 5 min`, `2 days 4 h`. */
export function writeDuration(minutes: number): string {
  if (minutes < 60) return countOf(minutes, 'minute');
  const hours = Math.floor(minutes / 60);
  if (hours < 48) return minutes % 60 === 0 ? countOf(hours, 'hour') : `${hours} h ${minutes % 60} min`;
  const days = Math.floor(hours / 24);
  return hours % 24 === 0 || days > 30 ? countOf(days, 'day') : `${countOf(days, 'day')} ${hours % 24} h`;
}

/** A local time as people read it: `2026-11-24 10:15`. */
export const writeWhen = (when: string): string => when.slice(0, 16).replace('T', ' ');
