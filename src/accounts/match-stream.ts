import { bestTime } from '../interval/index.js';
import type { DepositRow } from '../model/index.js';
import { alignSums } from './align-sums.js';
import type { CardSales } from './card-sales.js';
import type { CardStream } from './card-streams.js';
import { type Group, judgeEqual, judgeRest, judgeSeveral, type Verdict } from './judge-group.js';
import { type PlacedStream, placeStream, type SheetFrame } from './place-stream.js';

/** Sales and deposits that stand against each other, or one without the other, and how they stand. */
export interface StreamGroup extends Verdict {
  readonly sales: readonly CardSales[];
  readonly deposits: readonly DepositRow[];
}

/**
 * Put the card sales and deposits of one stream together: by equal sums first; what is left between these, by the days that
 * they have in common. In order of time.
 */
export function matchStream(stream: CardStream, frame: SheetFrame): StreamGroup[] {
  const placed = placeStream(stream, frame);
  const { sales, deposits } = placed;
  const parts = alignSums(
    sales.map(({ dated }) => dated),
    deposits.map(({ dated }) => dated),
  );
  const groups = parts.flatMap(({ kind, sales: s, deposits: d }): (Group & Verdict)[] => {
    const group = { sales: sales.slice(s[0], s[1]), deposits: deposits.slice(d[0], d[1]) };
    if (kind === 'rest') return judgeRest(group, placed);
    return [{ ...group, ...(kind === 'equal' ? judgeEqual(group) : judgeSeveral(group)) }];
  });
  const plain = groups.map(
    (group): StreamGroup => ({
      ...group,
      sales: group.sales.flatMap((each) => each.sales),
      deposits: group.deposits.map(({ row }) => row),
    }),
  );
  return [...judgeAside(placed), ...plain].sort((a, b) => compareTimes(timeOf(a), timeOf(b)));
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

/** Sales come by the read that they begin with, deposits without sales by their own day; what has no time comes last. */
function timeOf({ sales, deposits }: StreamGroup): string {
  const [sale] = sales;
  if (sale !== undefined) return bestTime(sale.interval.from) ?? '9';
  return deposits[0]!.periodFrom ?? deposits[0]!.date;
}

const compareTimes = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
