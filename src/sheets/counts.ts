import { add, type CountRow, formatMinor, type Minor, type UnusableCount } from '../model/index.js';
import { type CellContext, quote } from './cell-reading.js';
import {
  dateOrTimeColumn,
  identifierColumn,
  keyColumn,
  moneyColumn,
  textColumn,
  whenColumn,
  wholeColumn,
} from './columns.js';
import { findRepeats, repeatProblem } from './compare-rows.js';
import { countPieces, type Denomination, type PieceSums, readDenomination } from './denominations.js';
import type { ExtraCell, FinishedRow, ReadRow, RowProblem, RowVerdict, SheetDescription } from './describe-sheet.js';
import type { MoneyRules } from './money-rules.js';
import { readSheet } from './read-sheet.js';
import type { Sheet, SheetReading } from './sheet.js';

type CountValues = Omit<CountRow, 'place' | 'denominations'>;

// A bag with a part of its money unread would look like a bag with less in it.
const COUNTED = { spoils: 'row' } as const;

const COUNTS: SheetDescription<CountRow, CountValues, Denomination> = {
  name: 'counts',
  columns: {
    machine: keyColumn('machine'),
    visitedAt: whenColumn('visited_at'),
    bag: identifierColumn('bag'),
    coins: moneyColumn('coins', COUNTED),
    bills: moneyColumn('bills', COUNTED),
    route: textColumn('route'),
    driver: textColumn('driver'),
    countedAt: dateOrTimeColumn('counted_at'),
    note: textColumn('note'),
    paidOut: moneyColumn('paid_out', COUNTED),
    filled: moneyColumn('filled', COUNTED),
    floatIssued: moneyColumn('float_issued', COUNTED),
    capture: identifierColumn('capture'),
    // A row that says what it corrects, and not so that it can be read, must not be taken for a bag of its own.
    corrects: wholeColumn('corrects', 0, undefined, COUNTED),
  },
  readExtra: readDenomination,
  amountOfExtra: ({ amount }) => amount,
  findMissing: (names, extras) =>
    names.has('coins') || names.has('bills') || extras.length > 0 ? null : 'coins or bills',
  finishRow,
  compareRows,
};

/**
 * Read the counts: one row a bag of money as counted by hand, amounts in minor units of the machine's currency. Coins and
 * bills come from their columns, else from the pieces of each denomination; what is in neither is null (not known), never 0.
 *
 * A bag that two rows name is kept twice, with a doubt, unless the rows are the same in every cell.
 *
 * @param sheet - CSV as a spreadsheet makes it
 * @param money - decimals and currency of each machine; see `decimalsFromRoster`
 * @returns rows in the sheet's order, with findings for everything else; never throws for what the sheet holds
 */
export function readCounts(sheet: Sheet, money: MoneyRules): SheetReading<CountRow> {
  return readSheet(sheet, COUNTS, money);
}

/**
 * The rows of a count sheet that could not be used, as far as they could be read: each is a bag that somebody counted.
 *
 * @param reading - what {@link readCounts} gave
 */
export function listUnusable({ refused = [], findings }: SheetReading<CountRow>): UnusableCount[] {
  return refused.map(({ machine, values, place }) => {
    const known = values as Partial<CountValues>;
    const { message = `Row ${place.row} could not be used.` } =
      findings.find(({ row, severity }) => row === place.row && severity !== 'note') ?? {};
    const { visitedAt = null, bag = null, route = null, driver = null } = known;
    return { machine, visitedAt, bag, route, driver, why: message, place };
  });
}

function finishRow(
  values: CountValues,
  cells: readonly ExtraCell<Denomination>[],
  context: CellContext,
): FinishedRow<CountRow> {
  const { counts, sums, problems } = countPieces(cells, context);
  if (problems.length > 0) return { row: null, problems };
  const coins = values.coins ?? sums.coins;
  const bills = values.bills ?? sums.bills;
  const doubts = compareWithPieces(values, sums, context);
  if (coins !== null || bills !== null)
    return { row: { ...values, coins, bills, denominations: counts }, problems: doubts };
  const says = sums.undecided === null ? 'gives neither coins nor bills' : UNDECIDED;
  const expected = 'an amount in coins, in bills or in both';
  return { row: null, problems: [{ code: 'bad-row', says, expected, spoils: 'row' }] };
}

const UNDECIDED =
  "has denominations that may be coins or bills, since their headers do not say and the notes of the machine's currency are not known";

/** Where a bag is given as amounts and as pieces: whether the two agree. */
function compareWithPieces(values: CountValues, sums: PieceSums, context: CellContext): RowProblem[] {
  const doubts: RowProblem[] = [];
  const compare = (field: string, stated: Minor | null, pieces: Minor | null): void => {
    if (stated === null || pieces === null || stated === pieces) return;
    const [a, b] = [stated, pieces].map((amount) => formatMinor(amount, context.decimals!));
    const says = `${field} is ${a} by its column and ${b} by the pieces of each denomination`;
    const done = 'The amount of the column is used.';
    doubts.push({ code: 'bad-cell', says, expected: b!, received: a!, field, spoils: 'nothing', done });
  };
  if (sums.undecided === null) {
    compare('coins', values.coins, sums.coins);
    compare('bills', values.bills, sums.bills);
  } else if (values.coins !== null && values.bills !== null) {
    const pieces = add(sums.coins ?? 0, sums.bills ?? 0, sums.undecided);
    compare('coins and bills', add(values.coins, values.bills), pieces);
  } else {
    doubts.push({
      code: 'bad-cell',
      says: UNDECIDED,
      spoils: 'nothing',
      done: 'They are left aside; the row is used.',
    });
  }
  return doubts;
}

function compareRows(rows: readonly ReadRow<CountRow>[]): RowVerdict<CountRow>[] {
  const verdicts: RowVerdict<CountRow>[] = [];
  const again = new Set<ReadRow<CountRow>>();
  for (const { first, again: about } of findRepeats(rows, ({ cells }) => JSON.stringify(cells))) {
    const { bag } = about.row;
    const says = `is the same as row ${first.row.place.row} in every cell`;
    if (bag === null) {
      verdicts.push({
        about,
        problem: repeatProblem(`${says} and names no bag`, 'bag', first, 'nothing', 'Both rows are used.'),
      });
    } else {
      again.add(about);
      verdicts.push({ about, problem: repeatProblem(`${says}, bag ${quote(bag)} included`, 'bag', first, 'row') });
    }
  }
  const rest = rows.filter((row) => !again.has(row));
  for (const { first, again: about } of findRepeats(rest, ({ row }) => row.bag)) {
    const says = `bag ${quote(about.row.bag!)} was counted in row ${first.row.place.row} already, with other cells`;
    verdicts.push({ about, problem: repeatProblem(says, 'bag', first, 'nothing', 'Both rows are used.') });
  }
  return verdicts;
}
