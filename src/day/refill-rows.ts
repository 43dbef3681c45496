import type { MachineStock } from '../attention/index.js';
import { bestTime } from '../interval/index.js';
import type { LocalDate } from '../model/index.js';
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
  const place = {
    ...nameMachine(until),
    since: fill === null ? null : bestTime(fill),
    until: untilTime,
    basis: fillBasis,
  };
  return columns.map(({ soldOut, doubts, ...column }) => ({
    ...place,
    ...column,
    soldOut: soldOut?.by ?? null,
    flags: [...doubts, ...old],
  }));
}
