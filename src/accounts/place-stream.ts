import { addAll, bestTime, type DepositRow } from '../model/index.js';
import type { Dated, DatedDeposit } from './align-sums.js';
import type { CardSales } from './card-sales.js';
import type { CardStream } from './card-streams.js';
import { areAtOneDayEnd, type DaySpan, dayNumber, haveCommonDay, isDayEnd, spanBetween } from './days.js';
import { countEqualAfter, daysKey, isStated, lastDayOf, orderDeposits, type SpannedRow } from './deposit-order.js';

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
  /** Whether it begins, or ends, inside of a day: then a part of that day's deposit is for other sales. */
  readonly beginsRagged: boolean;
  readonly endsRagged: boolean;
  /** Whether nothing was sold between it and the one before. */
  readonly isNext: boolean;
  /** Whether neighbours prove that it is for whole days of the processor; see `proveEnds`. */
  readonly isProven: boolean;
}

/** Whether sales begin or end inside of a day. */
export const isRagged = ({ beginsRagged, endsRagged }: PlacedSale): boolean => beginsRagged || endsRagged;

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
 * Give sales and deposits their days. A deposit is for the sales of its stated period, whatever its date; else for those since
 * the deposit before it, which can have covered the days up to the window before itself. The first has no limit to what it may
 * be for. Sales within the stated days of one period, and of no other, are the own ones of its deposits, and no longer open
 * to anything.
 */
export function placeStream(stream: CardStream, frame: SheetFrame): PlacedStream {
  const paid = stream.deposits.filter(({ gross }) => gross > 0);
  const units = joinToDays(stream.sales, frame.moveMinutes);
  const reads = wholeDays(units);
  const sold = units.filter(({ sales }) => sales.some(isAny));
  const ordered = orderDeposits(
    spanDeposits(paid, frame),
    sold.map(({ sales, span }) => ({ amount: sumOf(sales), span })),
  );
  const equalAfter = countEqualAfter(ordered.map(({ row }) => row));
  const follows = findFollowing(units);
  const stated = ordered.filter(({ row }) => isStated(row));
  const owners = sold.map(({ span }) => findOwner(span, stated));
  const nothingPaid = stream.deposits.filter(paysNothing).map(spanOfStated);
  const isDayStated = (span: DaySpan): boolean => nothingPaid.some((days) => isWithin(span, days));
  return {
    sales: sold.map((unit, i) => ({
      ...placeSale(unit, owners[i] !== null || isDayStated(unit.span), frame),
      isNext: follows.has(unit),
      isProven: false,
    })),
    deposits: ordered.map(({ row, dated: { span }, reach }, i) => {
      const owns = isStated(row) ? runOf(owners, daysKey(row)) : null;
      const placed = placeDeposit(span, reach, reads);
      return { row, dated: { amount: row.gross, ...placed, owns, equalAfter: equalAfter[i]! } };
    }),
    untimed: stream.sales.filter((sales) => timesOf(sales) === null && isAny(sales)),
    notPaid: stream.deposits.filter(({ gross }) => gross <= 0),
  };
}

/** A row that states days and pays nothing for them; one of fees alone says nothing of sales. */
const paysNothing = (row: DepositRow): boolean => isStated(row) && row.gross === 0 && (row.fees ?? 0) === 0;

/** The units with sales that follow the ones before without a gap, and with nothing sold between. */
function findFollowing(units: readonly Unit[]): ReadonlySet<Unit> {
  const follows = new Set<Unit>();
  let isUnbroken = false;
  for (const [i, unit] of units.entries()) {
    if (units[i - 1]?.sales.at(-1)?.interval.to !== unit.sales[0]!.interval.from) isUnbroken = false;
    if (!unit.sales.some(isAny)) continue;
    if (isUnbroken) follows.add(unit);
    isUnbroken = true;
  }
  return follows;
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

/** The stated days that hold all of a sale, where no other stated days can be for it; null when there are none. */
function findOwner(span: DaySpan, stated: readonly SpannedRow[]): string | null {
  const linked = new Map(
    stated.filter((one) => haveCommonDay(one.dated.span, span)).map((one) => [daysKey(one.row), one.dated.span]),
  );
  const [owner] = linked;
  if (owner === undefined || linked.size > 1) return null;
  const [key, days] = owner;
  return isWithin(span, days) ? key : null;
}

const isWithin = (span: DaySpan, days: DaySpan): boolean => span.first >= days.first && span.last <= days.last;

function runOf(owners: readonly (string | null)[], owner: string): DatedDeposit['owns'] {
  const from = owners.indexOf(owner);
  return from < 0 ? null : [from, owners.lastIndexOf(owner) + 1];
}

const sumOf = (sales: readonly CardSales[]): number | null => addAll(sales.map(({ amount }) => amount));

/** @param isStatedDay - whether a row says of these days what was paid for them, so that it is due */
function placeSale(
  unit: Unit,
  isStatedDay: boolean,
  { days, windowDays, cycleDays }: SheetFrame,
): Omit<PlacedSale, 'isNext' | 'isProven'> {
  const { sales, span, beginsRagged, endsRagged } = unit;
  // Also where only a part of the sale may have been paid before the sheet begins, or after it ends.
  const isBefore = days !== null && span.first < days.first;
  const isDue = days !== null && span.last + windowDays + (cycleDays ?? 1) - 1 <= days.last;
  const open = isStatedDay ? null : isBefore ? 'before-sheet' : isDue ? null : 'not-due';
  const sum = sumOf(sales);
  const amount = sum !== null && sum > 0 ? sum : null;
  const mayBeLeft = open === null ? endOf(beginsRagged, endsRagged) : isBefore ? 'before' : 'after';
  return { sales, dated: { amount, span, mayBeLeft }, open, beginsRagged, endsRagged };
}

function endOf(isBefore: boolean, isAfter: boolean): Dated['mayBeLeft'] {
  return isBefore && isAfter ? 'either' : isBefore ? 'before' : isAfter ? 'after' : null;
}

/** The days of a deposit, and how far back it can reach: the first one, by the longest time between two. */
interface DepositDays extends SpannedRow {
  readonly reach: number;
}

function spanDeposits(rows: readonly DepositRow[], { windowDays, cycleDays }: SheetFrame): DepositDays[] {
  const byDate = [...rows].sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0));
  /** The last payment before the date that is being looked at, and the last one up to it. */
  let [date, before, latest] = ['', null as number | null, null as number | null];
  return byDate.map((row): DepositDays => {
    if (row.date !== date) [date, before] = [row.date, latest];
    const day = usualDayOf(row, windowDays);
    latest = latest === null ? day : Math.max(latest, day);
    if (isStated(row)) {
      const span = spanOfStated(row);
      return { row, dated: { span }, reach: span.first };
    }
    const since = before === null ? null : before - windowDays;
    const first = since ?? Number.NEGATIVE_INFINITY;
    const reach = since ?? (cycleDays === null ? first : dayNumber(row.date) - windowDays - cycleDays);
    return { row, dated: { span: { first, last: lastDayOf(row) } }, reach };
  });
}

const spanOfStated = (row: DepositRow): DaySpan => ({ first: dayNumber(row.periodFrom!), last: lastDayOf(row) });

/** The day of a payment; of one that came later than the window after its stated days, the last day of that window. */
function usualDayOf(row: DepositRow, windowDays: number): number {
  const day = dayNumber(row.date);
  return isStated(row) ? Math.min(day, lastDayOf(row) + windowDays) : day;
}

function placeDeposit(span: DaySpan, reach: number, reads: DaySpan): Pick<Dated, 'span' | 'mayBeLeft'> {
  return { span, mayBeLeft: endOf(reach < reads.first, span.last > reads.last) };
}
