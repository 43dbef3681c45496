import type { Finding } from '../findings/index.js';
import { add, type LocalDate } from '../model/index.js';
import { weighFindings } from '../profile/index.js';
import type { Roster } from '../sheets/index.js';
import { type CashMovement, moveCash } from './cash-movement.js';
import { judgeColumns } from './column-findings.js';
import { type ColumnSales, measureColumn, type PlanEnds } from './column-sales.js';
import { judgeCounters } from './counter-findings.js';
import { compareCrossTotals } from './cross-total-changes.js';
import type { Basis, Difference } from './difference.js';
import type { Interval, IntervalTotals } from './interval.js';
import { judgePair } from './pair-findings.js';
import { PaymentLists } from './payment-lists.js';
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
  const lists = new PaymentLists(pair);
  const columns = columnIds(pair).map((id) => measureColumn(pair, id, planOf(pair, id, roster), lists));
  const money = moveCash(pair);
  const vends = measureVends(pair);
  const differences = [...Object.values(vends), ...Object.values(money.differences)];
  if (money.bills !== null) differences.push(money.bills);
  const judged = columns.flatMap(({ inFrom, inTo, ...column }) =>
    inFrom && inTo ? [column.soldDifference, column.valueDifference, column.testDifference, column.freeDifference] : [],
  );
  const { isSameMoney } = pair;
  const findings: Finding[] = [
    ...judgePair(pair),
    ...judgeCounters(
      pair,
      [...differences, ...judged].filter((one) => isSameMoney || one.element.kind === 'count'),
    ),
    ...judgeColumns(pair, columns),
    ...(isSameMoney ? money.findings : []),
    ...compareCrossTotals(pair),
  ];
  return {
    from,
    to,
    clockFrom: from.read.clock,
    clockTo: to.read.clock,
    currency: pair.currency,
    decimals: pair.decimals,
    basis: overallBasis(pair, columns, vends.count),
    floor: pair.restart !== null || [...differences, ...columns].some(({ floor }) => floor),
    columns: isSameMoney ? columns : columns.map(withoutMoney),
    totals: sumUp(columns, vends, isSameMoney),
    cash: isSameMoney ? money.cash : withoutCash(money.cash),
    differences: money.differences,
    findings: weighFindings(findings, to.profile),
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

/** Plan prices are in the money of the roster's machine; a capture in other money can not be held against them. */
function planOf(pair: ReadPair, column: string, roster: Roster): PlanEnds {
  const { machine } = pair.to;
  if (machine === null) return { from: null, to: null, isSameMoney: true };
  const agrees = <T>(a: T | null, b: T | null): boolean => a === null || b === null || a === b;
  return {
    from: roster.planned(machine.machine, column, dateOfRead(pair.from)),
    to: roster.planned(machine.machine, column, dateOfRead(pair.to)),
    isSameMoney: agrees(machine.currency, pair.currency) && agrees(machine.decimals, pair.decimals),
  };
}

const dateOfRead = (taken: TakenRead): LocalDate | null => bestTime(taken)?.slice(0, 10) ?? null;

/** The machine's own totals of vends. */
interface VendDifferences {
  readonly count: Difference;
  readonly value: Difference;
  readonly test: Difference;
  readonly free: Difference;
}

function measureVends(pair: ReadPair): VendDifferences {
  return {
    count: pair.difference('VA102', 'VA104'),
    value: pair.difference('VA101', 'VA103'),
    test: pair.difference('VA202', 'VA204'),
    free: pair.difference('VA302', 'VA304'),
  };
}

function overallBasis(pair: ReadPair, columns: readonly ColumnSales[], vends: Difference): Basis {
  if (pair.restart !== null && pair.restart.counters !== 'go-on') return 'restart';
  const known = columns.filter(({ sold }) => sold !== null);
  const moved = known.filter(({ sold }) => sold !== 0);
  const telling = moved.length > 0 ? moved : known;
  const bases = telling.length > 0 ? telling.map(({ basis }) => basis) : [vends.basis];
  return bases.every((basis) => basis === 'interval') ? 'interval' : 'lifetime';
}

/** Sums of the columns; where one of them is not known or gone, or there are none, the machine's own totals. */
function sumUp(columns: readonly ColumnSales[], vends: VendDifferences, isSameMoney: boolean): IntervalTotals {
  const isWhole = columns.length > 0 && columns.every(({ inTo }) => inTo);
  const sum = (of: (column: ColumnSales) => number | null): number | null => (isWhole ? add(...columns.map(of)) : null);
  const money = (amount: number | null): number | null => (isSameMoney ? amount : null);
  const planned = columns.filter(({ pricePlan, inTo }) => pricePlan !== null && inTo);
  return {
    sold: sum(({ sold }) => sold) ?? vends.count.value,
    value: money(sum(({ value }) => value) ?? vends.value.value),
    test: sum(({ test }) => test) ?? vends.test.value,
    free: sum(({ free }) => free) ?? vends.free.value,
    loss: money(planned.length === 0 ? null : add(...planned.map(({ loss }) => loss))),
    unexplained: money(sum(({ unexplained }) => unexplained)),
  };
}

/** Amounts in different currencies or decimals can not be taken from each other: what moved is not known. */
function withoutMoney(column: ColumnSales): ColumnSales {
  return {
    ...column,
    value: null,
    priceFrom: null,
    split: [],
    discounts: null,
    unexplained: null,
    loss: null,
  };
}

function withoutCash(cash: CashMovement): CashMovement {
  const nothing = Object.fromEntries(Object.keys(cash).map((key) => [key, null])) as unknown as CashMovement;
  return { ...nothing, tubesTo: cash.tubesTo, isCashBookedAsCard: false };
}
