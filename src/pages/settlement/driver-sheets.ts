import { groupBy } from '../../model/index.js';
import type { DriverTotals, Settlement, Visit } from '../../settlement/index.js';
import { pageOut } from '../frame/index.js';

/** What one driver has to answer for; a part of it where it is too much for one page. */
export interface DriverSheetGiven extends DriverTotals {
  readonly visits: readonly Visit[];
  /** Which part it is, from 1, and of how many. Sums and signatures stand on the last. */
  readonly part: number;
  readonly parts: number;
}

/**
 * The sheets of a settlement, driver by driver, in the order of its sums.
 *
 * @param sizeOf - bytes of a visit as it is rendered
 * @param mostBytes - how much of visits goes on one sheet
 */
export function divideByDriver(
  { drivers, visits }: Settlement,
  sizeOf: (visit: Visit) => number,
  mostBytes: number,
): DriverSheetGiven[] {
  const byDriver = groupBy(visits, ({ driver }) => driver);
  return drivers.flatMap((totals) => {
    const parts = pageOut(byDriver.get(totals.driver) ?? [], sizeOf, { bytes: mostBytes });
    return parts.map((own, place) => ({ ...totals, visits: own, part: place + 1, parts: parts.length }));
  });
}
