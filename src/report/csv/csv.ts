import { stringify } from 'csv-stringify/sync';
import { printable } from '../../findings/index.js';

/** A cell: a figure or an identifier of our own making, text from outside, or null for what is not known. */
export type CsvCell = string | number | null | CsvText;

/** Text from a capture or a sheet, which must not act as a formula. See {@link csvText}. */
export interface CsvText {
  readonly text: string;
}

const LONGEST_CELL = 1000;
// What spreadsheets take as the start of a formula, full-width forms included (OWASP, "CSV Injection").
const FORMULA = /^[=+\-@\t\r\uff1d\uff0b\uff0d\uff20]/;
const PLAIN_NUMBER = /^[+-]?\d+(?:[.,]\d+)?$/;

/**
 * Text from outside as a cell: hidden characters made visible, and what a spreadsheet would take for a formula made
 * harmless by an apostrophe before it. A plain number stays one.
 */
export function csvText(text: string | null): CsvText | null {
  if (text === null) return null;
  const isFormula = FORMULA.test(text) && !PLAIN_NUMBER.test(text);
  return { text: (isFormula ? "'" : '') + printable(text, LONGEST_CELL) };
}

/** Rows as CSV (RFC 4180: CR LF, quotes doubled). A cell that is not known is empty, so that it can not be taken for 0. */
export function writeCsv(rows: readonly (readonly CsvCell[])[]): string {
  return stringify(
    rows.map((row) => row.map((cell) => (cell === null ? '' : typeof cell === 'object' ? cell.text : String(cell)))),
    { record_delimiter: 'windows' },
  );
}
