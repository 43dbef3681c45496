import type { Settlement, Visit } from '../../settlement/index.js';
import { type CsvCell, csvText } from './csv.js';
import { type CsvTable, csvAmount, csvTime } from './csv-table.js';

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
