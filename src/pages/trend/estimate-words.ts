import type { RefillFlag } from '../../day/index.js';
import type { Estimate } from './trend.js';

/** A number to two digits, and no more than one behind the point: more would seem to be known. */
export function roundWords(value: number): string {
  if (!Number.isFinite(value)) return 'no end';
  if (value > 0 && value < 0.01) return 'under 0.01';
  if (value >= 10) return String(Math.round(value));
  return value < 0.1 && value > 0 ? value.toFixed(2) : value.toFixed(1);
}

/** `3.2 (2.5 to 4.1)`. */
export function estimateWords({ value, limits: { low, high } }: Estimate): string {
  return `${roundWords(value)} (${roundWords(low)} to ${high === null ? 'no end' : roundWords(high)})`;
}

/** How long something lasts: where it never sold only the least is said. */
export function waitWords(empty: Estimate): string {
  if (!Number.isFinite(empty.value)) return `none sold so far; ${roundWords(empty.limits.low)} or more`;
  return estimateWords(empty);
}

/** Why what a column holds is doubtful. */
export const DOUBT_WORDS: Readonly<Record<RefillFlag, string>> = {
  'no-fill-known': 'no fill is known',
  'visit-unread': 'a visit after the fill was not read',
  floor: 'it vended at least as much as counted',
  restart: 'the counters started again',
  absent: 'a counter is missing',
  'new-column': 'it was not there at the fill',
  'more-than-par': 'more was vended than par',
  'no-par': 'no par is known',
  old: 'the machine was not read that day',
};
