import { ELEMENT } from '../dictionary/index.js';
import type { ColumnSales, Interval } from '../interval/index.js';
import { readStep, traceDifference } from './trace-difference.js';
import { constant, makeStep, negate, recompute, sumOf, type TraceStep, unknownStep, withheld } from './trace-step.js';

/** How each figure of a column comes about, by its name in the output. */
export function traceColumn(column: ColumnSales, interval: Interval): ReadonlyMap<string, () => TraceStep> {
  const name = column.product === null ? `Column ${column.column}` : `Column ${column.column}, ${column.product}`;
  return new Map<string, () => TraceStep>([
    ['sold', () => traceDifference(`${name}: paid vends`, column.soldDifference, interval)],
    ['value', () => traceValue(name, column, interval)],
    ['test', () => traceDifference(`${name}: test vends`, column.testDifference, interval)],
    ['free', () => traceDifference(`${name}: free vends`, column.freeDifference, interval)],
    ['priceFrom', () => tracePrice(`${name}: price before`, column, interval, 'from')],
    ['priceTo', () => tracePrice(`${name}: price now`, column, interval, 'to')],
    ['pricePlan', () => tracePlan(name, column)],
    ['unexplained', () => traceUnexplained(name, column)],
    ['loss', () => traceLoss(name, column)],
  ]);
}

function traceValue(name: string, { value, valueDifference }: ColumnSales, interval: Interval): TraceStep {
  const step = traceDifference(`${name}: value of paid vends`, valueDifference, interval);
  return value === null && step.value !== null ? withheld(step) : step;
}

function tracePrice(label: string, column: ColumnSales, interval: Interval, end: 'from' | 'to'): TraceStep {
  const printed = end === 'from' ? column.priceFrom : column.priceTo;
  const when = end === 'from' ? 'at the earlier read' : 'at the later read';
  const price = interval[end].read.column(column.column)?.price ?? null;
  const step = sumOf(label, 'money', [readStep(when, interval[end], ELEMENT.PA102, column.column, price)]);
  return printed === null && price !== null ? withheld(step) : step;
}

function tracePlan(name: string, { pricePlan }: ColumnSales): TraceStep {
  const label = `${name}: price by the plan in force at the later read`;
  return pricePlan === null
    ? unknownStep(label, 'money', 'No plan gives a price for this column.')
    : makeStep({ how: 'sheet', label, value: pricePlan, unit: 'money' });
}

function traceUnexplained(name: string, column: ColumnSales): TraceStep {
  const { value, unexplained, split, discounts } = column;
  const label = `${name}: value that no known price explains`;
  if (value === null || unexplained === null) {
    return unknownStep(label, 'money', 'Sales, their value or the price is not known, so it cannot be judged.');
  }
  const shares = sharesOf(column);
  const given = discounts === null || discounts === 0 ? [] : [constant('discounts given', discounts)];
  for (const extra of [[], given]) {
    const step = sumOf(label, 'money', [figure(column, 'value', value), ...extra, ...shares.map(negate)]);
    if (step.value === unexplained && (split.length > 0 || value === 0)) return step;
  }
  const explained = constant('the nearest that the known prices can give', value - unexplained);
  return sumOf(label, 'money', [figure(column, 'value', value), negate(explained)]);
}

function sharesOf({ split }: ColumnSales): TraceStep[] {
  return split.map(({ count, price, list }) => {
    const where = list === undefined ? '' : ` (${list})`;
    const parts = [constant('vends', count, 'count'), constant(`price${where}`, price)];
    const step = makeStep({
      how: 'product',
      label: `${count} vends at their price${where}`,
      value: null,
      unit: 'money',
      parts,
    });
    return { ...step, value: recompute(step) };
  });
}

function traceLoss(name: string, column: ColumnSales): TraceStep {
  const { loss, sold, value, pricePlan, discounts } = column;
  const label = `${name}: what prices off plan cost`;
  if (loss === null || sold === null || pricePlan === null) {
    return unknownStep(label, 'money', 'Sales or the planned price are not known.');
  }
  if (loss === 0) return constant(label, 0, 'money', 'Nothing was sold off plan.');
  const parts = [constant('vends', sold, 'count'), constant('price by the plan', pricePlan)];
  const planned = makeStep({
    how: 'product',
    label: 'what the plan would have brought',
    value: null,
    unit: 'money',
    parts,
  });
  const charged = [
    figure(column, 'value', value),
    ...(discounts === null || discounts === 0 ? [] : [constant('discounts given', discounts)]),
  ];
  const step = sumOf(label, 'money', [{ ...planned, value: recompute(planned) }, ...charged.map(negate)]);
  if (step.value === loss) return step;
  return constant(
    label,
    loss,
    'money',
    'Share by share: vends × (price by the plan in force then − price charged); lists that the plan gives no price for are not judged.',
  );
}

function figure(column: ColumnSales, name: string, value: number | null): TraceStep {
  return makeStep({
    how: 'figure',
    label: `${name} of column ${column.column}`,
    value,
    unit: 'money',
    ref: `columns.${column.column}.${name}`,
  });
}
