import { type ColumnSales, type Interval, type TakenRead, tellStep } from '../../interval/index.js';
import { timeOfRead } from '../../model/index.js';
import type { IntervalJson } from '../shapes/interval.js';
import { findingToJson } from './finding-json.js';

/** An interval as programs get it. */
export function intervalToJson(interval: Interval): IntervalJson {
  const { from, to, currency, decimals, basis, floor, columns, totals, cash } = interval;
  const { isCashBookedAsCard: _, ...amounts } = cash;
  return {
    machine: machineToJson(to),
    from: endToJson(from),
    to: endToJson(to),
    currency,
    decimals,
    basis,
    floor,
    columns: columns.map(columnToJson),
    totals,
    cash: amounts,
    findings: tellStep(interval).map(findingToJson),
  };
}

function machineToJson({ machine, read }: TakenRead): IntervalJson['machine'] {
  return { name: machine?.machine ?? null, location: machine?.location ?? null, ...read.machine };
}

function endToJson(taken: TakenRead): IntervalJson['from'] {
  const { file, read, receivedAt, reason } = taken;
  const { time = null, kind = null } = timeOfRead(taken) ?? {};
  return { file, read: read.number, time, timeKind: kind, clock: read.clock, receivedAt, reason };
}

function columnToJson(column: ColumnSales): IntervalJson['columns'][number] {
  const { sold, value, priceFrom, priceTo, pricePlan, split, test, free, discounts, unexplained, loss } = column;
  return {
    column: column.column,
    product: column.product,
    sold,
    value,
    priceFrom,
    priceTo,
    pricePlan,
    split: [...split],
    test,
    free,
    discounts,
    unexplained,
    loss,
    basis: column.basis,
    floor: column.floor,
  };
}
