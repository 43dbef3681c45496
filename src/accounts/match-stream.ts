import { bestTime, type DepositRow } from '../model/index.js';
import type { CardSales } from './card-sales.js';
import type { CardStream } from './card-streams.js';
import { type Group, type JudgedGroup, judgeEqual, judgeRest, judgeSeveral, type Verdict } from './judge-group.js';
import { type PlacedStream, placeStream, type SheetFrame } from './place-stream.js';
import { proveEnds } from './proven-ends.js';
import { takeRepeated } from './repeated-deposits.js';
import { settleRounds } from './settle-rounds.js';

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
  const { equal, several, rest } = settleRounds(placed);
  const { sales: sealed, spent } = proveEnds(placed.sales, equal);
  const all: Group = {
    sales: [...sealed.values()],
    deposits: placed.deposits.filter((deposit) => !spent.has(deposit)),
  };
  const unpaid = rest.flatMap(({ sales }) => sales);
  const matched = { equal, spent, unpaid };
  const judged: JudgedGroup[] = [
    ...equal.map((group) => ({ ...group, ...judgeEqual(group) })),
    ...several.map((group) => ({ ...group, ...judgeSeveral(group) })),
    ...rest.flatMap((group) => {
      const whole = { ...group, sales: group.sales.map((sale) => sealed.get(sale)!) };
      const { repeated, others } = takeRepeated(whole, matched);
      return [...repeated, ...judgeRest(others, all)];
    }),
  ];
  const plain = judged.map(
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
