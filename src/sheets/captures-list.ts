import type { CaptureListRow } from '../model/index.js';
import { quote } from './cell-reading.js';
import { identifierColumn, keyColumn, timeColumn, wholeColumn, wordColumn, yesNoColumn } from './columns.js';
import { keepFirst } from './compare-rows.js';
import type { SheetDescription } from './describe-sheet.js';
import { decimalsFromRoster } from './money-rules.js';
import { readSheet } from './read-sheet.js';
import type { Sheet, SheetReading } from './sheet.js';

const CAPTURES_LIST: SheetDescription<CaptureListRow, Omit<CaptureListRow, 'place'>> = {
  name: 'captures list',
  columns: {
    file: keyColumn('file'),
    receivedAt: timeColumn('received_at'),
    reason: wordColumn('reason', ['scheduled', 'on demand', 'service']),
    // As a modem reports it.
    signal: wholeColumn('signal', 1, 31),
    machine: identifierColumn('machine'),
    bag: identifierColumn('bag'),
    // A service visit is taken to have filled to par unless this says no; yes says so of any other capture.
    filled: yesNoColumn('filled'),
  },
  compareRows: (rows) =>
    keepFirst(
      rows,
      'file',
      ({ file }) => file,
      ({ file }) => `file ${quote(file)}`,
    ),
};

/**
 * Read the captures list: what the receiving side knew of each capture. Of two rows with one file the first is kept.
 *
 * @param sheet - CSV as a spreadsheet makes it
 * @returns rows in the sheet's order, with findings for everything else; never throws for what the sheet holds
 */
export function readCapturesList(sheet: Sheet): SheetReading<CaptureListRow> {
  return readSheet(sheet, CAPTURES_LIST, decimalsFromRoster([], null));
}
