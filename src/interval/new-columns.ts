import { ELEMENT, type ElementDef } from '../dictionary/index.js';
import { addAll } from '../model/index.js';
import { type Difference, valueOrNothing } from './difference.js';
import { PAID_TOTALS } from './moved-totals.js';
import type { ReadPair } from './read-pair.js';

/**
 * Whether the columns that only the later read has can all have started at 0 since the earlier one (domain rule: a column
 * only in the later read started at 0): together with the others they did not sell more than the machine did. Columns that
 * were given other numbers kept their counters, and what these show was sold before.
 *
 * @param pair - what its columns moved by, new ones taken to have started at 0
 */
export function canHaveStartedAtZero(pair: ReadPair): boolean {
  return PAID_TOTALS.every(({ unit, total, devices, ofColumn }) => {
    if (unit === 'money' && !pair.isSameMoney) return true;
    const movedBy = ([counter, sinceReset]: typeof total): Difference => pair.difference(counter, sinceReset);
    const moved = movedBy(total);
    const sold = isTotal(moved) ? moved.value : sumOfDevices(devices.map(movedBy));
    if (sold === null) return true;
    const [lifetime, interval] = ofColumn.map((name) => ELEMENT[name]) as [ElementDef, ElementDef];
    const byColumn = pair.to.read.columns.map((after) => {
      const ends = { id: after.id, before: pair.from.read.column(after.id), after };
      return pair.betweenColumns(ends, lifetime, interval).value;
    });
    // What is not known of one column is no reason for the others to have sold more.
    return (addAll(byColumn.map((value) => value ?? 0)) ?? Infinity) <= sold;
  });
}

/** Whether a counter tells all that moved. One that still stands at 0 may be one that the machine does not keep. */
const isTotal = ({ value, floor, to }: Difference): boolean => value !== null && !floor && (to ?? 0) > 0;

/** What all ways of paying moved by; null where one is not known, or cash, which most machines take, is not said. */
function sumOfDevices(devices: readonly Difference[]): number | null {
  const [cash] = devices;
  if (cash === undefined || !isTotal(cash) || devices.some(({ floor }) => floor)) return null;
  return addAll(devices.map(valueOrNothing));
}
