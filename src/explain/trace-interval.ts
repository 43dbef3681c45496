import type { ColumnSales, Interval } from '../interval/index.js';
import { addAll } from '../model/index.js';
import { traceCash } from './trace-cash.js';
import { traceColumn } from './trace-columns.js';
import { traceDifference } from './trace-difference.js';
import { makeStep, sumOf, type TraceStep, unknownStep, withheld } from './trace-step.js';

/** Traces of figures by id, each worked out when it is asked for. */
export type Traces = ReadonlyMap<string, () => TraceStep>;

/** Every figure of an interval by its id, such as `columns.11.sold` or `cash.toCashBox`. */
export function traceInterval(interval: Interval): Traces {
  const traces = new Map<string, () => TraceStep>();
  const addAll = (prefix: string, own: ReadonlyMap<string, () => TraceStep>): void => {
    for (const [name, trace] of own) traces.set(`${prefix}.${name}`, trace);
  };
  addAll('totals', traceTotals(interval));
  addAll('cash', traceCash(interval));
  for (const column of interval.columns) addAll(`columns.${column.column}`, traceColumn(column, interval));
  return traces;
}

type Summed = 'sold' | 'value' | 'test' | 'free' | 'unexplained' | 'loss';

function traceTotals(interval: Interval): ReadonlyMap<string, () => TraceStep> {
  return new Map<string, () => TraceStep>([
    ['sold', () => traceTotal('Paid vends of all columns', 'sold', 'count', interval, ['VA102', 'VA104'])],
    [
      'value',
      () => traceTotal('Value of the paid vends of all columns', 'value', 'money', interval, ['VA101', 'VA103']),
    ],
    ['test', () => traceTotal('Test vends of all columns', 'test', 'count', interval, ['VA202', 'VA204'])],
    ['free', () => traceTotal('Free vends of all columns', 'free', 'count', interval, ['VA302', 'VA304'])],
    ['unexplained', () => traceTotal('Value that no known price explains', 'unexplained', 'money', interval, null)],
    ['loss', () => traceTotal('What prices off plan cost', 'loss', 'money', interval, null)],
  ]);
}

/** The sum of the columns; where one is not known, or there are none, the machine's own total. */
function traceTotal(
  label: string,
  figure: Summed,
  unit: TraceStep['unit'],
  interval: Interval,
  own: readonly ['VA102' | 'VA101' | 'VA202' | 'VA302', 'VA104' | 'VA103' | 'VA204' | 'VA304'] | null,
): TraceStep {
  const isCounted = (column: ColumnSales): boolean => figure !== 'loss' || (column.inTo && column.pricePlan !== null);
  const counted = interval.columns.filter(isCounted);
  const parts = counted.map((column) => partOf(column, figure, unit));
  const isSumKnown = counted.length > 0 && addAll(parts.map(({ value }) => value)) !== null;
  if (isSumKnown) return sumOf(label, unit, parts);
  const open = parts.filter(({ value }) => value === null);
  if (own !== null) {
    const step = traceDifference(
      `${label}, by the machine's own total`,
      interval.pair.difference(own[0], own[1]),
      interval,
    );
    const why =
      counted.length === 0
        ? 'The reads have no columns.'
        : 'Not every column is known, so the total of the machine is taken.';
    if (interval.totals[figure] !== null)
      return { ...step, note: [why, step.note].filter((note) => note !== null).join(' ') };
    if (step.value !== null) return withheld(step);
    return { ...step, parts: [...step.parts, ...open] };
  }
  return unknownStep(
    label,
    unit,
    counted.length === 0 ? 'No column has what it takes.' : 'Not every column is known.',
    open,
  );
}

function partOf(column: ColumnSales, figure: Summed, unit: TraceStep['unit']): TraceStep {
  const product = column.product === null ? '' : `, ${column.product}`;
  return makeStep({
    how: 'figure',
    label: `column ${column.column}${product}`,
    value: column[figure],
    unit,
    ref: `columns.${column.column}.${figure}`,
  });
}
