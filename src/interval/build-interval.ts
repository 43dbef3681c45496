import { type Finding, makeFinding } from '../findings/index.js';
import { add, type LocalDate, type Minor } from '../model/index.js';
import type { Roster } from '../sheets/index.js';
import { type CashMovement, moveCash } from './cash-movement.js';
import { judgeColumns } from './column-findings.js';
import { type ColumnSales, measureColumn } from './column-sales.js';
import { judgeCounters } from './counter-findings.js';
import { compareCrossTotals } from './cross-total-changes.js';
import type { Basis, Difference } from './difference.js';
import type { Interval, IntervalTotals } from './interval.js';
import { judgePair } from './pair-findings.js';
import { ReadPair } from './read-pair.js';
import { bestTime, type TakenRead } from './taken-read.js';

/**
 * What happened at one machine between two of its reads: sales by column, prices, cash, tubes, every difference explained
 * or named as unexplained. A counter that went back is told with its cause and never becomes a negative sale.
 *
 * @param from - the earlier read
 * @param to - the later read, of the same machine
 * @param roster - for the plan; an empty one says nothing of prices
 * @throws RangeError when both are the same read
 */
export function buildInterval(from: TakenRead, to: TakenRead, roster: Roster): Interval {
  const pair = new ReadPair(from, to);
  const columns = columnIds(pair).map((id) => measureColumn(pair, id, planOf(pair, id, roster)));
  const money = moveCash(pair);
  const vends = {
    count: pair.difference('VA102', 'VA104'),
    value: pair.difference('VA101', 'VA103'),
    test: pair.difference('VA202', 'VA204'),
    free: pair.difference('VA302', 'VA304'),
  };
  const isSameMoney = from.currency === to.currency && from.decimals === to.decimals;
  const differences = [...Object.values(vends), ...Object.values(money.differences)];
  const findings: Finding[] = [
    ...judgePair(pair),
    ...judgeCounters(pair, differences, columns),
    ...judgeColumns(pair, columns),
    ...money.findings,
    ...compareCrossTotals(pair),
  ];
  return {
    from,
    to,
    clockFrom: from.read.clock,
    clockTo: to.read.clock,
    currency: to.currency,
    decimals: to.decimals,
    basis: overallBasis(pair, columns, vends.count),
    floor: pair.restart !== null || [...differences, ...columns].some(({ floor }) => floor),
    columns: isSameMoney ? columns : columns.map(withoutMoney),
    totals: sumUp(columns, vends, isSameMoney),
    cash: isSameMoney ? money.cash : withoutCash(money.cash),
    differences: money.differences,
    findings: isSameMoney ? findings : [sayCurrencyChanged(pair), ...findings],
    pair,
  };
}

/** The columns of the later read in its order, then those that only the earlier one has. */
function columnIds(pair: ReadPair): string[] {
  const ids = pair.to.read.columns.map((column) => column.id);
  for (const { id } of pair.from.read.columns) {
    if (pair.to.read.column(id) === null) ids.push(id);
  }
  return ids;
}

function planOf(pair: ReadPair, column: string, roster: Roster) {
  const machine = pair.to.machine?.machine;
  if (machine === undefined) return { from: null, to: null };
  return {
    from: roster.planned(machine, column, dateOfRead(pair.from)),
    to: roster.planned(machine, column, dateOfRead(pair.to)),
  };
}

const dateOfRead = (taken: TakenRead): LocalDate | null => bestTime(taken)?.slice(0, 10) ?? null;

function overallBasis(pair: ReadPair, columns: readonly ColumnSales[], vends: Difference): Basis {
  if (pair.isRestarted) return 'restart';
  const known = columns.filter((column) => column.sold !== null);
  const bases = known.length > 0 ? known.map((column) => column.basis) : [vends.basis];
  return bases.every((basis) => basis === 'interval') ? 'interval' : 'lifetime';
}

interface VendDifferences {
  readonly count: Difference;
  readonly value: Difference;
  readonly test: Difference;
  readonly free: Difference;
}

/** Sums of the columns; where a column is not known, or there are none, the machine's own totals. */
function sumUp(columns: readonly ColumnSales[], vends: VendDifferences, isSameMoney: boolean): IntervalTotals {
  const sum = (of: (column: ColumnSales) => number | null, own: number | null): number | null =>
    (columns.length === 0 ? null : add(...columns.filter((column) => column.inTo).map(of))) ?? own;
  const money = (amount: Minor | null): Minor | null => (isSameMoney ? amount : null);
  return {
    sold: sum((column) => column.sold, vends.count.value),
    value: money(sum((column) => column.value, vends.value.value)),
    test: sum((column) => column.test, vends.test.value),
    free: sum((column) => column.free, vends.free.value),
    loss: money(columns.some((column) => column.pricePlan !== null) ? sumLoss(columns) : null),
    unexplained: money(sum((column) => column.unexplained, null)),
  };
}

/** The loss over the columns that have a plan. */
function sumLoss(columns: readonly ColumnSales[]): Minor | null {
  return add(...columns.filter((column) => column.pricePlan !== null && column.inTo).map((column) => column.loss));
}

/** Amounts in different currencies or decimals can not be taken from each other: what moved is not known. */
function withoutMoney(column: ColumnSales): ColumnSales {
  return { ...column, value: null, split: [], discounts: null, unexplained: null, loss: null };
}

function withoutCash(cash: CashMovement): CashMovement {
  const amounts = Object.fromEntries(Object.keys(cash).map((key) => [key, null]));
  return {
    ...(amounts as unknown as CashMovement),
    tubesFrom: cash.tubesFrom,
    tubesTo: cash.tubesTo,
    isCashBookedAsCard: false,
  };
}

function sayCurrencyChanged({ from, to }: ReadPair): Finding {
  const say = ({ currency, decimals }: TakenRead): string =>
    `${currency ?? 'no currency'} with ${decimals ?? 'unknown'} decimals`;
  return makeFinding(
    'currency-changed',
    `The earlier read is in ${say(from)}, the later in ${say(to)}: amounts cannot be taken from each other.`,
    { file: to.file, read: to.read.number, related: [{ file: from.file, read: from.read.number }] },
  );
}
