import { bestTime } from '../interval/index.js';
import { addAll, type DepositRow } from '../model/index.js';
import type { Dated, DatedDeposit } from './align-sums.js';
import type { CardSales } from './card-sales.js';
import type { CardStream } from './card-streams.js';
import { areAtOneDayEnd, type DaySpan, dayNumber, haveCommonDay, isDayEnd, spanBetween } from './days.js';

/** What a stream is placed by. */
export interface SheetFrame {
  /** The days that the sheet covers; null when it has no deposit. Sales before and after them have theirs elsewhere. */
  readonly days: DaySpan | null;
  readonly windowDays: number;
  /** Most days from one payment of the processor to the next; null where the sheet does not show it. */
  readonly cycleDays: number | null;
  /** See `moveToMidnight`. */
  readonly moveMinutes: number;
}

/** Card sales from one end of a day to another; at the beginning and end of a stream, from or to any time. */
export interface PlacedSale {
  readonly sales: readonly CardSales[];
  readonly dated: Dated;
  /** Why no deposit need be there. */
  readonly open: 'before-sheet' | 'not-due' | null;
  /** Whether it begins or ends inside of a day: then a part of that day's deposit is for other sales. */
  readonly isRagged: boolean;
}

/** A deposit with the days whose sales it can be for. */
export interface PlacedDeposit {
  readonly row: DepositRow;
  readonly dated: DatedDeposit;
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
 * before it, which can have covered the days up to the window before itself. The first has no limit to what it may be for.
 * Sales within the stated days of one deposit, and of the days of no other, are its own, and no longer open to anything.
 */
export function placeStream(stream: CardStream, frame: SheetFrame): PlacedStream {
  const deposits = stream.deposits.filter(({ gross }) => gross > 0);
  const units = joinToDays(stream.sales, frame.moveMinutes);
  const reads = wholeDays(units);
  const sold = units.filter(({ sales }) => sales.some(isAny));
  const spans = deposits.map((row, i) => spanOfDeposit(row, deposits.slice(0, i), frame));
  const owners = sold.map(({ span }) => findOwner(span, deposits, spans));
  return {
    sales: sold.map((unit, i) => placeSale(unit, owners[i]!, frame)),
    deposits: deposits.map((row, i) => ({
      row,
      dated: { amount: row.gross, ...placeDeposit(spans[i]!, reads), owns: runOf(owners, i) },
    })),
    untimed: stream.sales.filter((sales) => timesOf(sales) === null && isAny(sales)),
    notPaid: stream.deposits.filter(({ gross }) => gross <= 0),
  };
}

/** Nothing sold, and known to be nothing, plays no part. */
const isAny = ({ amount, isFloor }: CardSales): boolean => amount !== 0 || isFloor;

function timesOf({ interval: { from, to } }: CardSales): readonly [from: string, to: string] | null {
  const [start, end] = [bestTime(from), bestTime(to)];
  return start === null || end === null ? null : [start, end];
}

/** Sales that follow each other without an end of a day between them. */
interface Unit {
  readonly sales: readonly CardSales[];
  readonly span: DaySpan;
  readonly beginsRagged: boolean;
  readonly endsRagged: boolean;
}

/** Join sales over reads that were taken inside of a day, where there are such at the ends of days before and after. */
function joinToDays(sales: readonly CardSales[], moveMinutes: number): Unit[] {
  const units: Unit[] = [];
  /** Where the units begin that can be joined, should a day end; they are none when this is the number of units. */
  let start = 0;
  for (const one of sales) {
    const times = timesOf(one);
    if (times === null) continue;
    const isAtDayEnd = areAtOneDayEnd(times[0], times[1], moveMinutes);
    const [beginsRagged, endsRagged] = times.map((time) => isAtDayEnd || !isDayEnd(time, moveMinutes)) as [
      boolean,
      boolean,
    ];
    const unit = { sales: [one], span: spanBetween(times[0], times[1], moveMinutes), beginsRagged, endsRagged };
    const follows = units.at(-1)?.sales.at(-1)?.interval.to === one.interval.from;
    if (!follows || !beginsRagged) start = units.length;
    units.push(unit);
    if (!endsRagged && !units[start]!.beginsRagged) units.push(units.splice(start).reduce(join));
  }
  return units;
}

function join(a: Unit, b: Unit): Unit {
  return {
    sales: [...a.sales, ...b.sales],
    span: { first: Math.min(a.span.first, b.span.first), last: Math.max(a.span.last, b.span.last) },
    beginsRagged: a.beginsRagged,
    endsRagged: b.endsRagged,
  };
}

/** The days that lie within the reads from end to end; of nothing, no day at all. */
function wholeDays(units: readonly Unit[]): DaySpan {
  const none = { first: Number.POSITIVE_INFINITY, last: Number.NEGATIVE_INFINITY };
  return units.reduce(
    (all, { span, beginsRagged, endsRagged }) => ({
      first: Math.min(all.first, span.first + (beginsRagged ? 1 : 0)),
      last: Math.max(all.last, span.last - (endsRagged ? 1 : 0)),
    }),
    none,
  );
}

/** The deposit whose stated days hold all of a sale that no other can be for; -1 when there is none. */
function findOwner(span: DaySpan, deposits: readonly DepositRow[], spans: readonly DepositSpan[]): number {
  const linked = spans.flatMap((one, i) => (haveCommonDay(one.span, span) ? [i] : []));
  const [owner] = linked;
  if (owner === undefined || linked.length > 1 || deposits[owner]!.periodFrom === null) return -1;
  const days = spans[owner]!.span;
  return span.first >= days.first && span.last <= days.last ? owner : -1;
}

function runOf(owners: readonly number[], owner: number): DatedDeposit['owns'] {
  const from = owners.indexOf(owner);
  return from < 0 ? null : [from, owners.lastIndexOf(owner) + 1];
}

function placeSale(unit: Unit, owner: number, { days, windowDays, cycleDays }: SheetFrame): PlacedSale {
  const { sales, span, beginsRagged, endsRagged } = unit;
  // Also where only a part of the sale may have been paid before the sheet begins, or after it ends.
  const isBefore = days !== null && span.first < days.first;
  const isDue = days !== null && span.last + windowDays + (cycleDays ?? 1) - 1 <= days.last;
  const open = owner >= 0 ? null : isBefore ? 'before-sheet' : isDue ? null : 'not-due';
  const sum = addAll(sales.map(({ amount }) => amount));
  const amount = sum !== null && sum > 0 ? sum : null;
  const ragged = endOf(beginsRagged, endsRagged);
  const mayBeLeft = open === null ? ragged : isBefore ? 'before' : 'after';
  return { sales, dated: { amount, span, mayBeLeft }, open, isRagged: ragged !== null };
}

function endOf(isBefore: boolean, isAfter: boolean): Dated['mayBeLeft'] {
  return isBefore && isAfter ? 'either' : isBefore ? 'before' : isAfter ? 'after' : null;
}

/** The days of a deposit, and how far back it can reach: the first one, by the longest time between two. */
interface DepositSpan {
  readonly span: DaySpan;
  readonly reach: number;
}

function spanOfDeposit(
  row: DepositRow,
  earlier: readonly DepositRow[],
  { windowDays, cycleDays }: SheetFrame,
): DepositSpan {
  const last = dayNumber(row.periodTo ?? row.date);
  const before = earlier.findLast(({ date }) => date < row.date);
  const since = before === undefined ? null : dayNumber(before.date) - windowDays;
  const stated = row.periodFrom === null ? null : dayNumber(row.periodFrom);
  const first = stated ?? since ?? Number.NEGATIVE_INFINITY;
  const reach = stated ?? since ?? (cycleDays === null ? first : dayNumber(row.date) - windowDays - cycleDays);
  return { span: { first, last }, reach };
}

function placeDeposit({ span, reach }: DepositSpan, reads: DaySpan): Pick<Dated, 'span' | 'mayBeLeft'> {
  return { span, mayBeLeft: endOf(reach < reads.first, span.last > reads.last) };
}
