import { dayNumber, haveCommonDay } from './days.js';
import { equalKey, isStated } from './deposit-order.js';
import { type Group, type JudgedGroup, judgeExtra, judgeLoneDeposit } from './judge-group.js';
import type { PlacedDeposit, PlacedSale } from './place-stream.js';

/** What is known of a stream when its rest is judged. */
export interface Matched {
  /** Groups of equal sums. */
  readonly equal: readonly Group[];
  /** Deposits whose sales are proven to be whole; see `proveEnds`. */
  readonly spent: ReadonlySet<PlacedDeposit>;
  /** Sales that nothing matches. */
  readonly unpaid: readonly PlacedSale[];
  readonly windowDays: number;
}

/**
 * Take rows that were paid again out of a rest, so that they do not hide what is the matter with other sales. A row that equals
 * one that matches is extra by itself. One of the same amount within the window, both without stated days, is taken to be
 * paid again only where all that it could be for instead is not due yet: else two things would have to be wrong at once.
 *
 * @param all - everything in the stream that may still explain something
 */
export function takeRepeated(group: Group, all: Group, matched: Matched): { repeated: JudgedGroup[]; others: Group } {
  const repeated = group.deposits.flatMap((deposit): JudgedGroup[] => {
    const equal = matched.equal.find((each) =>
      each.deposits.some((one) => equalKey(one.row) === equalKey(deposit.row)),
    );
    if (equal !== undefined) {
      return [mayBeOutside(deposit, equal, matched) ? judgeOutside(deposit) : judgeExtra(deposit)];
    }
    const alike = isStated(deposit.row) ? undefined : findAlike(deposit, matched);
    if (alike === undefined || !isAllOpen(deposit, group)) return [];
    const inside = mayBeOutside(deposit, alike, matched) ? deposit : withoutLeave(deposit);
    return [judgeLoneDeposit(inside, all)].map((one) => ({ ...one, deposits: [deposit] }));
  });
  const taken = new Set(repeated.flatMap(({ deposits }) => deposits));
  return {
    repeated,
    others: { sales: group.sales, deposits: group.deposits.filter((deposit) => !taken.has(deposit)) },
  };
}

const withoutLeave = (deposit: PlacedDeposit): PlacedDeposit => ({
  ...deposit,
  dated: { ...deposit.dated, mayBeLeft: null },
});

function judgeOutside(deposit: PlacedDeposit): JudgedGroup {
  return { sales: [], deposits: [deposit], state: 'open', reason: 'outside-reads', difference: null, isAtLeast: false };
}

/**
 * Whether a row may be for sales before the first read or after the last although one like it is not. Processors pay in order
 * (common practice): not where an earlier, or later, payment is for sales between the reads, or some between them are unpaid.
 */
function mayBeOutside({ row, dated }: PlacedDeposit, like: Group, { equal, spent, unpaid }: Matched): boolean {
  const { mayBeLeft } = dated;
  if (mayBeLeft === null || (isStated(row) && like.deposits.every((deposit) => spent.has(deposit)))) return false;
  const [first, last] = [like.sales[0]!.dated.span.first, like.sales.at(-1)!.dated.span.last];
  const dates = equal.flatMap(({ deposits }) => deposits.map((deposit) => deposit.row.date));
  const isInside = {
    before: dates.some((date) => date < row.date) || unpaid.some((sale) => sale.dated.span.last < first),
    after: dates.some((date) => date > row.date) || unpaid.some((sale) => sale.dated.span.first > last),
  };
  return mayBeLeft === 'either' ? !isInside.before || !isInside.after : !isInside[mayBeLeft];
}

/** Sales that match a payment of the same amount within the window. */
function findAlike({ row }: PlacedDeposit, { equal, windowDays }: Matched): Group | undefined {
  const day = dayNumber(row.date);
  return equal.find(({ deposits }) =>
    deposits.some(
      (other) =>
        !isStated(other.row) &&
        other.row.gross === row.gross &&
        Math.abs(dayNumber(other.row.date) - day) <= windowDays,
    ),
  );
}

/** Whether all that a deposit could be for is not due, or was paid before the sheet begins. */
function isAllOpen({ dated }: PlacedDeposit, { sales }: Group): boolean {
  return sales.filter((sale) => haveCommonDay(sale.dated.span, dated.span)).every(({ open }) => open !== null);
}
