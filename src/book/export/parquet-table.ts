import type { LocalDateTime } from '../../model/index.js';

/**
 * What stands in a column. `integer` and `small`: INT64 and INT32. `text`: UTF-8. `time`: a local date and time without a zone
 * (TIMESTAMP, not adjusted to UTC, in milliseconds). Any of them may be null, which is not known, never 0; there are no floats.
 */
export type CellType = 'integer' | 'small' | 'text' | 'time';

/** One column of a table, and where its cells come from. */
export interface ParquetColumn<Row> {
  readonly name: string;
  readonly type: CellType;
  readonly of: (row: Row) => string | number | null;
}

/** A table that is written to Parquet files, one row after the other. */
export interface ParquetTable<Row> {
  readonly name: string;
  readonly columns: readonly ParquetColumn<Row>[];
}

/** An element of a file's schema, of those that are needed here. */
export interface SchemaElement {
  readonly name: string;
  readonly type?: 'INT32' | 'INT64' | 'BYTE_ARRAY';
  readonly num_children?: number;
  readonly repetition_type?: 'OPTIONAL';
  readonly converted_type?: 'UTF8';
  readonly logical_type?: { readonly type: 'TIMESTAMP'; readonly isAdjustedToUTC: false; readonly unit: 'MILLIS' };
}

const ELEMENTS: Readonly<Record<CellType, Omit<SchemaElement, 'name'>>> = {
  integer: { type: 'INT64' },
  small: { type: 'INT32' },
  text: { type: 'BYTE_ARRAY', converted_type: 'UTF8' },
  time: { type: 'INT64', logical_type: { type: 'TIMESTAMP', isAdjustedToUTC: false, unit: 'MILLIS' } },
};

/** The schema of a table's files. @see Apache Parquet format, `SchemaElement` and the logical type TIMESTAMP */
export function makeParquetSchema<Row>({ columns }: ParquetTable<Row>): SchemaElement[] {
  const elements = columns.map(({ name, type }) => ({ name, repetition_type: 'OPTIONAL' as const, ...ELEMENTS[type] }));
  return [{ name: 'root', num_children: columns.length }, ...elements];
}

/** A value as it is stored. */
export type Cell = string | number | bigint | null;

/** The cells of a column. @throws RangeError for a number that is no safe integer, or no time: a defect */
export function makeCells<Row>({ name, type, of }: ParquetColumn<Row>, rows: readonly Row[]): Cell[] {
  return rows.map((row) => {
    const value = of(row);
    if (value === null || type === 'text') return value;
    const number = type === 'time' ? toMilliseconds(value as LocalDateTime) : (value as number);
    if (!Number.isSafeInteger(number)) throw new RangeError(`${name} can not be ${value}`);
    return type === 'small' ? number : BigInt(number);
  });
}

/** Milliseconds from 1970 to a local time, as if it were one in UTC: what a TIMESTAMP that is not adjusted holds. */
function toMilliseconds(time: LocalDateTime): number {
  return Date.parse(`${time.length === 10 ? `${time}T00:00:00` : time}Z`);
}
