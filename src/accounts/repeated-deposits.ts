import { equalKey, isStated } from './deposit-order.js';
import { type Group, type JudgedGroup, judgeExtra, judgeOutside } from './judge-group.js';
import type { PlacedDeposit, PlacedSale } from './place-stream.js';

/** What is known of a stream when its rest is judged. */
export interface Matched {
  /** Groups of equal sums. */
  readonly equal: readonly Group[];
  /** Deposits whose sales are proven to be whole; see `proveEnds`. */
  readonly spent: ReadonlySet<PlacedDeposit>;
  /** Sales that nothing matches. */
  readonly unpaid: readonly PlacedSale[];
}

/**
 * Take rows that equal one that matches out of a rest: such a row is extra by itself, whatever else is the matter, and does not
 * hide what is.
 */
export function takeRepeated(group: Group, matched: Matched): { repeated: JudgedGroup[]; others: Group } {
  const repeated = group.deposits.flatMap((deposit): JudgedGroup[] => {
    const equal = matched.equal.find((each) =>
      each.deposits.some((one) => equalKey(one.row) === equalKey(deposit.row)),
    );
    if (equal === undefined) return [];
    return [mayBeOutside(deposit, equal, matched) ? judgeOutside(deposit) : judgeExtra(deposit)];
  });
  const taken = new Set(repeated.flatMap(({ deposits }) => deposits));
  return {
    repeated,
    others: { sales: group.sales, deposits: group.deposits.filter((deposit) => !taken.has(deposit)) },
  };
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
