import { outlineInterval, type PastStretch } from '../../attention/index.js';
import { minutesOf, ofColumn, usualRate } from '../../attention/sales-history.js';
import type { DayInputs, RefillFlag, RefillRow } from '../../day/index.js';
import { listSteps, type Step } from '../../interval/index.js';
import type { Count, LocalDateTime } from '../../model/index.js';
import type { MachineGiven } from '../machine/machine-given.js';
import { type Limits, limitMean, limitWait } from './limits.js';

const DAY = 1440;

/** A figure worked out of counts, with its limits 95 in 100. */
export interface Estimate {
  readonly value: number;
  readonly limits: Limits;
}

/** What one column sold so far, and how long it may last. Null is not known. */
export interface ColumnTrend {
  readonly column: string;
  readonly product: string | null;
  /** Paid vends in the part of the history in which they are known, and how long that is. */
  readonly sold: Count | null;
  readonly days: number | null;
  /** Vends a day. */
  readonly perDay: Estimate | null;
  readonly par: Count | null;
  readonly left: Count | null;
  /** Days from the last read until it is empty; `value` infinite where nothing was sold. */
  readonly empty: Estimate | null;
  /** Why nothing is said of when it is empty. */
  readonly why: string | null;
  /** Why what it holds is doubtful. */
  readonly doubts: readonly RefillFlag[];
}

/** What a machine sold from read to read, as far back as is known. */
export interface MachineTrend {
  /** Oldest first. */
  readonly stretches: readonly PastStretch[];
  /** Intervals of which no time is known, or whose times run back: they are in nothing. */
  readonly untimed: Count;
  /** Vends a day, of all columns. */
  readonly perDay: Estimate | null;
  /** In the order of the machine. */
  readonly columns: readonly ColumnTrend[];
  /** The last read: days until a column is empty are counted from it. */
  readonly until: LocalDateTime | null;
}

/** How many a day, of a stretch; null where it is not known. */
export function ratePerDay(stretch: PastStretch): number | null {
  return stretch.sold === null ? null : (stretch.sold * DAY) / minutesOf(stretch);
}

/**
 * What a machine sold over its history, and how long its columns may last.
 *
 * A rate is sum over sum, of the stretches in which a figure is known and no floor; with less than a day of those nothing
 * is said.
 *
 * @returns null where nothing is known of any time
 */
export function makeTrend({ key, refill }: MachineGiven, inputs: DayInputs): MachineTrend | null {
  if (key === null) return null;
  const history = inputs.histories.machines.get(key);
  const own = history === undefined ? [] : listSteps({ machines: new Map([[key, history]]) });
  const outlined = own.map(outlineInterval);
  const known = outlined.filter((stretch) => stretch !== null);
  const stretches = [...(inputs.past?.get(key) ?? []), ...known].toSorted(byEnd);
  if (stretches.length === 0) return null;
  return {
    stretches,
    untimed: outlined.length - known.length,
    perDay: estimatePerDay(usualRate(stretches, ({ sold }) => sold)),
    columns: listColumns(stretches, own, refill).map((named) => followColumn(named, stretches)),
    until: refill[0]?.until ?? stretches.at(-1)!.to,
  };
}

const byEnd = (a: PastStretch, b: PastStretch): number => (a.to < b.to ? -1 : a.to > b.to ? 1 : 0);

interface NamedColumn {
  readonly column: string;
  readonly product: string | null;
  readonly stock: RefillRow | null;
}

/** The columns at the last read, by what they hold where that is known, else by what they sold. */
function listColumns(
  stretches: readonly PastStretch[],
  intervals: readonly Step[],
  refill: readonly RefillRow[],
): NamedColumn[] {
  if (refill.length > 0) {
    return refill.map((stock) => ({ column: stock.column, product: stock.product, stock }));
  }
  const products = new Map(intervals.flatMap(({ columns }) => columns.map(({ column, product }) => [column, product])));
  return stretches.at(-1)!.columns.map(({ column }) => ({
    column,
    product: products.get(column) ?? null,
    stock: null,
  }));
}

function followColumn({ column, product, stock }: NamedColumn, stretches: readonly PastStretch[]): ColumnTrend {
  const rate = usualRate(
    stretches,
    ofColumn(column, ({ sold }) => sold),
  );
  const left = stock?.left ?? null;
  const empty = rate === null || left === null || left < 1 ? null : estimateWait(left, rate);
  return {
    column,
    product,
    sold: rate?.amount ?? null,
    days: rate === null ? null : rate.minutes / DAY,
    perDay: estimatePerDay(rate),
    par: stock?.par ?? null,
    left,
    empty,
    why: empty === null ? whyNot(stock, rate !== null) : null,
    doubts: stock?.flags ?? [],
  };
}

interface KnownRate {
  readonly amount: number;
  readonly minutes: number;
}

function estimatePerDay(rate: KnownRate | null): Estimate | null {
  const limits = rate === null ? null : limitMean(rate.amount);
  if (rate === null || limits === null) return null;
  const days = rate.minutes / DAY;
  return { value: rate.amount / days, limits: { low: limits.low / days, high: limits.high! / days } };
}

function estimateWait(left: Count, { amount, minutes }: KnownRate): Estimate | null {
  const limits = limitWait(left, amount);
  if (limits === null) return null;
  const days = minutes / DAY;
  const value = amount === 0 ? Number.POSITIVE_INFINITY : (left * days) / amount;
  return { value, limits: { low: limits.low * days, high: limits.high === null ? null : limits.high * days } };
}

function whyNot(stock: RefillRow | null, isRateKnown: boolean): string {
  if (stock === null) return 'what it holds is not known';
  if (stock.soldOut === 'machine') return 'sold out, says the machine';
  if (stock.soldOut === 'counters') return 'sold out, by the counters';
  if (stock.par === null) return 'its par is not known, so what it holds is not either';
  if (stock.flags.includes('no-fill-known')) return 'no fill is known to count from';
  if (stock.left === null) return 'what it holds is not known';
  if (stock.left === 0) return 'nothing should be left';
  return isRateKnown ? 'the counts are too large for this' : 'less than a day of its sales is known';
}
