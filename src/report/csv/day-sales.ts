import type { DaySalesRow } from '../../day/index.js';
import { csvText } from './csv.js';
import { type CsvTable, csvAmount, csvTime } from './csv-table.js';

const money = (pick: (row: DaySalesRow) => number | null) => (row: DaySalesRow) => csvAmount(pick(row), row.decimals);

/** `sales.csv`: one row a column and period. */
export const DAY_SALES_TABLE: CsvTable<DaySalesRow> = {
  columns: [
    ['machine', ({ machine }) => csvText(machine)],
    ['location', ({ location }) => csvText(location)],
    ['route', ({ route }) => csvText(route)],
    ['column', ({ column }) => csvText(column)],
    ['product', ({ product }) => csvText(product)],
    ['from', ({ from }) => csvTime(from)],
    ['to', ({ to }) => csvTime(to)],
    ['sold', ({ sold }) => sold],
    ['value', money(({ value }) => value)],
    ['test', ({ test }) => test],
    ['free', ({ free }) => free],
    ['price_from', money(({ priceFrom }) => priceFrom)],
    ['price_to', money(({ priceTo }) => priceTo)],
    ['price_plan', money(({ pricePlan }) => pricePlan)],
    ['loss', money(({ loss }) => loss)],
    ['unexplained', money(({ unexplained }) => unexplained)],
    ['currency', ({ currency }) => currency],
    ['decimals', ({ decimals }) => decimals],
    ['flags', ({ flags }) => flags.join(' ')],
    ['replaces', ({ replaces }) => replaces.join(' ')],
  ],
};
