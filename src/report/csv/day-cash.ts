import type { DayCashRow } from '../../day/index.js';
import { csvText } from './csv.js';
import { type CsvTable, csvAmount, csvTime } from './csv-table.js';

const money = (pick: (row: DayCashRow) => number | null) => (row: DayCashRow) => csvAmount(pick(row), row.decimals);

/** `cash.csv`: one row a machine and period. */
export const DAY_CASH_TABLE: CsvTable<DayCashRow> = {
  columns: [
    ['machine', ({ machine }) => csvText(machine)],
    ['location', ({ location }) => csvText(location)],
    ['route', ({ route }) => csvText(route)],
    ['from', ({ from }) => csvTime(from)],
    ['to', ({ to }) => csvTime(to)],
    ['sold', ({ sold }) => sold],
    ['value', money(({ value }) => value)],
    ['cash_in', money(({ cashIn }) => cashIn)],
    ['to_cash_box', money(({ toCashBox }) => toCashBox)],
    ['to_tubes', money(({ toTubes }) => toTubes)],
    ['bills', money(({ bills }) => bills)],
    ['dispensed', money(({ dispensed }) => dispensed)],
    ['by_hand', money(({ byHand }) => byHand)],
    ['filled', money(({ filled }) => filled)],
    ['overpaid', money(({ overpaid }) => overpaid)],
    ['cash_sales', money(({ cashSales }) => cashSales)],
    ['card_sales', money(({ cardSales }) => cardSales)],
    ['token_sales', money(({ tokenSales }) => tokenSales)],
    ['credited', money(({ credited }) => credited)],
    ['tubes_from', money(({ tubesFrom }) => tubesFrom)],
    ['tubes_to', money(({ tubesTo }) => tubesTo)],
    ['tube_difference', money(({ tubeDifference }) => tubeDifference)],
    ['customer_difference', money(({ customerDifference }) => customerDifference)],
    ['currency', ({ currency }) => currency],
    ['decimals', ({ decimals }) => decimals],
    ['flags', ({ flags }) => flags.join(' ')],
    ['replaces', ({ replaces }) => replaces.join(' ')],
  ],
};
