import type { DayCashRow, DayMachine, DaySalesRow, Period } from '../../day/index.js';
import type { LocalDateTime } from '../../model/index.js';
import type { CellType, ParquetColumn, ParquetTable } from './parquet-table.js';

/** A read of the book, or a file in which there was none. */
export interface CaptureRow {
  readonly entry: number;
  /** Number of the read in its file; null for a file that was set aside. */
  readonly number: number | null;
  readonly kind: 'capture-taken' | 'set-aside';
  readonly file: string;
  readonly sha256: string;
  /** Named as in the other tables. */
  readonly machine: string | null;
  readonly asset: string | null;
  readonly serial: string | null;
  readonly board: string | null;
  readonly clock: LocalDateTime | null;
  readonly receivedAt: LocalDateTime | null;
  readonly reason: string | null;
  readonly bag: string | null;
  readonly verdict: string;
  readonly currency: string | null;
  readonly decimals: number | null;
  readonly duplicateOf: { readonly entry: number; readonly number: number } | null;
  /** Why a file was set aside. */
  readonly message: string | null;
}

type Keys<Row, Value> = { [Key in keyof Row]: Row[Key] extends Value ? Key : never }[keyof Row] & string;

/** A column that is named after the property it shows: `priceFrom` becomes `price_from`. */
function column<Row>(type: CellType, key: Keys<Row, string | number | null>): ParquetColumn<Row> {
  const name = key.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);
  return { name, type, of: (row) => row[key] as string | number | null };
}

const columns = <Row>(type: CellType, ...keys: Keys<Row, string | number | null>[]): ParquetColumn<Row>[] =>
  keys.map((key) => column<Row>(type, key));

// `from` and `to` are words of SQL, so they are named otherwise.
const PLACE: readonly ParquetColumn<DayMachine & Period>[] = [
  ...columns<DayMachine>('text', 'machine', 'location', 'route'),
  { name: 'from_time', type: 'time', of: ({ from }) => from },
  { name: 'to_time', type: 'time', of: ({ to }) => to },
  ...columns<Period>('text', 'currency'),
  ...columns<Period>('small', 'decimals'),
];

const FLAGS: ParquetColumn<{ readonly flags: readonly string[] }> = {
  name: 'flags',
  type: 'text',
  of: ({ flags }) => flags.join(' '),
};

/** What came in: a row a read, and one for each file without any. */
export const CAPTURES_TABLE: ParquetTable<CaptureRow> = {
  name: 'captures',
  columns: [
    ...columns<CaptureRow>('integer', 'entry', 'number'),
    ...columns<CaptureRow>('text', 'kind', 'file', 'sha256', 'machine', 'asset', 'serial', 'board'),
    ...columns<CaptureRow>('time', 'clock', 'receivedAt'),
    ...columns<CaptureRow>('text', 'reason', 'bag', 'verdict', 'currency'),
    ...columns<CaptureRow>('small', 'decimals'),
    { name: 'duplicate_of_entry', type: 'integer', of: ({ duplicateOf }) => duplicateOf?.entry ?? null },
    { name: 'duplicate_of_number', type: 'integer', of: ({ duplicateOf }) => duplicateOf?.number ?? null },
    ...columns<CaptureRow>('text', 'message'),
  ],
};

/** What the columns of machines sold: a row a column and interval. Money in minor units of `currency`, with `decimals`. */
export const COLUMNS_TABLE: ParquetTable<DaySalesRow> = {
  name: 'columns',
  columns: [
    ...PLACE,
    ...columns<DaySalesRow>('text', 'column', 'product'),
    ...columns<DaySalesRow>('integer', 'sold', 'value', 'test', 'free', 'priceFrom', 'priceTo', 'pricePlan'),
    ...columns<DaySalesRow>('integer', 'loss', 'unexplained'),
    FLAGS,
  ],
};

/** What the cash of machines did: a row an interval. Money in minor units of `currency`, with `decimals`. */
export const CASH_EXPORT_TABLE: ParquetTable<DayCashRow> = {
  name: 'cash',
  columns: [
    ...PLACE,
    ...columns<DayCashRow>('integer', 'sold', 'value', 'cashIn', 'toCashBox', 'toTubes', 'bills', 'dispensed'),
    ...columns<DayCashRow>('integer', 'byHand', 'filled', 'overpaid', 'cashSales', 'cardSales', 'tokenSales'),
    ...columns<DayCashRow>('integer', 'credited', 'tubesFrom', 'tubesTo', 'tubeDifference', 'customerDifference'),
    FLAGS,
  ],
};

/** All tables there are. */
export const EXPORT_TABLES = [CAPTURES_TABLE, COLUMNS_TABLE, CASH_EXPORT_TABLE] as const;
