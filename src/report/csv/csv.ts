import { stringify } from 'csv-stringify/sync';
import { printable } from '../../findings/index.js';

/** A cell: a figure or an identifier of our own making, text from outside, or null for what is not known. */
export type CsvCell = string | number | null | CsvText;

/** Text from a capture or a sheet, which must not act as a formula. See {@link csvText}. */
export interface CsvText {
  readonly text: string;
  /** The same as it stands in a file: in quotes where it needs them. */
  readonly written: string;
}

const LONGEST_CELL = 1000;
// What spreadsheets take as the start of a formula, full-width forms included (OWASP, "CSV Injection").
const FORMULA = /^[=+\-@\t\r\uff1d\uff0b\uff0d\uff20]/;
const PLAIN_NUMBER = /^[+-]?\d+(?:[.,]\d+)?$/;

// A cell alone: what csv-stringify makes of it is what it makes of it in any row.
const CELL_ALONE = { eof: false, record_delimiter: 'windows' } as const;
const MAY_NEED_QUOTES = /[",\r\n]/;
const LINE_END = '\r\n';

/** Names of machines, places and products stand in many rows and tables: each is made fit and put in quotes once. */
const knownTexts = new Map<string, CsvText>();
const MOST_KNOWN = 4096;
const LONGEST_KNOWN = 100;

/**
 * Text from outside as a cell: hidden characters made visible, and what a spreadsheet would take for a formula made
 * harmless by an apostrophe before it. A plain number stays one.
 */
export function csvText(text: string | null): CsvText | null {
  if (text === null) return null;
  const known = knownTexts.get(text);
  if (known !== undefined) return known;
  const isFormula = FORMULA.test(text) && !PLAIN_NUMBER.test(text);
  const shown = (isFormula ? "'" : '') + printable(text, LONGEST_CELL);
  const made: CsvText = { text: shown, written: stringify([[shown]], CELL_ALONE) };
  if (text.length <= LONGEST_KNOWN) {
    if (knownTexts.size >= MOST_KNOWN) knownTexts.clear();
    knownTexts.set(text, made);
  }
  return made;
}

/**
 * Rows as CSV (RFC 4180: CR LF, quotes doubled). A cell that is not known is empty, so that it can not be taken for 0.
 *
 * Text goes through csv-stringify; figures and our own identifiers, which are most of a table, do not where they hold
 * nothing that it would put in quotes.
 */
export function writeCsv(rows: readonly (readonly CsvCell[])[]): string {
  let lines = '';
  for (const row of rows) lines += row.map(writeCell).join(',') + LINE_END;
  return lines;
}

function writeCell(cell: CsvCell): string {
  if (cell === null) return '';
  if (typeof cell === 'number') return String(cell);
  if (typeof cell === 'object') return cell.written;
  return MAY_NEED_QUOTES.test(cell) ? stringify([[cell]], CELL_ALONE) : cell;
}
