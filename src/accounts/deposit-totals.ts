import { addAll, type DepositRow, type Minor } from '../model/index.js';
import type { DepositMatch, DepositState, DepositTotals } from './deposit-match.js';
import { shareFees } from './fee-share.js';

/** Whether a deposit gives its fees, and figures that add up. */
export function isFeeKnown({ fees, net, mismatch }: DepositRow): boolean {
  return fees !== null && net !== null && mismatch === null;
}

/** Sums over all matches, one for each kind of money: nothing is added across them. */
export function sumDeposits(matches: readonly DepositMatch[]): DepositTotals[] {
  const kinds = new Map<string, DepositMatch[]>();
  for (const match of matches) {
    const key = JSON.stringify([match.currency, match.decimals]);
    const own = kinds.get(key);
    if (own === undefined) kinds.set(key, [match]);
    else own.push(match);
  }
  return [...kinds.values()].map(sumOneMoney);
}

function sumOneMoney(matches: readonly DepositMatch[]): DepositTotals {
  const { currency, decimals } = matches[0]!;
  const deposits = matches.flatMap((match) => match.deposits);
  const known = deposits.filter(isFeeKnown);
  const fees = known.length === 0 ? null : addAll(known.map((row) => row.fees));
  return {
    currency,
    decimals,
    deposits: deposits.length,
    gross: addAll(deposits.map(({ gross }) => gross)),
    fees,
    net: known.length === 0 ? null : addAll(known.map(({ net }) => net)),
    // The rate over all of them is of the sums, not the mean of their rates.
    fee: shareFees(fees, addAll(known.map(({ gross }) => gross))),
    withoutFees: deposits.length - known.length,
    sales: {
      matched: salesOf(matches, 'matched'),
      differing: salesOf(matches, 'differing'),
      missing: salesOf(matches, 'missing'),
      extra: salesOf(matches, 'extra'),
      open: salesOf(matches, 'open'),
      unclear: salesOf(matches, 'unclear'),
    },
  };
}

function salesOf(matches: readonly DepositMatch[], state: DepositState): Minor | null {
  const sold = matches.filter((match) => match.state === state && match.intervals.length > 0);
  return addAll(sold.map(({ sales }) => sales));
}
