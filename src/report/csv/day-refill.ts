import type { RefillRow } from '../../day/index.js';
import { csvText } from './csv.js';
import { type CsvTable, csvTime } from './csv-table.js';

/** `refill.csv`: one row a column. */
export const DAY_REFILL_TABLE: CsvTable<RefillRow> = {
  columns: [
    ['machine', ({ machine }) => csvText(machine)],
    ['location', ({ location }) => csvText(location)],
    ['route', ({ route }) => csvText(route)],
    ['column', ({ column }) => csvText(column)],
    ['product', ({ product }) => csvText(product)],
    ['to_fill', ({ toFill }) => toFill],
    ['left', ({ left }) => left],
    ['par', ({ par }) => par],
    ['capacity', ({ capacity }) => capacity],
    ['since', ({ since }) => csvTime(since)],
    ['until', ({ until }) => csvTime(until)],
    ['basis', ({ basis }) => basis],
    ['sold', ({ sold }) => sold],
    ['test', ({ test }) => test],
    ['free', ({ free }) => free],
    ['sold_out', ({ soldOut }) => soldOut],
    ['flags', ({ flags }) => flags.join(' ')],
  ],
};
