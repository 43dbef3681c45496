import type { MachineStock } from '../attention/index.js';
import { bestTime, type LocalDate } from '../model/index.js';
import type { RefillFlag, RefillRow } from './day.js';
import { nameMachine } from './name-row.js';

/**
 * What every column of a machine needs to be at par again: one row a column, in the machine's order.
 *
 * @param day - a machine whose last read is of an earlier day is marked `old`
 */
export function makeRefillRows(stock: MachineStock, day: LocalDate): RefillRow[] {
  const { fill, fillBasis, until, columns } = stock;
  const untilTime = bestTime(until);
  const isOld = untilTime === null || untilTime.slice(0, 10) < day;
  const old: RefillFlag[] = isOld ? ['old'] : [];
  const { machine, location, route } = nameMachine(until);
  const since = fill === null ? null : bestTime(fill);
  return columns.map(({ column, product, par, capacity, sold, test, free, left, toFill, soldOut, doubts }) => ({
    machine,
    location,
    route,
    column,
    product,
    par,
    capacity,
    since,
    until: untilTime,
    basis: fillBasis,
    sold,
    test,
    free,
    left,
    toFill,
    soldOut: soldOut?.by ?? null,
    flags: [...doubts, ...old],
  }));
}
