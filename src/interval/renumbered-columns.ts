import { addAll } from '../model/index.js';
import type { ColumnSales } from './column-sales.js';
import { type Difference, valueOrNothing } from './difference.js';
import { type MovedTotal, PAID_TOTALS } from './moved-totals.js';
import type { ReadPair } from './read-pair.js';

/**
 * Columns without what they cannot have sold. A controller can be set to number its columns otherwise, and their counters
 * stay as they are (from memory): a column that only the later read has did not start at 0 then, and where numbers changed
 * hands the counter of one goes down, while those of others rise by more than was sold. Where the columns come to more than
 * the machine sold by its own totals, it is in those that are new, and, where one went down, in any that rose by its share of
 * that or more: what these sold is not known.
 */
export function leaveOutRenumbered(pair: ReadPair, columns: readonly ColumnSales[]): readonly ColumnSales[] {
  // Counters since a reset that is known cover the time since then, under whatever number.
  const isNew = ({ inFrom, basis }: ColumnSales): boolean => !inFrom && !(basis === 'interval' && pair.keepsLifetime);
  const hasFallen = columns.some(isFallen);
  if (pair.restart !== null || !(hasFallen || columns.some(isNew))) return columns;
  const tooMuch = new Set<ColumnSales>();
  for (const kind of PAID_TOTALS) {
    const rose = ({ value, sold }: ColumnSales): number => (kind.unit === 'money' ? value : sold) ?? 0;
    const sum = addAll(columns.map(rose));
    const excess = (sum ?? Number.POSITIVE_INFINITY) - (soldByMachine(pair, kind) ?? Number.POSITIVE_INFINITY);
    if (!(excess > 0)) continue;
    for (const column of columns) {
      const least = isNew(column) ? 1 : hasFallen ? excess / columns.length : Number.POSITIVE_INFINITY;
      if (rose(column) >= least) tooMuch.add(column);
    }
  }
  return tooMuch.size === 0 ? columns : columns.map((column) => (tooMuch.has(column) ? withoutSales(column) : column));
}

const isFallen = ({ soldDifference, valueDifference }: ColumnSales): boolean =>
  soldDifference.why === 'backward' || valueDifference.why === 'backward';

/** What a counter of nothing shows is nothing under any number. */
const unknown = (difference: Difference): Difference =>
  difference.value ? { ...difference, value: null, why: 'renumbered' } : difference;

function withoutSales(column: ColumnSales): ColumnSales {
  const { sold, value, test, free } = column;
  return {
    ...column,
    ...{ sold: sold && null, value: value && null, test: test && null, free: free && null },
    ...{ split: [], discounts: null, unexplained: null, loss: null },
    soldDifference: unknown(column.soldDifference),
    valueDifference: unknown(column.valueDifference),
    testDifference: unknown(column.testDifference),
    freeDifference: unknown(column.freeDifference),
  };
}

/** What the machine sold in all by its own totals; null where they do not tell it. */
function soldByMachine(pair: ReadPair, { unit, total, devices }: MovedTotal): number | null {
  if (unit === 'money' && !pair.isSameMoney) return null;
  const movedBy = ([counter, sinceReset]: typeof total): Difference => pair.difference(counter, sinceReset);
  const moved = movedBy(total);
  if (isTotal(moved)) return moved.value;
  // Cash, which most machines take, must be said.
  const byDevice = devices.map(movedBy);
  return isTotal(byDevice[0]!) && !byDevice.some(({ floor }) => floor) ? addAll(byDevice.map(valueOrNothing)) : null;
}

/** Whether a counter tells all that moved. One that still stands at 0 may be one that the machine does not keep. */
const isTotal = ({ value, floor, to }: Difference): boolean => value !== null && !floor && (to ?? 0) > 0;
