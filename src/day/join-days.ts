import { orderAttention } from '../attention/index.js';
import type { Day, DayFiles, DayMachines } from './day.js';
import { joinTotals } from './sum-day.js';

/**
 * Put the parts of one day together, each made of other machines: rows one after the other, sums added, the list in order.
 *
 * @throws RangeError when there is no part, or parts are of different days
 */
export function joinDays(parts: readonly Day[]): Day {
  const [first] = parts;
  if (first === undefined) throw new RangeError('a day needs a part');
  if (parts.some(({ day }) => day !== first.day)) throw new RangeError('parts of different days');
  return {
    day: first.day,
    files: addCounts<DayFiles>(parts.map(({ files }) => files)),
    machines: addCounts<DayMachines>(parts.map(({ machines }) => machines)),
    totals: joinTotals(parts.flatMap(({ totals }) => totals)),
    attention: orderAttention(parts.flatMap(({ attention }) => attention)),
    sales: parts.flatMap(({ sales }) => sales),
    cash: parts.flatMap(({ cash }) => cash),
    settlements: parts.flatMap(({ settlements }) => settlements),
    adjusted: parts.flatMap(({ adjusted }) => adjusted),
    refill: parts.flatMap(({ refill }) => refill),
  };
}

function addCounts<T extends { readonly [Key in keyof T]: number }>(parts: readonly T[]): T {
  const sums: Record<string, number> = {};
  for (const part of parts) {
    for (const [key, count] of Object.entries<number>(part)) sums[key] = (sums[key] ?? 0) + count;
  }
  return sums as T;
}
