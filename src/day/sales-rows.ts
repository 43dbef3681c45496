import type { Step, StepColumn } from '../interval/index.js';
import type { DaySalesRow, SalesFlag } from './day.js';
import { nameMachine, periodOf } from './name-row.js';

const NOTHING: DaySalesRow['replaces'] = [];

/**
 * The sales of an interval: one row a column, in the machine's order.
 *
 * Each row is written out key by key: made by spreading what the rows have in common, a row took ten times as long to make,
 * and four times as long to read.
 */
export function makeSalesRows(interval: Step): DaySalesRow[] {
  const { machine, location, route } = nameMachine(interval.to);
  const { from, to, currency, decimals } = periodOf(interval);
  return interval.columns.map((sales) => {
    const { column, product, sold, value, test, free, priceFrom, priceTo, pricePlan, loss, unexplained } = sales;
    return {
      machine,
      location,
      route,
      from,
      to,
      currency,
      decimals,
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
      replaces: NOTHING,
    };
  });
}

function flagSales(sales: StepColumn, { restart, from, to }: Step): SalesFlag[] {
  const { sold, value, basis, floor, inFrom, inTo, priceFrom, priceTo, pricePlan, loss, unexplained } = sales;
  const isOff = pricePlan !== null && priceTo !== null && priceTo !== pricePlan;
  const flags: SalesFlag[] = [];
  if (sold === null || value === null) flags.push('not-known');
  if (restart !== null) flags.push('restart');
  if (floor) flags.push('floor');
  if (basis === 'interval') flags.push('interval-counters');
  if (!inFrom) flags.push('new-column');
  if (!inTo) flags.push('column-gone');
  if (isOff || (loss !== null && loss !== 0)) flags.push('off-plan');
  if (priceFrom !== null && priceTo !== null && priceFrom !== priceTo) flags.push('price-changed');
  if (unexplained !== null && unexplained !== 0) flags.push('unexplained');
  if (from.doubts.length > 0 || to.doubts.length > 0) flags.push('doubtful-capture');
  return flags;
}
