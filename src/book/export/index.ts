// Export: what is in a book → files that an existing engine reads, for when one machine is too small.
// In: a book, the roster of today, a span of days. Out: tables in Parquet, a folder a day.
// Must not know: how a command is typed, what the engine asks of the tables.
export { type ExportOptions, type ExportTally, exportBook } from './export-book.js';
export { ExportError } from './export-error.js';
export type { ExportSpan } from './export-folder.js';
export type { CellType, ParquetColumn, ParquetTable } from './parquet-table.js';
export type { Stretch } from './plan-export.js';
export { CAPTURES_TABLE, CASH_EXPORT_TABLE, type CaptureRow, COLUMNS_TABLE, EXPORT_TABLES } from './tables.js';
