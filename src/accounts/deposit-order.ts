import { type DepositRow, pushAll } from '../model/index.js';
import { type DaySpan, dayNumber, haveCommonDay } from './days.js';

/** A row with the days whose sales it can be for. */
export interface SpannedRow {
  readonly row: DepositRow;
  readonly dated: { readonly span: DaySpan };
}

/** Sales of some days; null is not known. */
export interface SoldOnDays {
  readonly amount: number | null;
  readonly span: DaySpan;
}

/** Whether a row says which days it is for. */
export const isStated = ({ periodFrom }: DepositRow): boolean => periodFrom !== null;

/** The last day that a row is for: of its stated period, else its own. */
export const lastDayOf = ({ date, periodTo }: DepositRow): number => dayNumber(periodTo ?? date);

/** What rows for the same days have in common: their stated period whatever their date, or their date where none is stated. */
export function daysKey(row: DepositRow): string {
  const { date, periodFrom, periodTo } = row;
  return periodFrom === null ? `paid ${date} ${periodTo ?? ''}` : `for ${periodFrom} ${periodTo ?? date}`;
}

/** What rows have in common that pay the same amount for the same days: such rows are interchangeable. */
export const equalKey = (row: DepositRow): string => `${row.gross} ${daysKey(row)}`;

/** How many equal rows come after each. */
export function countEqualAfter(rows: readonly DepositRow[]): number[] {
  const seen = new Map<string, number>();
  const counts = [...rows].reverse().map((row) => {
    const after = seen.get(equalKey(row)) ?? 0;
    seen.set(equalKey(row), after + 1);
    return after;
  });
  return counts.reverse();
}

/**
 * Rows in the order of the days that they are for, whatever their place in the sheet: by their stated period, else by the day
 * before their date, since a processor pays a day or more later (common practice). Rows for the same days have no order of
 * their own and take that of the sales with their amounts; of equal rows the second ones come last.
 */
export function orderDeposits<T extends SpannedRow>(rows: readonly T[], sold: readonly SoldOnDays[]): T[] {
  const batches = new Map<string, T[]>();
  for (const each of [...rows].sort((a, b) => compareAlike(a.row, b.row))) {
    const key = daysKey(each.row);
    const batch = batches.get(key);
    if (batch === undefined) batches.set(key, [each]);
    else batch.push(each);
  }
  return [...batches.values()]
    .sort(([a], [b]) => compareDays(a!.row, b!.row))
    .flatMap((batch) => (batch.length === 1 ? batch : followSales(batch, sold)));
}

function compareDays(a: DepositRow, b: DepositRow): number {
  const [placeA, placeB] = [placeOf(a), placeOf(b)];
  return placeA.last - placeB.last || placeA.first - placeB.first || compareTexts(daysKey(a), daysKey(b));
}

function placeOf(row: DepositRow): DaySpan {
  const last = lastDayOf(row);
  const { periodFrom, periodTo } = row;
  if (periodFrom !== null) return { first: dayNumber(periodFrom), last };
  return periodTo === null ? { first: last - 1, last: last - 1 } : { first: last, last };
}

/** Rows in the order of the sales that have their amounts; then the others, of equal amounts the second ones last. */
function followSales<T extends SpannedRow>(rows: readonly T[], sold: readonly SoldOnDays[]): T[] {
  const open = [...rows];
  const chosen: T[] = [];
  for (const sale of sold) {
    if (open.length === 0) break;
    const found = open.findIndex(({ row, dated }) => row.gross === sale.amount && haveCommonDay(sale.span, dated.span));
    if (found >= 0) pushAll(chosen, open.splice(found, 1));
  }
  const seen = new Map<number, number>();
  const copies = open.map((each) => {
    const copy = (seen.get(each.row.gross) ?? 0) + 1;
    seen.set(each.row.gross, copy);
    return { each, copy };
  });
  return [...chosen, ...copies.sort((a, b) => a.copy - b.copy).map(({ each }) => each)];
}

/** An order that does not depend on where rows stand in the sheet, but for those that are the same in all that counts. */
function compareAlike(a: DepositRow, b: DepositRow): number {
  const texts = (row: DepositRow): string[] => [row.date, row.device ?? '', row.reference ?? '', row.place.file];
  const [textsA, textsB] = [texts(a), texts(b)];
  const byText = textsA.map((text, i) => compareTexts(text, textsB[i]!)).find((order) => order !== 0);
  return a.gross - b.gross || (byText ?? a.place.row - b.place.row);
}

const compareTexts = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
