import type { CashAnchor } from '../frame/index.js';
import { cashAnchor } from '../frame/index.js';

/** The id of what says where a cash figure comes from. Intervals of a page are counted from 1. */
export function cashTraceId(figure: CashAnchor, interval: number): string {
  return `how-${cashAnchor(figure, interval)}`;
}

/** The same for the figures of a column, by its place in the interval, from 0. */
export function columnTraceId(place: number, interval: number): string {
  return `how-${interval}-column-${place}`;
}

/** The same for the sums of an interval. */
export function totalTraceId(figure: string, interval: number): string {
  return `how-${interval}-total-${figure}`;
}
