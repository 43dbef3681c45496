import type { ColumnSales, Interval } from '../interval/index.js';
import type { DaySalesRow, SalesFlag } from './day.js';
import { nameMachine, periodOf } from './name-row.js';

/** The sales of an interval: one row a column, in the machine's order. */
export function makeSalesRows(interval: Interval): DaySalesRow[] {
  const place = { ...nameMachine(interval.to), ...periodOf(interval) };
  return interval.columns.map((sales) => {
    const { column, product, sold, value, test, free, priceFrom, priceTo, pricePlan, loss, unexplained } = sales;
    return {
      ...place,
      column,
      product,
      sold,
      value,
      test,
      free,
      priceFrom,
      priceTo,
      pricePlan,
      loss,
      unexplained,
      flags: flagSales(sales, interval),
    };
  });
}

function flagSales(sales: ColumnSales, { pair }: Interval): SalesFlag[] {
  const { sold, value, basis, floor, inFrom, inTo, priceFrom, priceTo, pricePlan, loss, unexplained } = sales;
  const isOff = pricePlan !== null && priceTo !== null && priceTo !== pricePlan;
  const flags: readonly (readonly [SalesFlag, boolean])[] = [
    ['not-known', sold === null || value === null],
    ['restart', pair.restart !== null],
    ['floor', floor],
    ['interval-counters', basis === 'interval'],
    ['new-column', !inFrom],
    ['column-gone', !inTo],
    ['off-plan', isOff || (loss !== null && loss !== 0)],
    ['price-changed', priceFrom !== null && priceTo !== null && priceFrom !== priceTo],
    ['unexplained', unexplained !== null && unexplained !== 0],
  ];
  return flags.filter(([, holds]) => holds).map(([flag]) => flag);
}
