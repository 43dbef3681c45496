import type { PlanRow } from '../model/index.js';
import { quote } from './cell-reading.js';
import { dateColumn, keyColumn, moneyColumn, textColumn, wholeColumn } from './columns.js';
import { keepFirst } from './compare-rows.js';
import type { SheetDescription } from './describe-sheet.js';
import type { MoneyRules } from './money-rules.js';
import { readSheet } from './read-sheet.js';
import type { Sheet, SheetReading } from './sheet.js';

const PLAN: SheetDescription<PlanRow, Omit<PlanRow, 'place'>> = {
  name: 'plan',
  columns: {
    machine: keyColumn('machine'),
    column: keyColumn('column'),
    product: textColumn('product'),
    // A price that cannot be read is not known; without the row an older one would seem to be in force.
    price: moneyColumn('price', { isMandatory: true }),
    cardPrice: moneyColumn('card_price'),
    par: wholeColumn('par', 0),
    capacity: wholeColumn('capacity', 0),
    from: dateColumn('from'),
  },
  compareRows: (rows) =>
    keepFirst(
      rows,
      'column',
      ({ machine, column, from }) => JSON.stringify([machine, column, from]),
      ({ machine, column, from }) =>
        `column ${quote(column)} of machine ${quote(machine)}${from === null ? '' : ` from ${from}`}`,
    ),
};

/**
 * Read the plan: what each column of each machine sells and at which price, in minor units. Of two rows for one column
 * with one date the first is kept.
 *
 * @param sheet - CSV as a spreadsheet makes it
 * @param money - decimals and currency of each machine; see `decimalsFromRoster`
 * @returns rows in the sheet's order, with findings for everything else; never throws for what the sheet holds
 */
export function readPlan(sheet: Sheet, money: MoneyRules): SheetReading<PlanRow> {
  return readSheet(sheet, PLAN, money);
}
