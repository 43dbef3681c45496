import type { DepositRow } from '../model/index.js';
import { alignSums } from './align-sums.js';
import type { CardSales } from './card-sales.js';
import type { CardStream } from './card-streams.js';
import { dayNumber } from './days.js';
import { type Group, judgeEqual, judgeRest, judgeSeveral, type Verdict } from './judge-group.js';
import { type PlacedStream, placeStream, type SheetDays } from './place-stream.js';

/** Sales and deposits that stand against each other, or one without the other, and how they stand. */
export interface StreamGroup extends Verdict {
  readonly sales: readonly CardSales[];
  readonly deposits: readonly DepositRow[];
}

/**
 * Put the card sales and deposits of one stream together: by equal sums first; what is left between these, by the days that
 * they have in common. In order of time.
 *
 * @param sheet - the days that the sheet of deposits covers; null when it has none
 */
export function matchStream(stream: CardStream, sheet: SheetDays | null, windowDays: number): StreamGroup[] {
  const placed = placeStream(stream, sheet, windowDays);
  const { sales, deposits } = placed;
  const parts = alignSums(
    sales.map(({ dated }) => dated),
    deposits.map(({ dated }) => dated),
  );
  const groups = parts.flatMap(({ kind, sales: s, deposits: d }): (Group & Verdict)[] => {
    const group = { sales: sales.slice(...s), deposits: deposits.slice(...d) };
    if (kind === 'rest') return judgeRest(group);
    return [{ ...group, ...(kind === 'equal' ? judgeEqual(group) : judgeSeveral(group)) }];
  });
  const plain = groups.map(
    (group): StreamGroup => ({
      ...group,
      sales: group.sales.map((each) => each.sales),
      deposits: group.deposits.map(({ row }) => row),
    }),
  );
  return [...judgeAside(placed), ...plain].sort((a, b) => firstDay(a) - firstDay(b));
}

/** Sales without a time, and deposits of nothing or less. */
function judgeAside({ untimed, notPaid }: PlacedStream): StreamGroup[] {
  const ofSales = untimed.map((sales): StreamGroup => {
    return { sales: [sales], deposits: [], state: 'unclear', reason: 'no-time', difference: null, isAtLeast: false };
  });
  const ofDeposits = notPaid.map((row): StreamGroup => {
    const own = { sales: [], deposits: [row], difference: row.gross, isAtLeast: false };
    // A row of fees alone needs no sales.
    return row.gross === 0
      ? { ...own, state: 'matched', reason: null }
      : { ...own, state: 'extra', reason: 'taken-back' };
  });
  return [...ofSales, ...ofDeposits];
}

/** Sales come by their first day, deposits without sales by their own. */
function firstDay({ sales, deposits }: StreamGroup): number {
  const [sale] = sales;
  if (sale !== undefined) return sale.span?.first ?? Number.POSITIVE_INFINITY;
  return dayNumber(deposits[0]!.periodFrom ?? deposits[0]!.date);
}
