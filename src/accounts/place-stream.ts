import type { DepositRow } from '../model/index.js';
import type { Dated } from './align-sums.js';
import type { CardSales } from './card-sales.js';
import type { CardStream } from './card-streams.js';
import { type DaySpan, dayNumber } from './days.js';

/** The days that a sheet of deposits covers: sales before them have their deposits elsewhere, sales after them later. */
export type SheetDays = DaySpan;

/** Card sales with their days. */
export interface PlacedSale {
  readonly sales: CardSales;
  readonly dated: Dated;
  /** Why no deposit need be there. */
  readonly open: 'before-sheet' | 'not-due' | null;
}

/** A deposit with the days whose sales it can be for. */
export interface PlacedDeposit {
  readonly row: DepositRow;
  readonly dated: Dated & { readonly amount: number };
}

/** A stream ready to be put together. */
export interface PlacedStream {
  readonly sales: readonly PlacedSale[];
  readonly deposits: readonly PlacedDeposit[];
  /** Sales without a time, and deposits of nothing or less: they stand for themselves. */
  readonly untimed: readonly CardSales[];
  readonly notPaid: readonly DepositRow[];
}

/**
 * Give sales and deposits their days. A deposit is for the sales of its stated period; else for those since the deposit
 * before it, which can have covered the days up to `windowDays` before itself. The first has no limit to what it may be for.
 */
export function placeStream(stream: CardStream, sheet: SheetDays | null, windowDays: number): PlacedStream {
  const timed = stream.sales.filter(({ span }) => span !== null);
  const deposits = stream.deposits.filter(({ gross }) => gross > 0);
  const cycle = longestCycle(deposits);
  const reads = spanOfAll(timed.map(({ span }) => span!));
  return {
    sales: timed.filter(isAny).map((sales) => placeSale(sales, sheet, windowDays + cycle - 1)),
    deposits: deposits.map((row, i) => placeDeposit(row, deposits.slice(0, i), reads, windowDays, cycle)),
    untimed: stream.sales.filter((sales) => sales.span === null && isAny(sales)),
    notPaid: stream.deposits.filter(({ gross }) => gross <= 0),
  };
}

/** From the first day of all to the last; of nothing, no day at all. */
function spanOfAll(spans: readonly DaySpan[]): DaySpan {
  const none = { first: Number.POSITIVE_INFINITY, last: Number.NEGATIVE_INFINITY };
  return spans.reduce(
    (all, { first, last }) => ({ first: Math.min(all.first, first), last: Math.max(all.last, last) }),
    none,
  );
}

/** Nothing sold, and known to be nothing, plays no part. */
const isAny = ({ amount, isFloor }: CardSales): boolean => amount !== 0 || isFloor;

/** Most days from one deposit to the next: so long after the window a sale may still be on its way. At least 1. */
function longestCycle(deposits: readonly DepositRow[]): number {
  const days = deposits.map(({ date }) => dayNumber(date));
  return Math.max(1, ...days.slice(1).map((day, i) => day - days[i]!));
}

function placeSale(sales: CardSales, sheet: SheetDays | null, dueAfterDays: number): PlacedSale {
  const span = sales.span!;
  const isBefore = sheet !== null && span.last < sheet.first;
  const isDue = sheet !== null && span.last + dueAfterDays <= sheet.last;
  const open = isBefore ? 'before-sheet' : isDue ? null : 'not-due';
  const amount = sales.amount !== null && sales.amount > 0 ? sales.amount : null;
  const mayBeLeft = open === null ? null : isBefore ? 'before' : 'after';
  return { sales, dated: { amount, span, mayBeLeft }, open };
}

function placeDeposit(
  row: DepositRow,
  earlier: readonly DepositRow[],
  reads: DaySpan,
  windowDays: number,
  cycle: number,
): PlacedDeposit {
  const last = dayNumber(row.periodTo ?? row.date);
  const before = earlier.findLast(({ date }) => date < row.date);
  const since = before === undefined ? null : dayNumber(before.date) - windowDays;
  const stated = row.periodFrom === null ? null : dayNumber(row.periodFrom);
  const first = stated ?? since ?? Number.NEGATIVE_INFINITY;
  // What the first deposit is likely to reach back to, by the longest time between two.
  const likelyFirst = stated ?? since ?? dayNumber(row.date) - windowDays - cycle;
  const isBefore = likelyFirst < reads.first;
  const isAfter = last > reads.last;
  const mayBeLeft = isBefore && isAfter ? 'either' : isBefore ? 'before' : isAfter ? 'after' : null;
  return { row, dated: { amount: row.gross, span: { first, last }, mayBeLeft } };
}
