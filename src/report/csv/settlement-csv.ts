import type { Settlement, Visit } from '../../settlement/index.js';
import type { BookFactsJson } from '../shapes/closing.js';
import { type CsvCell, csvText } from './csv.js';
import { type CsvColumn, type CsvTable, csvAmount, csvTime } from './csv-table.js';

/** One row of {@link VISITS_TABLE}. */
export interface VisitRow {
  readonly settlement: Settlement;
  readonly visit: Visit;
}

/** The rows of a settled round: one a visit. */
export function visitRows(settlement: Settlement): VisitRow[] {
  return settlement.visits.map((visit) => ({ settlement, visit }));
}

const money =
  (pick: (visit: Visit) => number | null) =>
  ({ visit }: VisitRow): CsvCell =>
    csvAmount(pick(visit), visit.decimals);

/** One row a visit: what was expected, counted, over or short. */
export const VISITS_TABLE: CsvTable<VisitRow> = {
  columns: [
    ['route', ({ visit }) => csvText(visit.route)],
    ['day', ({ settlement }) => settlement.day],
    ['machine', ({ visit }) => csvText(visit.machine)],
    ['location', ({ visit }) => csvText(visit.location)],
    ['driver', ({ visit }) => csvText(visit.driver)],
    ['visited_at', ({ visit }) => csvTime(visit.visitedAt)],
    ['bag', ({ visit }) => csvText(visit.bag)],
    ['state', ({ visit }) => visit.state],
    ['matched_by', ({ visit }) => visit.matchedBy],
    ['currency', ({ visit }) => visit.currency],
    ['decimals', ({ visit }) => visit.decimals],
    ['expected_coins', money(({ expected }) => expected.coins)],
    ['expected_bills', money(({ expected }) => expected.bills)],
    ['expected_is_floor', ({ visit }) => (visit.expectedIsFloor ? 'yes' : 'no')],
    ['counted_coins', money(({ counted }) => counted.coins)],
    ['counted_bills', money(({ counted }) => counted.bills)],
    ['over_short_coins', money(({ overShort }) => overShort.coins)],
    ['over_short_bills', money(({ overShort }) => overShort.bills)],
    ['over_short_total', money(({ overShort }) => overShort.total)],
    ['sold', ({ visit }) => visit.sales.sold],
    ['value', money(({ sales }) => sales.value)],
    ['card_sales', money(({ sales }) => sales.cardSales)],
    ['loss', money(({ sales }) => sales.loss)],
    ['capture', ({ visit }) => csvText(visit.capture)],
    ['since', ({ visit }) => csvText(visit.since)],
    ['findings', ({ visit }) => [...new Set(visit.findings.map(({ code }) => code))].join(' ')],
  ],
};

/** One row of {@link BOOK_VISITS_TABLE}. */
export interface BookVisitRow {
  readonly settlement: Settlement;
  /** As it stands; null where it is gone since the closing. */
  readonly visit: Visit | null;
  /** As it was closed; null while the round is open, and where it was no visit then. */
  readonly asClosed: Visit | null;
  readonly inBook: BookFactsJson;
}

/** What says which visit a row is of: also of one that is gone. */
const NAMING: ReadonlySet<string> = new Set([
  'route',
  'day',
  'machine',
  'location',
  'visited_at',
  'bag',
  'currency',
  'decimals',
]);

const closedMoney =
  (pick: (visit: Visit) => number | null) =>
  ({ asClosed }: BookVisitRow): CsvCell =>
    asClosed === null ? null : csvAmount(pick(asClosed), asClosed.decimals);

/** One row a visit of a round that was looked up in a book: as it stands, as it was closed, and which entries adjust it. */
export const BOOK_VISITS_TABLE: CsvTable<BookVisitRow> = {
  columns: [
    ...VISITS_TABLE.columns.map(
      ([name, cell]): CsvColumn<BookVisitRow> => [
        name,
        ({ settlement, visit, asClosed }) => {
          const shown = visit ?? (NAMING.has(name) ? asClosed : null);
          return shown === null ? null : cell({ settlement, visit: shown });
        },
      ],
    ),
    ['closed_entry', ({ inBook }) => inBook.closing?.entry ?? null],
    ['as_closed_state', ({ asClosed }) => asClosed?.state ?? null],
    ['as_closed_driver', ({ asClosed }) => csvText(asClosed?.driver ?? null)],
    ['as_closed_expected_coins', closedMoney(({ expected }) => expected.coins)],
    ['as_closed_expected_bills', closedMoney(({ expected }) => expected.bills)],
    ['as_closed_counted_coins', closedMoney(({ counted }) => counted.coins)],
    ['as_closed_counted_bills', closedMoney(({ counted }) => counted.bills)],
    ['as_closed_over_short_total', closedMoney(({ overShort }) => overShort.total)],
    [
      'adjusted_by',
      (row) =>
        row.inBook.adjustments
          .filter(({ changes }) => isOf(changes, row))
          .map(({ entry }) => entry)
          .join(' '),
    ],
    [
      'changed_since',
      ({ inBook, ...row }) => (inBook.closing === null ? null : isOf(inBook.pending, row) ? 'yes' : 'no'),
    ],
  ],
};

function isOf(
  changes: BookFactsJson['pending'],
  { visit, asClosed }: Pick<BookVisitRow, 'visit' | 'asClosed'>,
): boolean {
  return [visit, asClosed].some(
    (one) =>
      one !== null &&
      changes.some(
        ({ machine, bag, visitedAt }) => machine === one.machine && bag === one.bag && visitedAt === one.visitedAt,
      ),
  );
}
