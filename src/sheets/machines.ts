import { type MachineRow, tellingNumber } from '../model/index.js';
import { quote } from './cell-reading.js';
import {
  currencyColumn,
  identifierColumn,
  keyColumn,
  textColumn,
  wholeColumn,
  wordColumn,
  yesNoColumn,
} from './columns.js';
import { keepAll, keepFirst } from './compare-rows.js';
import type { SheetDescription } from './describe-sheet.js';
import { decimalsFromRoster } from './money-rules.js';
import { percentColumn } from './percent-column.js';
import { readSheet } from './read-sheet.js';
import type { Sheet, SheetReading } from './sheet.js';

/** More than any currency of ISO 4217 has. */
const MOST_DECIMALS = 4;

const MACHINES: SheetDescription<MachineRow, Omit<MachineRow, 'place'>> = {
  name: 'machines',
  columns: {
    machine: keyColumn('machine'),
    asset: identifierColumn('asset'),
    serial: identifierColumn('serial'),
    location: textColumn('location'),
    route: textColumn('route'),
    driver: textColumn('driver'),
    currency: currencyColumn('currency'),
    decimals: wholeColumn('decimals', 0, MOST_DECIMALS),
    hasCash: yesNoColumn('has_cash'),
    hasBills: yesNoColumn('has_bills'),
    hasCard: yesNoColumn('has_card'),
    profile: textColumn('profile'),
    active: yesNoColumn('active'),
    commission: percentColumn('commission_percent'),
    commissionBase: wordColumn('commission_base', ['gross', 'net']),
    tax: percentColumn('tax_percent'),
    taxIncluded: yesNoColumn('tax_included'),
  },
  compareRows(rows) {
    const repeated = keepFirst(
      rows,
      'machine',
      ({ machine }) => machine,
      ({ machine }) => `machine ${quote(machine)}`,
    );
    const left = new Set(repeated.map(({ about }) => about));
    const rest = rows.filter((row) => !left.has(row));
    return [
      ...repeated,
      ...keepAll(rest, 'asset', ({ asset }) => tellingNumber(asset)),
      ...keepAll(rest, 'serial', ({ serial }) => tellingNumber(serial)),
    ];
  },
};

/**
 * Read the roster of machines. Of two rows with one machine the first is kept; an asset or serial that two machines
 * share is a doubt, since a capture with it could belong to either.
 *
 * @param sheet - CSV as a spreadsheet makes it
 * @returns rows in the sheet's order, with findings for everything else; never throws for what the sheet holds
 */
export function readMachines(sheet: Sheet): SheetReading<MachineRow> {
  return readSheet(sheet, MACHINES, decimalsFromRoster([], null));
}
