import type { Finding } from '../findings/index.js';
import { addAll, bestTime, type LocalDate } from '../model/index.js';
import { weighFindings } from '../profile/index.js';
import type { Roster } from '../sheets/index.js';
import { type CashMovement, moveCash } from './cash-movement.js';
import { judgeColumns } from './column-findings.js';
import { type ColumnSales, measureColumn, type PlanEnds } from './column-sales.js';
import { judgeCounters } from './counter-findings.js';
import { compareCrossTotals } from './cross-total-changes.js';
import type { Basis, Difference } from './difference.js';
import type { Interval } from './interval.js';
import { judgeCardShare, judgeMovedTotals } from './moved-totals.js';
import { judgePair } from './pair-findings.js';
import { PaymentLists } from './payment-lists.js';
import { type ColumnEnds, ReadPair } from './read-pair.js';
import { leaveOutRenumbered } from './renumbered-columns.js';
import type { StepTotals } from './step.js';
import type { TakenRead } from './taken-read.js';

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
  const measured = columnsOf(pair).map((ends) => measureColumn(pair, ends, planOf(pair, ends.id, roster), lists));
  const columns = leaveOutRenumbered(pair, measured);
  const money = moveCash(pair);
  const vends = measureVends(pair);
  const differences = [...Object.values(vends), ...Object.values(money.differences)];
  if (money.bills !== null) differences.push(money.bills);
  const notable = [...differences, ...columns.flatMap(notableOf)];
  const { isSameMoney } = pair;
  const findings: Finding[] = [
    ...judgePair(pair),
    ...judgeCounters(pair, isSameMoney ? notable : notable.filter(({ element }) => element.kind === 'count')),
    ...judgeColumns(pair, columns),
    ...(isSameMoney ? money.findings : []),
    ...compareCrossTotals(pair),
    ...judgeMovedTotals(pair, columns),
    ...judgeCardShare(pair, money.cash),
  ];
  return {
    from,
    to,
    clockFrom: from.read.clock,
    clockTo: to.read.clock,
    currency: pair.currency,
    decimals: pair.decimals,
    basis: overallBasis(pair, columns, differences),
    floor: pair.restart !== null || [...differences, ...columns].some(({ floor }) => floor),
    columns: isSameMoney ? columns : columns.map(withoutMoney),
    totals: sumUp(columns, vends, isSameMoney),
    cash: isSameMoney ? money.cash : withoutCash(money.cash),
    differences: {
      ...money.differences,
      billsStated: pair.difference('CA310', 'CA309'),
      billsOther: pair.difference('CA308', 'CA304'),
      powerFailures: pair.difference('EA702', 'EA701'),
    },
    isSameMoney,
    usesIntervalCounters: usesIntervalCounters(Object.values(money.differences), columns),
    restart: pair.restart,
    reset: pair.reset,
    findings: weighFindings(findings, to.profile),
    pair,
  };
}

function usesIntervalCounters(cash: readonly Difference[], columns: readonly ColumnSales[]): boolean {
  const sales = columns.flatMap(({ soldDifference, valueDifference }) => [soldDifference, valueDifference]);
  return [...cash, ...sales].some(({ basis, value }) => basis === 'interval' && value !== null);
}

/** The columns of the later read in its order, then those that only the earlier one has. */
function columnsOf({ from, to }: ReadPair): ColumnEnds[] {
  const ends = to.read.columns.map((after): ColumnEnds => {
    const { id } = after;
    return { id, before: from.read.column(id), after };
  });
  for (const before of from.read.columns) {
    const { id } = before;
    if (to.read.column(id) === null) ends.push({ id, before, after: null });
  }
  return ends;
}

/** Counters of a column of which there is something to say. That a column came or went says it of all of them. */
function notableOf(column: ColumnSales): Difference[] {
  if (!column.inFrom || !column.inTo) return [];
  const { soldDifference, valueDifference, testDifference, freeDifference } = column;
  return [soldDifference, valueDifference, testDifference, freeDifference].filter(
    ({ why, floor, modulus }) => why !== null || floor || modulus !== null,
  );
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

/** What the figures rest on: those of the columns that sold, else of all columns, else of the machine's own totals. */
function overallBasis(pair: ReadPair, columns: readonly ColumnSales[], totals: readonly Difference[]): Basis {
  if (pair.restart !== null && pair.restart.counters !== 'go-on') return 'restart';
  const known = columns.filter(({ sold }) => sold !== null);
  const moved = known.filter(({ sold }) => sold !== 0);
  const candidates = [moved, known, totals.filter(({ value }) => value !== null)];
  const telling = candidates.find((candidate) => candidate.length > 0) ?? [];
  return telling.length > 0 && telling.every(({ basis }) => basis === 'interval') ? 'interval' : 'lifetime';
}

/** Sums of the columns; where one of them is not known or gone, or there are none, the machine's own totals. */
function sumUp(columns: readonly ColumnSales[], vends: VendDifferences, isSameMoney: boolean): StepTotals {
  const isWhole = columns.length > 0 && columns.every(({ inTo }) => inTo);
  const sum = (of: (column: ColumnSales) => number | null): number | null => (isWhole ? addAll(columns.map(of)) : null);
  const money = (amount: number | null): number | null => (isSameMoney ? amount : null);
  const planned = columns.filter(({ pricePlan, inTo }) => pricePlan !== null && inTo);
  return {
    sold: sum(({ sold }) => sold) ?? vends.count.value,
    value: money(sum(({ value }) => value) ?? vends.value.value),
    test: sum(({ test }) => test) ?? vends.test.value,
    free: sum(({ free }) => free) ?? vends.free.value,
    loss: money(planned.length === 0 ? null : addAll(planned.map(({ loss }) => loss))),
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
