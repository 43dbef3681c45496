import type { ColumnSales, Interval } from '../../interval/index.js';
import { bestTime, machineKey, nameOfMachineKey } from '../../model/index.js';
import { type CsvCell, csvText } from './csv.js';
import { type CsvColumn, type CsvTable, csvAmount, csvTime } from './csv-table.js';

/** One row of {@link SALES_TABLE}. */
export interface SalesRow {
  readonly interval: Interval;
  readonly column: ColumnSales;
}

/** The rows of an interval's sales: one a column. */
export function salesRows(interval: Interval): SalesRow[] {
  return interval.columns.map((column) => ({ interval, column }));
}

const ofInterval = (cell: (interval: Interval) => CsvCell) => cell;

/** What the tables of a day call the machine, so that they can be joined; see `nameOfMachineKey`. */
function nameOf({ to }: Interval): CsvCell {
  const key = machineKey(to);
  return csvText(key === null ? null : nameOfMachineKey(key));
}

/** Which machine, and from when to when: `clock` as the machine says it, `time` as everything is ordered by. */
const PERIOD: readonly CsvColumn<Interval>[] = [
  ['machine', ofInterval(nameOf)],
  ['location', ofInterval(({ to }) => csvText(to.machine?.location ?? null))],
  ['asset', ofInterval(({ to }) => csvText(to.read.machine.asset))],
  ['serial', ofInterval(({ to }) => csvText(to.read.machine.serial))],
  ['board', ofInterval(({ to }) => csvText(to.read.machine.board))],
  ['from_file', ofInterval(({ from }) => csvText(from.file))],
  ['from_clock', ofInterval(({ clockFrom }) => csvTime(clockFrom))],
  ['from_time', ofInterval(({ from }) => csvTime(bestTime(from)))],
  ['to_file', ofInterval(({ to }) => csvText(to.file))],
  ['to_clock', ofInterval(({ clockTo }) => csvTime(clockTo))],
  ['to_time', ofInterval(({ to }) => csvTime(bestTime(to)))],
  ['currency', ofInterval(({ currency }) => currency)],
  ['decimals', ofInterval(({ decimals }) => decimals)],
];

const money =
  (pick: (column: ColumnSales) => number | null) =>
  ({ interval, column }: SalesRow): CsvCell =>
    csvAmount(pick(column), interval.decimals);

/** One row a column and interval. */
export const SALES_TABLE: CsvTable<SalesRow> = {
  columns: [
    ...PERIOD.map(([name, cell]): CsvColumn<SalesRow> => [name, ({ interval }) => cell(interval)]),
    ['basis', ({ column }) => column.basis],
    ['floor', ({ column }) => (column.floor ? 'yes' : 'no')],
    ['column', ({ column }) => csvText(column.column)],
    ['product', ({ column }) => csvText(column.product)],
    ['sold', ({ column }) => column.sold],
    ['value', money(({ value }) => value)],
    ['price_from', money(({ priceFrom }) => priceFrom)],
    ['price_to', money(({ priceTo }) => priceTo)],
    ['price_plan', money(({ pricePlan }) => pricePlan)],
    ['split', ({ interval, column }) => writeSplit(column, interval)],
    ['test', ({ column }) => column.test],
    ['free', ({ column }) => column.free],
    ['discounts', money(({ discounts }) => discounts)],
    ['unexplained', money(({ unexplained }) => unexplained)],
    ['loss', money(({ loss }) => loss)],
  ],
};

function writeSplit({ split }: ColumnSales, { decimals }: Interval): string {
  return split.map(({ count, price }) => `${count} x ${csvAmount(price, decimals)}`).join('; ');
}

const cash = (pick: (cash: Interval['cash']) => number | null) => (interval: Interval) =>
  csvAmount(pick(interval.cash), interval.decimals);

/** One row an interval: what its cash did. */
export const CASH_TABLE: CsvTable<Interval> = {
  columns: [
    ...PERIOD,
    ['basis', ({ basis }) => basis],
    ['floor', ({ floor }) => (floor ? 'yes' : 'no')],
    ['sold', ({ totals }) => totals.sold],
    ['value', ({ totals, decimals }) => csvAmount(totals.value, decimals)],
    ['cash_in', cash(({ cashIn }) => cashIn)],
    ['to_cash_box', cash(({ toCashBox }) => toCashBox)],
    ['to_tubes', cash(({ toTubes }) => toTubes)],
    ['bills', cash(({ bills }) => bills)],
    ['dispensed', cash(({ dispensed }) => dispensed)],
    ['by_hand', cash(({ byHand }) => byHand)],
    ['filled', cash(({ filled }) => filled)],
    ['overpaid', cash(({ overpaid }) => overpaid)],
    ['cash_sales', cash(({ cashSales }) => cashSales)],
    ['card_sales', cash(({ cardSales }) => cardSales)],
    ['token_sales', cash(({ tokenSales }) => tokenSales)],
    ['credited', cash(({ credited }) => credited)],
    ['tubes_from', cash(({ tubesFrom }) => tubesFrom)],
    ['tubes_to', cash(({ tubesTo }) => tubesTo)],
    ['tube_difference', cash(({ tubeDifference }) => tubeDifference)],
    ['findings', ({ findings }) => [...new Set(findings.map(({ code }) => code))].join(' ')],
  ],
};
